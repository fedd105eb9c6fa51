//! `clothyard marks`: sight marks and their tables.

use std::path::Path;

use report::Subject;

use crate::failure::Failure;
use crate::{Stream, ask, cli, shelf, tape};

pub(crate) fn marks(order: &cli::Marks, out: &mut Stream) -> Result<(), Failure> {
    let source = &order.source;
    let scenario = ask::scenario(&source.file)?;
    let plan = scenario.plan().ok_or(Failure::NoArrow)?;
    let style = ask::style(source, &scenario);
    let build = order.build.as_deref();
    let wanted = scenario.marks(build, style)?.ok_or(Failure::NoMarks)?;
    let recipe = scenario.recipe(build)?;
    let usual = || {
        let stem = source.file.file_stem().unwrap_or("answer".as_ref());
        Path::new("out").join(format!("{}-marks", stem.to_string_lossy()))
    };
    let folder = order.out.clone().unwrap_or_else(usual);
    let folder = shelf::folder(Some(&folder), &source.file, order.replace)?;

    let marks = study::marks(recipe.as_ref(), &wanted)?;
    let provenance = ask::provenance(&scenario, &source.file, plan.seed);
    let wish = tape::Wish::default();
    let prints = tape::sheets(&scenario, recipe.as_ref(), &wanted, &marks, style, &wish)?;
    let build = Some(wanted.build.as_str()).filter(|_| plan.builds.len() > 1);
    let subject = Subject { title: scenario.title(), build, provenance: &provenance };
    let document = report::marks(&marks, &subject, &prints, style)?;
    shelf::fill(&folder, &document.files()?)?;
    if source.json {
        return out.print(&document.json()?);
    }
    if order.csv {
        return out.print(&document.csv("marks").unwrap_or_default());
    }
    let text = document.terminal(ask::WIDTH);
    out.print(&format!("{text}\nWritten to {}: open report.html\n", folder.display()))
}
