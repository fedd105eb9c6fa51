//! How far the poorly known defaults move an answer.

use rayon::prelude::*;
use target::Group;

use crate::first::all_or_first;
use crate::range::Range;
use crate::take::Take;
use crate::{Doubt, Slot, StudyError};

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
pub(crate) fn flights(doubts: usize, group: usize) -> usize {
    2 * doubts * FLIGHTS.min(group)
}

/// Each doubt at each of its ends, the others at their defaults; the changes
/// on each side are combined as the root of the sum of their squares. Ratios
/// are combined as logarithms, so that a band never reaches below zero.
pub(crate) fn bands<'a>(
    range: &mut Range,
    case: usize,
    take: Take,
    doubts: impl Iterator<Item = &'a Doubt>,
    group: usize,
) -> Result<Bands, StudyError> {
    let flights = FLIGHTS.min(group);
    let main: Vec<f64> = range
        .group(case, take, flights)?
        .iter()
        .map(|column| r50(&column[..flights]))
        .collect::<Result<_, _>>()?;
    let places = main.len();
    let mut spread = vec![Side::default(); places];
    let mut drop = vec![Side::default(); places];
    let (rig, distances) = (&range.rigs[case], range.ground.distances);
    let held: Vec<(Slot, f64)> =
        doubts.flat_map(|doubt| [(doubt.slot, doubt.low), (doubt.slot, doubt.high)]).collect();
    let rigs = all_or_first(held.into_par_iter().map(|doubt| rig.doubting(doubt, distances)))?;
    for doubt in rigs.chunks_exact(2) {
        let mut ends = [vec![0.0; places], vec![0.0; places]];
        let mut falls = ends.clone();
        for (end, rig) in doubt.iter().enumerate() {
            let columns = rig.fly(take, 0..flights, &range.ground)?;
            range.flown += rig.distinct(take, flights);
            for (place, column) in columns.iter().enumerate() {
                ends[end][place] = log_ratio(r50(column)?, main[place]);
                let main = &range.rigs[case].sighted.marks[place];
                falls[end][place] = rig.sighted.marks[place].drop - main.drop;
            }
        }
        for place in 0..places {
            spread[place].add(ends[0][place], ends[1][place]);
            drop[place].add(falls[0][place], falls[1][place]);
        }
    }
    Ok(Bands {
        r50: spread.iter().map(|s| s.range()).map(|(l, h)| (l.exp(), h.exp())).collect(),
        drop: drop.iter().map(|s| s.range()).collect(),
    })
}

fn r50(column: &[target::Impact]) -> Result<f64, StudyError> {
    Ok(Group::of(column)?.r50.value)
}

/// Zero where a group has no scatter: then the band has no width.
fn log_ratio(value: f64, main: f64) -> f64 {
    if value > 0.0 && main > 0.0 { (value / main).ln() } else { 0.0 }
}

/// Sums of squares of the changes below and above.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Side {
    below: f64,
    above: f64,
}

impl Side {
    pub(crate) fn add(&mut self, one: f64, other: f64) {
        self.below += one.min(other).min(0.0).powi(2);
        self.above += one.max(other).max(0.0).powi(2);
    }

    pub(crate) fn range(self) -> (f64, f64) {
        (-self.below.sqrt(), self.above.sqrt())
    }
}
