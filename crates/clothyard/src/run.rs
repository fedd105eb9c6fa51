//! `clothyard run`: answer the question, write the report.

use study::{Plan, Question};

use crate::failure::Failure;
use crate::progress::{MOST_UNASKED, RunBar};
use crate::{Stream, ask, cli, interrupt, marks, tell};

pub(crate) fn run(order: &cli::RunOrder, out: &mut Stream, err: &Stream) -> Result<(), Failure> {
    let source = &order.source;
    let (mut scenario, style) = ask::source(source)?;
    scenario.override_question(order.seed, order.flights)?;
    let out_to = (order.out.as_deref(), order.replace);
    let folder = ask::folder(out_to, &scenario, &source.file, "", &[])?;
    let plan = scenario.plan().ok_or(Failure::NoQuestion)?;

    let bar = bar(order, &plan, err);
    let costly = |flights| Failure::Costly { flights, most: MOST_UNASKED };
    if let Some(flights) = bar.too_many() {
        return Err(costly(flights));
    }
    interrupt::heed();
    let answer = study::run_on(&plan, order.threads.map(usize::from), &bar);
    bar.finish();
    let mut answer = answer.map_err(|error| match bar.too_many() {
        Some(flights) => costly(flights),
        None if interrupt::stopped() => Failure::Stopped,
        None => error.into(),
    })?;
    if interrupt::stopped() && answer.unknown.is_none() {
        // An answer that says less takes the place of none that says more.
        if let Some(path) = folder.earlier() {
            return Err(Failure::EarlierStays { path: path.to_owned() });
        }
        answer.title += " (ended early: without what is not known)";
    }

    let provenance = ask::provenance(&scenario, &source.file, plan.seed);
    let mut document = report::answer(&answer, &provenance, style)?;
    if let Some(first) = marks::sentence(&scenario, &provenance, style)? {
        document = document.beginning(&first);
    }
    let document = document.assuming(&scenario.assumed());
    let folder = folder.fill(&document.files()?)?;
    tell::told(&document, source.told, &folder, out)
}

/// The bar, with the limit of a run that nobody asked to be long.
fn bar<'a>(order: &cli::RunOrder, plan: &Plan, err: &Stream<'a>) -> RunBar<'a> {
    let builds = plan.builds.len();
    let (plans, at_least) = match &plan.question {
        // Told batch by batch, up to the flights of the plan.
        Question::Matters(_) => (builds, plan.flights.saturating_mul(builds) as u64),
        Question::Worth(_) | Question::Tune(_) => (builds, 0),
        Question::Compare { .. } | Question::Sweep(_) => (1, 0),
    };
    let most = if order.long { u64::MAX } else { MOST_UNASKED };
    RunBar::new(err).within(most, plans, at_least)
}
