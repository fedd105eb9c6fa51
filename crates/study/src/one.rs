//! The answer for one build.

use target::{Group, Impact};

use crate::group_cache::{Columns, GroupCache};
use crate::sample::Sample;
use crate::score::Judge;
use crate::{BuildAnswer, Cause, CausesAlone, MarkAnswer, Owner, Sampled, StudyError};

/// Flights of a group with one cause alone. Chosen: R50 is then known to about
/// 1.6 % (one standard error), finer than any doubt about the push.
const CAUSE_FLIGHTS: usize = 2_000;
/// Impacts kept for drawing. Chosen: more would cover each other.
const SAMPLE: usize = 300;
/// Whoever may be at fault when a machine shoots, in the order shown.
const OWNERS: [Owner; 7] = [
    Owner::FrontEnd,
    Owner::NockEnd,
    Owner::Shaft,
    Owner::Vanes,
    Owner::Weights,
    Owner::Bow,
    Owner::Weather,
];

/// The owners that draw something in a case, and are flown alone.
pub(crate) fn owners(range: &GroupCache, case: usize) -> Vec<Owner> {
    if range.alone == CausesAlone::Nowhere {
        return Vec::new();
    }
    let sampler = &range.rigs[case];
    OWNERS
        .into_iter()
        .filter(|&owner| sampler.variant.draws(Sample::Only(owner)).next().is_some())
        .collect()
}

/// Flights of a group with one cause, in a run with groups of this size.
pub(crate) fn cause_flights(group: usize) -> usize {
    CAUSE_FLIGHTS.min(group)
}

/// Everything about one case, its groups flown to this size.
pub(crate) fn answer(
    range: &mut GroupCache,
    case: usize,
    flights: usize,
    judge: &Judge,
) -> Result<BuildAnswer, StudyError> {
    let across = range.rigs[case].sighted.setup.parts.shaft.outside;
    let judged = |column: &Vec<Impact>| Ok((sample(column)?, judge.judge(column, across)?));
    let full: Result<Vec<_>, StudyError> =
        range.group(case, Sample::Full, flights)?.iter().map(judged).collect();
    let machine = sampled(range.group(case, Sample::Machine, flights)?)?;
    let form = sampled(range.group(case, Sample::Form, flights)?)?;
    let mut causes = Vec::new();
    for owner in owners(range, case) {
        let some = cause_flights(flights);
        let columns = range.group(case, Sample::Only(owner), some)?;
        let r50: Result<_, StudyError> =
            columns.iter().map(|column| Ok(Group::of(&column[..some])?.r50)).collect();
        causes.push(Cause { owner, r50: r50? });
    }
    let sampler = &range.rigs[case];
    let setup = &sampler.sighted.setup;
    let mut marks = Vec::with_capacity(machine.len());
    let groups = full?.into_iter().zip(machine).zip(form);
    for (place, (((full, (hit, score)), machine), form)) in groups.enumerate() {
        let nominal = sampler.sighted.marks[place];
        let r50 = machine.stats.r50.value;
        marks.push(MarkAnswer {
            distance: units::Length::from_si(range.settings.distances[place]),
            nominal,
            full,
            machine,
            form,
            drop_band: (nominal.drop, nominal.drop),
            machine_band: (r50, r50),
            hit,
            score,
        });
    }
    let built = sampler.sighted.built.clone();
    let mass = built.mass.mass();
    // The line of sight falls from its height at the bow to the zero.
    let sight_fall = (setup.sight.height.si() / setup.sight.zero.si()).atan();
    Ok(BuildAnswer {
        name: sampler.variant.name.to_owned(),
        built,
        departure: sampler.sighted.departure,
        mass_per_force: mass.si() / setup.bow.draw_weight.si(),
        launch_pitch: sampler.sighted.launch_pitch + sight_fall,
        flights,
        steps: sampler.steps(),
        marks,
        causes,
        uncertain: sampler.variant.uncertain().cloned().collect(),
    })
}

fn sampled(columns: &Columns) -> Result<Vec<Sampled>, StudyError> {
    columns.iter().map(|column| sample(column)).collect()
}

fn sample(column: &[Impact]) -> Result<Sampled, StudyError> {
    let stats = Group::of(column)?;
    Ok(Sampled { stats, sample: column[..SAMPLE.min(column.len())].to_vec() })
}
