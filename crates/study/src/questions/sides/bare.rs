//! The flight of the arrow with nothing drawn, with every doubt at each end.

use target::Estimate;

use super::wind::blown;
use crate::band::Band;
use crate::group_cache::GroupCache;
use crate::sample::Sample;
use crate::shoot::{ArrowName, Shooter};
use crate::sightin::Sighted;
use crate::{Banded, BuildMeasure, Slot, StudyError, UncertainParameter};

/// Cross wind to each side by which drift is measured, m/s. Chosen: a light
/// wind; drift grows with the wind in proportion (the lag rule).
const STEP: f64 = 1.0;

/// What is measured, in the order of [`Values`].
pub(super) const MEASURES: [BuildMeasure; 6] = [
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

/// The flight at each distance, and how each doubt changes it.
pub(super) struct Bare {
    main: Vec<Values>,
    /// By doubt, in the order of their slots: the changes at its low and at
    /// its high end, by distance.
    changes: Vec<(Slot, [Vec<Values>; 2])>,
}

impl Bare {
    /// Drift to the left for each m/s of cross wind from the right.
    pub(super) fn drift(&self, place: usize) -> Banded {
        let mut band = Band::default();
        for (_, ends) in &self.changes {
            band.add(ends.iter().map(|end| Some(end[place][DRIFT])));
        }
        band.about(self.main[place][DRIFT])
    }

    /// This less another, in one measure at one distance. A doubt that both
    /// hold is moved in both at once.
    pub(super) fn less(&self, other: &Self, place: usize, measure: usize) -> Estimate {
        let mut slots: Vec<Slot> =
            self.changes.iter().chain(&other.changes).map(|(slot, _)| *slot).collect();
        slots.sort_unstable();
        slots.dedup();
        let change = |bare: &Self, slot: Slot, end: usize| {
            let found = bare.changes.iter().find(|(of, _)| *of == slot);
            found.map_or(0.0, |(_, ends)| ends[end][place][measure])
        };
        let mut band = Band::default();
        for slot in slots {
            let moved = |end| Some(change(self, slot, end) - change(other, slot, end));
            band.add([moved(0), moved(1)]);
        }
        let value = self.main[place][measure] - other.main[place][measure];
        let Banded { value, low, high } = band.about(value);
        Estimate { value, low, high }
    }
}

/// Flies a build with nothing drawn.
pub(super) fn bare(range: &GroupCache, case: usize) -> Result<Bare, StudyError> {
    let (sampler, distances) = (&range.rigs[case], range.settings.distances);
    let variant = sampler.variant;
    let main = values(&sampler.sighted, distances, &variant.tag())?;
    let mut uncertain: Vec<&UncertainParameter> = variant.uncertain().collect();
    uncertain.sort_by_key(|doubt| doubt.slot);
    let mut changes = Vec::with_capacity(uncertain.len());
    for doubt in uncertain {
        if range.settings.watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        // Differences have no word for an open band: a value that fails ends
        // the run.
        let at = |value: f64| -> Result<Vec<Values>, StudyError> {
            let setup = variant.at_uncertain(Some((doubt.slot, value))).undrawn(Sample::Nominal)?;
            if setup == sampler.sighted.setup {
                return Ok(vec![Values::default(); main.len()]);
            }
            let sighted = Shooter::new(variant.tag(), setup)?.zeroed()?.sighted(distances)?;
            let found = values(&sighted, distances, &variant.tag())?;
            let less = |(found, main): (&Values, &Values)| {
                std::array::from_fn(|measure| found[measure] - main[measure])
            };
            Ok(found.iter().zip(&main).map(less).collect())
        };
        changes.push((doubt.slot, [at(doubt.low)?, at(doubt.high)?]));
    }
    Ok(Bare { main, changes })
}

fn values(
    sighted: &Sighted,
    distances: &[f64],
    tag: &ArrowName,
) -> Result<Vec<Values>, StudyError> {
    let tips = |wind| blown(sighted, Some(wind), tag.clone())?.tips(distances);
    let (right, left) = (tips(STEP)?, tips(-STEP)?);
    let marks = sighted.marks.iter().zip(right.iter().zip(&left));
    Ok(marks
        .map(|(n, (right, left))| {
            let drift = (right.left - left.left) / (2.0 * STEP);
            [n.drop, drift, n.time, n.speed, n.energy, n.momentum]
        })
        .collect())
}
