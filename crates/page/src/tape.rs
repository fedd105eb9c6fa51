//! Sight marks of the build on the page; tape and cards to print.

use print::Look;
use report::{About, Document, File, Subject};
use scenario::{Edit, Scenario, ScenarioError, Setting};
use study::{SafetyAsk, SightedArrow, StripsPlan};
use units::Style;

use crate::builds::told;
use crate::scene::Scene;
use crate::state::FieldValues;
use crate::{PageError, Wrong};

/// The files of the tape and of the cards.
pub(crate) fn files(scene: &Scene) -> Result<Vec<File>, PageError> {
    let scenario = marked(scene)?;
    let plan = scene.plan()?;
    let build = plan.builds.get(scene.shown).filter(|_| plan.builds.len() > 1);
    let build = build.map(|build| build.name.as_str());
    let wanted = scenario.marks(build, scene.style).map_err(|error| wrong(&error))?;
    let none = PageError::NotHere { reason: "this scenario has no arrow to make a tape for" };
    let wanted = wanted.ok_or(none)?;
    let recipe = scenario.recipe(build).map_err(|error| wrong(&error))?;
    let unit = units::Role::Range.unit(scene.style).0.factor;
    let strips = StripsPlan::fan(&wanted.build, &wanted.distances, unit);
    let strips = study::strips(recipe.as_ref(), &strips)?;
    let marks = study::marks(recipe.as_ref(), &wanted)?;
    let marker = SightedArrow::new(recipe.as_ref(), &[], &wanted.build)?;
    let ask = SafetyAsk { build, distances: Some(&wanted.distances), ..SafetyAsk::all(&plan) };
    let cautions = study::cautions(&ask)?;
    let about = About {
        title: scenario.title(),
        build,
        setup: marker.setup(),
        speed: marks.departure.speed,
        mass: marks.built.mass.mass().si(),
        fitted: None,
        cautions: &cautions,
        style: scene.style,
    };
    let look = Look::default();
    let mut files = report::tape_files(&strips, &about, look)?;
    files.extend(report::card_files(&marks, &about, look)?);
    Ok(files)
}

/// Whether a scenario asks for sight marks.
pub(crate) fn asks_marks(scenario: &Scenario, build: Option<&str>, style: Style) -> bool {
    scenario.marks(build, style).is_ok_and(|wanted| wanted.is_some())
}

/// The sight marks that a scenario asks for, as `clothyard marks` tells them.
pub(crate) fn marks(scene: &Scene) -> Result<Option<Document>, PageError> {
    let plan = scene.plan()?;
    let build = plan.builds.get(scene.shown).filter(|_| plan.builds.len() > 1);
    let build = build.map(|build| build.name.as_str());
    let wanted = scene.scenario.marks(build, scene.style).map_err(|error| wrong(&error))?;
    let Some(wanted) = wanted else { return Ok(None) };
    let recipe = scene.scenario.recipe(build).map_err(|error| wrong(&error))?;
    let found = study::marks(recipe.as_ref(), &wanted)?;
    let provenance = scene.provenance(plan.seed);
    let subject = Subject { title: scene.scenario.title(), build, provenance: &provenance };
    Ok(Some(report::marks(&found, &subject, &[], scene.style)?))
}

/// The page's scenario, with marks asked for.
fn marked(scene: &Scene) -> Result<Scenario, PageError> {
    let asked = [Edit { key: "marks", to: Setting::Table, build: None }];
    scene.scenario.edited(&asked).map_err(|report| told(&report, &FieldValues::new()))
}

fn wrong(error: &ScenarioError) -> PageError {
    PageError::Wrong(vec![said(error)])
}

fn said(error: &ScenarioError) -> Wrong {
    Wrong { field: None, text: error.to_string() }
}
