//! `clothyard marks`: sight marks and their tables.

use std::path::Path;

use report::{MarksReport, Provenance};

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
    let provenance = Provenance {
        version: env!("CARGO_PKG_VERSION").to_owned(),
        scenario: scenario.resolved(),
        source_name: source
            .file
            .file_name()
            .map_or_else(String::new, |name| name.to_string_lossy().into_owned()),
        seed: plan.seed,
    };
    let wish = tape::Wish::default();
    let prints = tape::sheets(&scenario, recipe.as_ref(), &wanted, &marks, style, &wish)?;
    let report = MarksReport {
        title: scenario.title(),
        build: Some(wanted.build.as_str()).filter(|_| plan.builds.len() > 1),
        marks: &marks,
        provenance: &provenance,
        prints: &prints,
    };
    shelf::fill(&folder, &report::marks_files(&report, style)?)?;
    if source.json {
        return out.print(&format!("{:#}\n", report::marks_json(&report)?));
    }
    if order.csv {
        return out.print(&report::marks_csv(&report, style)?);
    }
    let text = report::marks_text(&report, style, ask::WIDTH)?;
    out.print(&format!("{text}\nWritten to {}: open report.html\n", folder.display()))
}
