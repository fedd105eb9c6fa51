//! The flight of the arrow with nothing drawn, with every doubt at each end.

use flight::Wind;
use units::{Angle, Speed};

use super::misjudged::tips;
use crate::group::nothing_drawn;
use crate::range::Range;
use crate::shoot::{Motion, Tag};
use crate::sightin::{Sighted, sight_in};
use crate::take::Take;
use crate::{Banded, Doubt, Measure, Plan, Setup, Slot, StudyError};

/// Cross wind to each side by which drift is measured, m/s. Chosen: a light
/// wind; drift grows with the wind in proportion (the lag rule).
const STEP: f64 = 1.0;

/// What is measured, in the order of [`Values`].
pub(super) const MEASURES: [Measure; 6] = [
    Measure::Drop,
    Measure::Drift,
    Measure::Time,
    Measure::Speed,
    Measure::Energy,
    Measure::Momentum,
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
        let mut side = Side::default();
        for (_, [low, high]) in &self.changes {
            side.add(low[place][DRIFT], high[place][DRIFT]);
        }
        let value = self.main[place][DRIFT];
        Banded { value, low: value - side.below.sqrt(), high: value + side.above.sqrt() }
    }

    /// This less another, in one measure at one distance. A doubt that both
    /// hold is moved in both at once.
    pub(super) fn less(&self, other: &Self, place: usize, measure: usize) -> (f64, f64, f64) {
        let mut slots: Vec<Slot> =
            self.changes.iter().chain(&other.changes).map(|(slot, _)| *slot).collect();
        slots.sort_unstable();
        slots.dedup();
        let change = |bare: &Self, slot: Slot, end: usize| {
            let found = bare.changes.iter().find(|(of, _)| *of == slot);
            found.map_or(0.0, |(_, ends)| ends[end][place][measure])
        };
        let mut side = Side::default();
        for slot in slots {
            let moved = |end| change(self, slot, end) - change(other, slot, end);
            side.add(moved(0), moved(1));
        }
        let value = self.main[place][measure] - other.main[place][measure];
        (value, value - side.below.sqrt(), value + side.above.sqrt())
    }
}

/// Flies a build with nothing drawn.
pub(super) fn bare(range: &Range, plan: &Plan, case: usize) -> Result<Bare, StudyError> {
    let (rig, build) = (&range.rigs[case], &plan.builds[case]);
    let distances = range.ground.distances;
    let main = values(&rig.sighted, distances, rig.tag())?;
    let mut doubts: Vec<&Doubt> = rig.doubts().collect();
    doubts.sort_by_key(|doubt| doubt.slot);
    let mut changes = Vec::with_capacity(doubts.len());
    for doubt in doubts {
        if range.ground.watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let at = |value: f64| -> Result<Vec<Values>, StudyError> {
            let held = Some((doubt.slot, value));
            let setup = nothing_drawn(build.recipe.as_ref(), Take::Nominal, held, None, rig.tag())?;
            if setup == rig.sighted.setup {
                return Ok(vec![Values::default(); main.len()]);
            }
            let sighted = sight_in(setup, distances, Motion::Rigid, rig.tag())?;
            let found = values(&sighted, distances, rig.tag())?;
            let less = |(found, main): (&Values, &Values)| {
                std::array::from_fn(|measure| found[measure] - main[measure])
            };
            Ok(found.iter().zip(&main).map(less).collect())
        };
        changes.push((doubt.slot, [at(doubt.low)?, at(doubt.high)?]));
    }
    Ok(Bare { main, changes })
}

fn values(sighted: &Sighted, distances: &[f64], tag: Tag) -> Result<Vec<Values>, StudyError> {
    let blown = |wind: f64| {
        let setup = crossed(&sighted.setup, wind);
        tips(&setup, sighted.launch_pitch, distances, tag)
    };
    let (right, left) = (blown(STEP)?, blown(-STEP)?);
    let marks = sighted.marks.iter().zip(right.iter().zip(&left));
    Ok(marks
        .map(|(n, (right, left))| {
            let drift = (right.left - left.left) / (2.0 * STEP);
            [n.drop, drift, n.time, n.speed, n.energy, n.momentum]
        })
        .collect())
}

/// The setup with a further cross wind from the right, m/s.
pub(super) fn crossed(setup: &Setup, wind: f64) -> Setup {
    let (sin, cos) = setup.site.wind.from.si().sin_cos();
    let speed = setup.site.wind.speed.si();
    let (ahead, left) = (-speed * cos, speed * sin + wind);
    let mut setup = setup.clone();
    setup.site.wind = Wind {
        speed: Speed::from_si(ahead.hypot(left)),
        from: Angle::from_si(left.atan2(-ahead)),
        ..setup.site.wind
    };
    setup
}

/// Sums of squares of the changes below and above.
#[derive(Debug, Clone, Copy, Default)]
struct Side {
    below: f64,
    above: f64,
}

impl Side {
    fn add(&mut self, one: f64, other: f64) {
        self.below += one.min(other).min(0.0).powi(2);
        self.above += one.max(other).max(0.0).powi(2);
    }
}
