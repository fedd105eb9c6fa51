//! Builds and measured things tried before anything is asked of them.

use study::Recipe;
use units::Speed;

use crate::evidence::Clue;
use crate::evidence_fault::{EvidenceFault, Unmeasurable};
use crate::recipe::BuildRecipe;
use crate::settle::Settled;

/// Measured things whose arrow or bow cannot be built, shot, flown or held.
pub(crate) fn unmeasurable<'a>(
    clues: &'a [Clue],
    builds: &[Settled],
) -> Vec<(&'a Clue, EvidenceFault)> {
    let fails = |(at, clue): (usize, &'a Clue)| {
        let recipe = BuildRecipe::new(&clue.settled(clue.build(builds)?), None);
        // What stands as its build does was tried with it.
        let own = !clue.layer.entries.is_empty() || !clue.layer.tables.is_empty();
        let tried = if own { dry_run(&recipe) } else { Ok(()) };
        let cause = tried.and_then(|()| hold(clue, &recipe)).err()?;
        Some((clue, EvidenceFault::Impossible { name: clue.name(at), cause }))
    };
    clues.iter().enumerate().filter_map(fails).collect()
}

/// Whether the string of a pushed nock holds it at all.
fn hold(clue: &Clue, recipe: &BuildRecipe) -> Result<(), Unmeasurable> {
    let (Some(drawn), Ok(setup)) = (clue.pushed(), recipe.setup(&[])) else { return Ok(()) };
    launch::hold_at(&setup.bow, drawn).map(|_| ()).map_err(Unmeasurable::Bow)
}

/// Builds, shoots and flies nothing yet, but lets every room look at its part.
pub(crate) fn dry_run(recipe: &BuildRecipe) -> Result<(), Unmeasurable> {
    // The values were checked as they were read.
    let Ok(s) = recipe.setup(&[]) else { return Ok(()) };
    let built = arrow::build(&s.parts, &s.faults).map_err(Unmeasurable::Arrow)?;
    let departure = launch::depart(&s.bow, &s.parts, &built, s.index, &s.form, &s.departure)
        .map_err(Unmeasurable::Bow)?;
    let speed = Speed::from_si(departure.speed);
    flight::model(&s.parts, &built, &s.aero, &s.site, speed).map_err(Unmeasurable::Flight)?;
    Ok(())
}
