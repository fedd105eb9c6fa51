//! The flight of the arrow with nothing drawn.

use super::wind::{across, blown};
use crate::group_cache::GroupCache;
use crate::{BuildMeasure, StudyError};

/// Cross wind to each side by which drift is measured where the air stands still, m/s.
/// Chosen: a light wind, in which drift grows in proportion (the lag rule).
const STEP: f64 = 1.0;
/// Cross wind from which on drift is that of the wind itself, m/s. Chosen: less would
/// divide little by little.
const BLOWS: f64 = 0.1;

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
pub(super) struct Bare(Vec<Values>);

impl Bare {
    /// Drift to the left for each m/s of cross wind from the right: of the wind there is,
    /// or of a light one in still air. Fixed blades drift less for each m/s the stronger
    /// it blows (`docs/model/broadhead.md`).
    pub(super) fn drift(&self, place: usize) -> f64 {
        self.0[place][DRIFT]
    }

    /// This less another, in one measure at one distance.
    pub(super) fn less(&self, other: &Self, place: usize, measure: usize) -> f64 {
        self.0[place][measure] - other.0[place][measure]
    }
}

/// Flies a build with nothing drawn.
pub(super) fn bare(range: &GroupCache, case: usize) -> Result<Bare, StudyError> {
    let (sampler, distances) = (&range.rigs[case], range.settings.distances);
    let tips = |wind| blown(&sampler.sighted, Some(wind), sampler.variant.tag()).tips(distances);
    let across = across(&sampler.sighted);
    let (right, left, by) = if across.abs() < BLOWS {
        (tips(STEP)?, tips(-STEP)?, 2.0 * STEP)
    } else {
        (sampler.sighted.centres.clone(), tips(-across)?, across)
    };
    let marks = sampler.sighted.marks.iter().zip(right.iter().zip(&left));
    let values = marks.map(|(n, (right, left))| {
        let drift = (right.left - left.left) / by;
        [n.drop, drift, n.time, n.speed, n.energy, n.momentum]
    });
    Ok(Bare(values.collect()))
}
