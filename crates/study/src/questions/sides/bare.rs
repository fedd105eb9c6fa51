//! The flight of the arrow with nothing drawn.

use units::Speed;

use super::answer::DRIFT_WIND;
use super::wind::{blown, calm, crossed};
use crate::group_cache::GroupCache;
use crate::{BuildMeasure, StudyError};

/// What is measured, in the order of [`Values`].
pub(crate) const MEASURES: [BuildMeasure; 6] = [
    BuildMeasure::Drop,
    BuildMeasure::Drift,
    BuildMeasure::Time,
    BuildMeasure::Speed,
    BuildMeasure::Energy,
    BuildMeasure::Momentum,
];
const DRIFT: usize = 1;

/// One number for each measure.
type Values = [f64; 6];

/// The flight at each distance.
pub(super) struct Bare {
    values: Vec<Values>,
    /// How far to the left the scenario's own wind carries the arrow, m.
    carried: Vec<f64>,
}

impl Bare {
    /// Drift to the left in [`DRIFT_WIND`] from the right, m.
    pub(super) fn drift(&self, place: usize) -> f64 {
        self.values[place][DRIFT]
    }

    /// How far to the left the scenario's own wind carries the arrow, m.
    pub(super) fn carried(&self, place: usize) -> f64 {
        self.carried[place]
    }

    /// This less another, in one measure at one distance.
    pub(super) fn less(&self, other: &Self, place: usize, measure: usize) -> f64 {
        self.values[place][measure] - other.values[place][measure]
    }
}

/// Flies a build with nothing drawn.
pub(super) fn bare(range: &GroupCache, case: usize) -> Result<Bare, StudyError> {
    let (sampler, distances) = (&range.rigs[case], range.settings.distances);
    let tips = |wind| blown(&sampler.sighted, wind, sampler.variant.tag()).tips(distances);
    let own = sampler.sighted.setup.site.wind;
    let still = calm(own);
    let (right, left) = (tips(crossed(still, DRIFT_WIND))?, tips(crossed(still, -DRIFT_WIND))?);
    let marks = &sampler.sighted.marks;
    let values = marks.iter().zip(right.iter().zip(&left)).map(|(n, (right, left))| {
        let drift = 0.5 * (right.left - left.left);
        [n.drop, drift, n.time, n.speed, n.energy, n.momentum]
    });
    let carried = if own.speed == Speed::ZERO {
        vec![0.0; marks.len()]
    } else {
        marks.iter().zip(tips(still)?).map(|(n, still)| n.left - still.left).collect()
    };
    Ok(Bare { values: values.collect(), carried })
}
