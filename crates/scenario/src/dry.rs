//! Builds and measured things tried before anything is asked of them.

use study::Recipe;
use units::Speed;

use crate::evidence::Clue;
use crate::recipe::BuildRecipe;
use crate::settle::Settled;
use crate::{EvidenceFault, ScenarioError};

/// Measured things whose arrow or bow cannot be built, shot, flown or held.
pub(crate) fn unmeasurable<'a>(
    clues: &'a [Clue],
    builds: &[Settled],
) -> Vec<(&'a Clue, ScenarioError)> {
    let fails = |(at, clue): (usize, &'a Clue)| {
        let settled = clue.settled(clue.build(builds)?);
        let recipe = BuildRecipe::new(&settled, None);
        // What stands as its build does was tried with it.
        let own = !clue.layer.entries.is_empty() || !clue.layer.tables.is_empty();
        let tried = if own { dry_run(&settled, &recipe) } else { Ok(()) };
        let error = tried.and_then(|()| hold(clue, &settled, &recipe)).err()?;
        let (name, cause) = (clue.name(at), Box::new(error));
        Some((clue, EvidenceFault::Impossible { name, cause }.into()))
    };
    clues.iter().enumerate().filter_map(fails).collect()
}

/// Whether the string of a pushed nock holds it at all.
fn hold(clue: &Clue, settled: &Settled, recipe: &BuildRecipe) -> Result<(), ScenarioError> {
    let (Some(drawn), Ok(setup)) = (clue.pushed(), recipe.setup(&[])) else { return Ok(()) };
    match launch::hold_at(&setup.bow, drawn) {
        Ok(_) => Ok(()),
        Err(cause) => Err(ScenarioError::NoDeparture { build: settled.name.clone(), cause }),
    }
}

/// Builds, shoots and flies nothing yet, but lets every room look at its part.
pub(crate) fn dry_run(settled: &Settled, recipe: &BuildRecipe) -> Result<(), ScenarioError> {
    let build = || settled.name.clone();
    // The values were checked as they were read.
    let Ok(s) = recipe.setup(&[]) else { return Ok(()) };
    let built = arrow::build(&s.parts, &s.faults)
        .map_err(|cause| ScenarioError::NotAnArrow { build: build(), cause })?;
    let departure = launch::depart(&s.bow, &s.parts, &built, s.index, &s.form, &s.departure)
        .map_err(|cause| ScenarioError::NoDeparture { build: build(), cause })?;
    let speed = Speed::from_si(departure.speed);
    flight::model(&s.parts, &built, &s.aero, &s.site, speed)
        .map_err(|cause| ScenarioError::NoFlight { build: build(), cause })?;
    Ok(())
}
