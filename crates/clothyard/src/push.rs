//! `clothyard push`: the push of one arrow, shown.

use report::Subject;

use crate::failure::Failure;
use crate::{Stream, ask, cli, tell};

pub(crate) fn push(order: &cli::PushOrder, out: &mut Stream) -> Result<(), Failure> {
    let source = &order.of.source;
    let (scenario, style) = ask::source(source)?;
    let plan = scenario.plan().ok_or(Failure::NoArrow)?;
    let recipe = scenario.recipe(order.of.build.as_deref())?;
    let out_to = (order.out.as_deref(), order.replace);
    let folder = ask::folder(out_to, &scenario, &source.file, "-push", &[])?;

    let story = study::trace_push(recipe.as_ref())?;
    let unknown = study::push_unknown(recipe.as_ref(), plan.seed)?;
    let provenance = ask::provenance(&scenario, &source.file, plan.seed);
    let several = plan.builds.len() > 1;
    let first = plan.builds.first().map(|build| build.name.as_str());
    let build = order.of.build.as_deref().or(first).filter(|_| several);
    let subject = Subject { title: scenario.title(), build, provenance: &provenance };
    let document = report::push(&story, unknown.as_ref(), &subject, style)?;
    let document = document.cautioned(ask::minded(&scenario, order.of.build.as_deref(), style)?);
    let folder = folder.fill(&document.files()?)?;
    tell::told(&document, source.told, &folder, out)
}
