//! `clothyard push`: the push of one arrow, shown.

use report::Subject;

use crate::failure::Failure;
use crate::{Stream, ask, cli};

pub(crate) fn push(order: &cli::PushOrder, out: &mut Stream) -> Result<(), Failure> {
    let source = &order.source;
    let scenario = ask::scenario(&source.file)?;
    let plan = scenario.plan().ok_or(Failure::NoArrow)?;
    let recipe = scenario.recipe(order.build.as_deref())?;
    let style = ask::style(source, &scenario);
    let out_to = (order.out.as_deref(), order.replace);
    let folder = ask::folder(out_to, &scenario, &source.file, "-push", &[])?;

    let story = study::trace_push(recipe.as_ref())?;
    let provenance = ask::provenance(&scenario, &source.file, plan.seed);
    let several = plan.builds.len() > 1;
    let first = plan.builds.first().map(|build| build.name.as_str());
    let build = order.build.as_deref().or(first).filter(|_| several);
    let subject = Subject { title: scenario.title(), build, provenance: &provenance };
    let document = report::push(&story, &subject, style)?;
    let written = folder.fill(&document.files()?)?;
    if source.json {
        return out.print(&document.json()?);
    }
    let text = document.terminal(ask::WIDTH);
    out.print(&format!("{text}\nWritten to {}: open report.html\n", written.display()))
}
