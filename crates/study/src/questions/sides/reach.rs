//! How far a stated share of hits holds.

use target::{Estimate, Impact};
use units::Length;

use super::misjudged::{ImpactShift, shifted, shifts};
use crate::group_cache::GroupCache;
use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::score::Judge;
use crate::variant::Variant;
use crate::{Farthest, Misjudgement, Plan, Question, Reach, ReachMark, StudyError};

/// Distances flown between the nearest and the farthest. Chosen: a step of a
/// yard or two on the usual marks.
const PLACES: u32 = 25;
/// Most flights of this group. Chosen: a share is then known to 0.8 points
/// (one standard error).
const FLIGHTS: usize = 4000;

/// Flights that this takes for each build.
pub(crate) fn flights(plan: &Plan, group: usize) -> usize {
    let asked = matches!(plan.question, Question::Compare { .. });
    if asked && plan.stated.hit_share.is_some() { FLIGHTS.min(group) } else { 0 }
}

/// Share of hits along the way, and where it falls below the stated one.
pub(super) fn reach(
    range: &mut GroupCache,
    plan: &Plan,
    case: usize,
    group: usize,
    judge: &Judge,
) -> Result<Option<Reach>, StudyError> {
    let Some(share) = plan.stated.hit_share.map(units::Ratio::si) else { return Ok(None) };
    let flights = flights(plan, group);
    let places = between(range.settings.distances);
    let sampler = BuildSampler::new(Variant::of(&plan.builds[case]), &places)?;
    let settings = RunSettings { distances: &places, ..range.settings };
    let columns = sampler.fly(Sample::Full, 0..flights, &settings)?;
    range.flown += sampler.distinct(Sample::Full, flights);
    let shaft = sampler.sighted.setup.parts.shaft.outside;
    let shifts = shifts(&sampler, &plan.stated, &places)?;
    let mut curve = Vec::with_capacity(places.len());
    for ((&place, column), shifts) in places.iter().zip(&columns).zip(&shifts) {
        let mut worst: Option<Estimate> = None;
        for shift in together(shifts) {
            let (hit, _) = judge.judge(&shifted(column, shift), shaft)?;
            if worst.is_none_or(|worst| hit.value < worst.value) {
                worst = Some(hit);
            }
        }
        let (hit, _) = judge.judge(column, shaft)?;
        curve.push(ReachMark { distance: Length::from_si(place), hit, misjudged: worst });
    }
    let misjudged: Option<Vec<Estimate>> = curve.iter().map(|mark| mark.misjudged).collect();
    let hits: Vec<Estimate> = curve.iter().map(|mark| mark.hit).collect();
    Ok(Some(Reach {
        farthest: farthest(&places, &hits, share),
        misjudged: misjudged.map(|hits| farthest(&places, &hits, share)),
        curve,
    }))
}

/// Distances from the nearest to the farthest, evenly spaced; both ends as
/// they are.
fn between(distances: &[f64]) -> Vec<f64> {
    let (first, last) = (distances[0], distances[distances.len() - 1]);
    if distances.len() < 2 {
        return vec![first];
    }
    let steps = f64::from(PLACES - 1);
    let place = |step: u32| {
        let part = f64::from(step) / steps;
        first * (1.0 - part) + last * part
    };
    (0..PLACES).map(place).collect()
}

/// Every misjudgement of the distance together with every one of the wind;
/// empty if nothing is misjudged.
fn together(shifts: &[ImpactShift]) -> Vec<Impact> {
    let of = |range: bool| -> Vec<Impact> {
        let range_error =
            |what| matches!(what, Misjudgement::TooFar | Misjudgement::TooNear) == range;
        shifts.iter().filter(|(what, _)| range_error(*what)).map(|(_, shift)| *shift).collect()
    };
    let (range, wind) = (of(true), of(false));
    match (range.is_empty(), wind.is_empty()) {
        (true, _) => wind,
        (_, true) => range,
        _ => range
            .iter()
            .flat_map(|a| wind.iter().map(|b| Impact { left: a.left + b.left, up: a.up + b.up }))
            .collect(),
    }
}

fn farthest(places: &[f64], hits: &[Estimate], share: f64) -> Farthest {
    let low = crossing(places, hits, share, |hit| hit.low);
    let high = crossing(places, hits, share, |hit| hit.high);
    match crossing(places, hits, share, |hit| hit.value) {
        Crossing::Before => Farthest::Nowhere,
        Crossing::At(distance) => Farthest::To {
            distance: Length::from_si(distance),
            low: low.place(),
            high: high.place(),
        },
        Crossing::Beyond => Farthest::Throughout { sure: matches!(low, Crossing::Beyond) },
    }
}

/// Where a curve first falls below a share.
enum Crossing {
    /// It begins below.
    Before,
    At(f64),
    /// It never does.
    Beyond,
}

impl Crossing {
    fn place(self) -> Option<Length> {
        match self {
            Self::At(distance) => Some(Length::from_si(distance)),
            Self::Before | Self::Beyond => None,
        }
    }
}

fn crossing(
    places: &[f64],
    hits: &[Estimate],
    share: f64,
    read: impl Fn(&Estimate) -> f64,
) -> Crossing {
    let Some(below) = hits.iter().position(|hit| read(hit) < share) else {
        return Crossing::Beyond;
    };
    let Some(before) = below.checked_sub(1) else { return Crossing::Before };
    // Straight between two places.
    let (from, to) = (read(&hits[before]), read(&hits[below]));
    let part = (from - share) / (from - to);
    Crossing::At(places[before] + part * (places[below] - places[before]))
}
