//! Builds held side by side: what each does at each distance, every two of
//! them compared, and whether anyone would see the difference.

pub(crate) mod answer;
mod bare;
mod differences;
mod flown;
mod misjudged;
mod power;
mod reach;
mod wind;

use rayon::prelude::*;
use target::{Impact, Round, mean_estimate};
use units::Length;

use self::flown::Flown;
use crate::first::all_or_first;
use crate::group_cache::{Columns, GroupCache};
use crate::sample::Sample;
use crate::score::Judge;
use crate::{
    BuildSide, Plan, Question, RoundScore, SideBySide, SideMark, SidePair, SidePairMark, StudyError,
};

pub(crate) use bare::MEASURES;
pub(crate) use misjudged::shifted;
pub use power::SHOTS;
pub(crate) use reach::flights as reach_flights;
pub(crate) use wind::blown;

/// Half of what is left outside 19 rounds in 20.
const ROUND_TAIL: f64 = 0.025;

/// Refuses more builds than can be compared, and an error of the distance that
/// the nearest one does not bear.
pub(crate) fn check(plan: &Plan, distances: &[f64]) -> Result<(), StudyError> {
    let builds = plan.builds.len();
    if matches!(plan.question, Question::Compare { .. }) && builds > crate::MOST_BUILDS {
        return Err(StudyError::ManyBuilds { builds, most: crate::MOST_BUILDS });
    }
    match (plan.stated.range_error.map(Length::si), distances.first()) {
        (Some(error), Some(&nearest)) if !(error > 0.0 && error < 0.5 * nearest) => {
            Err(StudyError::RangeError { error, nearest })
        }
        _ => Ok(()),
    }
}

/// Everything about builds side by side, their groups flown to this size.
pub(crate) fn sides(
    range: &mut GroupCache,
    plan: &Plan,
    flights: usize,
    judge: &Judge,
) -> Result<SideBySide, StudyError> {
    let stated = plan.stated;
    let cases = plan.builds.len();
    let bare = all_or_first((0..cases).into_par_iter().map(|case| bare::bare(range, case)))?;
    let mut flown = Vec::with_capacity(cases);
    for (case, bare) in bare.into_iter().enumerate() {
        let full = range.group(case, Sample::Full, flights)?.clone();
        let machine = range.group(case, Sample::Machine, flights)?.clone();
        let shaft = range.rigs[case].sighted.setup.parts.shaft.outside;
        let rounds = match stated.round {
            Some(arrows) => rounds(&full, judge, shaft, arrows)?,
            None => Vec::new(),
        };
        flown.push(Flown { full, machine, shaft, bare, rounds });
    }
    let mut builds = Vec::with_capacity(cases);
    for (case, build) in flown.iter().enumerate() {
        builds.push(BuildSide {
            marks: marks(range, plan, case, build, judge)?,
            reach: reach::reach(range, plan, case, flights, judge)?,
        });
    }
    let between: Vec<(usize, usize)> =
        (0..cases).flat_map(|one| (one + 1..cases).map(move |other| (one, other))).collect();
    let pair = |(one, other)| pair(range, plan, &flown, one, other, judge);
    let pairs = all_or_first(between.into_par_iter().map(pair))?;
    Ok(SideBySide { stated, builds, pairs })
}

/// The total of a round at each distance.
fn rounds(
    full: &Columns,
    judge: &Judge,
    shaft: Length,
    arrows: u32,
) -> Result<Vec<Round>, StudyError> {
    let Some(scores) = full.iter().map(|column| judge.scores(column, shaft)).collect() else {
        return Ok(Vec::new());
    };
    let scores: Vec<Vec<u8>> = scores;
    scores.iter().map(|one| Ok(target::Scores::counted(one)?.round(arrows))).collect()
}

fn marks(
    range: &GroupCache,
    plan: &Plan,
    case: usize,
    flown: &Flown,
    judge: &Judge,
) -> Result<Vec<SideMark>, StudyError> {
    let sampler = &range.rigs[case];
    let shifts = misjudged::shifts(sampler, &plan.stated, range.settings.distances)?;
    let mut marks = Vec::with_capacity(shifts.len());
    for (place, shifts) in shifts.into_iter().enumerate() {
        let column = &flown.full[place];
        let misjudged: Result<Vec<_>, StudyError> = shifts
            .into_iter()
            .map(|(what, shift)| misjudged::judged(what, shift, column, judge, flown.shaft))
            .collect();
        marks.push(SideMark {
            distance: Length::from_si(range.settings.distances[place]),
            drift: flown.bare.drift(place),
            carried: flown.bare.carried(place),
            misjudged: misjudged?,
            round: match flown.rounds.get(place) {
                Some(round) => Some(round_score(round, column, judge, flown.shaft)?),
                None => None,
            },
        });
    }
    Ok(marks)
}

fn round_score(
    round: &Round,
    column: &[Impact],
    judge: &Judge,
    shaft: Length,
) -> Result<RoundScore, StudyError> {
    let scores = judge.scores(column, shaft).unwrap_or_default();
    let totals: Vec<f64> =
        scores.iter().map(|&score| f64::from(round.arrows()) * f64::from(score)).collect();
    Ok(RoundScore {
        arrows: round.arrows(),
        mean: mean_estimate(&totals)?,
        deviation: round.deviation(),
        low: round.quantile(ROUND_TAIL),
        high: round.quantile(1.0 - ROUND_TAIL),
    })
}

fn pair(
    range: &GroupCache,
    plan: &Plan,
    flown: &[Flown],
    one: usize,
    other: usize,
    judge: &Judge,
) -> Result<SidePair, StudyError> {
    let (a, b) = (&flown[one], &flown[other]);
    let names = [plan.builds[one].name.as_str(), plan.builds[other].name.as_str()];
    let mut marks = Vec::with_capacity(range.settings.distances.len());
    for (place, &distance) in range.settings.distances.iter().enumerate() {
        let told = |who, groups: [&[Impact]; 2]| {
            power::told(&range.settings, &plan.stated.power_test, who, names, groups)
        };
        marks.push(SidePairMark {
            distance: Length::from_si(distance),
            differences: differences::differences(a, b, place, judge, range.settings.arrows)?,
            archer: told("archer", [&a.full[place], &b.full[place]])?,
            machine: told("machine", [&a.machine[place], &b.machine[place]])?,
            duel: a.rounds.get(place).zip(b.rounds.get(place)).map(|(a, b)| a.against(b)),
        });
    }
    Ok(SidePair { one, other, marks })
}
