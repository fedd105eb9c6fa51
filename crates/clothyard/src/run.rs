//! `clothyard run`: answer the question, write the report.

use crate::failure::Failure;
use crate::progress::RunBar;
use crate::{Stream, ask, cli, shelf};

pub(crate) fn run(order: &cli::RunOrder, out: &mut Stream, err: &Stream) -> Result<(), Failure> {
    let source = &order.source;
    let (mut scenario, style) = ask::source(source)?;
    scenario.override_question(order.seed, order.flights)?;
    let folder = shelf::folder(order.out.as_deref(), &source.file, "", order.replace)?;
    let plan = scenario.plan().ok_or(Failure::NoQuestion)?;

    let bar = RunBar::new(err.terminal);
    let answer = study::run_on(&plan, order.threads.map(usize::from), &bar);
    bar.finish();
    let answer = answer?;

    let provenance = ask::provenance(&scenario, &source.file, plan.seed);
    let document = report::answer(&answer, &provenance, style)?;
    shelf::fill(&folder, &document.files()?)?;
    shelf::told(&document, source.json, &folder, out)
}
