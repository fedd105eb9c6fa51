//! `clothyard push`: the push of one arrow, shown.

use std::path::Path;

use report::Subject;

use crate::failure::Failure;
use crate::{Stream, ask, cli, shelf};

pub(crate) fn push(order: &cli::PushOrder, out: &mut Stream) -> Result<(), Failure> {
    let source = &order.source;
    let scenario = ask::scenario(&source.file)?;
    let plan = scenario.plan().ok_or(Failure::NoArrow)?;
    let recipe = scenario.recipe(order.build.as_deref())?;
    let style = ask::style(source, &scenario);
    let usual = || {
        let stem = source.file.file_stem().unwrap_or("answer".as_ref());
        Path::new("out").join(format!("{}-push", stem.to_string_lossy()))
    };
    let folder = order.out.clone().unwrap_or_else(usual);
    let folder = shelf::folder(Some(&folder), &source.file, order.replace)?;

    let story = study::trace_push(recipe.as_ref())?;
    let provenance = ask::provenance(&scenario, &source.file, plan.seed);
    let several = plan.builds.len() > 1;
    let first = plan.builds.first().map(|build| build.name.as_str());
    let build = order.build.as_deref().or(first).filter(|_| several);
    let subject = Subject { title: scenario.title(), build, provenance: &provenance };
    let document = report::push(&story, &subject, style)?;
    shelf::fill(&folder, &document.files()?)?;
    if source.json {
        return out.print(&document.json()?);
    }
    let text = document.terminal(ask::WIDTH);
    out.print(&format!("{text}\nWritten to {}: open report.html\n", folder.display()))
}
