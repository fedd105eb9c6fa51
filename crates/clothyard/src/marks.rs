//! `clothyard marks`: sight marks and their tables.

use report::{Provenance, Subject};
use scenario::Scenario;
use units::Style;

use crate::failure::Failure;
use crate::{Stream, ask, cli, tape, tell};

pub(crate) fn marks(order: &cli::Marks, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let source = &order.of.source;
    let (scenario, style) = ask::source(source)?;
    let plan = scenario.plan().ok_or(Failure::NoArrow)?;
    let build = order.of.build.as_deref();
    let wanted = scenario.marks(build, style)?.ok_or(Failure::NoMarks)?;
    let recipe = scenario.recipe(build)?;
    let out_to = (order.out.as_deref(), order.replace);
    let folder = ask::folder(out_to, &scenario, &source.file, "-marks", &[])?;

    let marks = study::marks(recipe.as_ref(), &wanted)?;
    let provenance = ask::provenance(&scenario, &source.file, plan.seed);
    let wish = tape::Wish::default();
    let cautions = ask::cautions(&scenario, build, (Some(&wanted.distances), None))?;
    let printed = (&marks, cautions.as_slice());
    let prints = tape::sheets(&scenario, recipe.as_ref(), &wanted, printed, style, &wish)?;
    let named = Some(wanted.build.as_str()).filter(|_| plan.builds.len() > 1);
    let subject = Subject { title: scenario.title(), build: named, provenance: &provenance };
    let document = report::marks(&marks, &subject, &prints, style)?;
    let document = document.cautioned(report::cautions(&cautions, &[], style));
    let folder = folder.fill(&document.files()?)?;
    if order.csv && !source.told.json {
        // A table holds nothing else.
        err.print(&document.minded(tell::WIDTH))?;
        return out.print(&document.csv("marks").unwrap_or_default());
    }
    tell::told(&document, source.told, &folder, out)
}

/// What a scenario of one build that asks for marks is answered first; none for any other.
pub(crate) fn sentence(
    scenario: &Scenario,
    provenance: &Provenance,
    style: Style,
) -> Result<Option<String>, Failure> {
    let one = scenario.plan().is_some_and(|plan| plan.builds.len() == 1);
    let Some(wanted) = one.then(|| scenario.marks(None, style)).transpose()?.flatten() else {
        return Ok(None);
    };
    let marks = study::marks(scenario.recipe(None)?.as_ref(), &wanted)?;
    let subject = Subject { title: scenario.title(), build: None, provenance };
    let document = report::marks(&marks, &subject, &[], style)?;
    Ok(Some(format!("{} \"clothyard marks\" tells every mark.", document.verdict())))
}
