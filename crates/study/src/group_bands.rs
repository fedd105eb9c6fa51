//! How far the poorly known defaults move an answer.

use rayon::prelude::*;
use target::Group;

use crate::band::{Numbers, bands_of, ends};
use crate::first::all_or_first;
use crate::group_cache::GroupCache;
use crate::sample::Sample;
use crate::sampler::BuildSampler;
use crate::{StudyError, UncertainParameter};

/// Flights of a group at one end of a doubt. Chosen: the chances are shared
/// with the main group, so most of the sampling error cancels in the ratio,
/// and doubts are far wider than the rest of it.
const FLIGHTS: usize = 500;

/// The bands of one build, one entry for each distance.
pub(crate) struct Bands {
    /// Range of the group's R50 over its main estimate.
    pub(crate) r50: Vec<(f64, f64)>,
    /// Range of the drop less its main value, m.
    pub(crate) drop: Vec<(f64, f64)>,
}

/// How many flights the bands of a group take for this many doubts.
pub(crate) fn flights(uncertain: usize, group: usize) -> usize {
    2 * uncertain * FLIGHTS.min(group)
}

/// Each doubt at each of its ends, the others at their defaults; the changes
/// on each side are combined as the root of the sum of their squares. Ratios
/// are combined as logarithms, so that a band never reaches below zero.
pub(crate) fn bands<'a>(
    range: &mut GroupCache,
    case: usize,
    take: Sample,
    uncertain: impl Iterator<Item = &'a UncertainParameter>,
    group: usize,
) -> Result<Bands, StudyError> {
    let flights = FLIGHTS.min(group);
    let main: Vec<f64> = range
        .group(case, take, flights)?
        .iter()
        .map(|column| r50(&column[..flights]))
        .collect::<Result<_, _>>()?;
    let places = main.len();
    let (sampler, distances) = (&range.rigs[case], range.settings.distances);
    // Groups have no word for an open band: a value that fails ends the run.
    let held = |doubt| BuildSampler::new(sampler.variant.at_uncertain(Some(doubt)), distances);
    let rigs = all_or_first(ends(uncertain).into_par_iter().map(held))?;
    let mut moved = Vec::with_capacity(rigs.len());
    for sampler in &rigs {
        let columns = sampler.fly(take, 0..flights, &range.settings)?;
        range.flown += sampler.distinct(take, flights);
        let ratio = |(column, main): (&Vec<_>, &f64)| Ok(Some(log_ratio(r50(column)?, *main)));
        let ratios: Result<Numbers, StudyError> = columns.iter().zip(&main).map(ratio).collect();
        moved.push([ratios?, drops(sampler)].concat());
    }
    let still = [vec![Some(0.0); places], drops(&range.rigs[case])].concat();
    let bands = bands_of(&still, &moved, 2);
    let (spread, drop) = bands.split_at(places);
    Ok(Bands {
        r50: spread.iter().map(|s| s.range()).map(|(l, h)| (l.exp(), h.exp())).collect(),
        drop: drop.iter().map(|s| s.range()).collect(),
    })
}

fn drops(sampler: &BuildSampler) -> Numbers {
    sampler.sighted.marks.iter().map(|mark| Some(mark.drop)).collect()
}

fn r50(column: &[target::Impact]) -> Result<f64, StudyError> {
    Ok(Group::of(column)?.r50.value)
}

/// Zero where a group has no scatter: then the band has no width.
fn log_ratio(value: f64, main: f64) -> f64 {
    if value > 0.0 && main > 0.0 { (value / main).ln() } else { 0.0 }
}
