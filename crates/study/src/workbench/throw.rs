//! What the crooked faults of a shaft throw, linear in their size. Model card:
//! docs/model/cut-plan.md.

use arrow::{Bend, Faults, Lean, Shift};
use nalgebra::Complex;
use units::{Angle, Length};
use workbench::Throw;

use super::aimed::AimedBow;
use crate::{Recipe, Setup, StudyError};

/// Sizes at which the effect of a fault is taken: bow and offsets in m, leans in rad.
/// Chosen: about those of a shaft that reads .004 in.
const PROBES: [f64; 5] = [5e-5, 1e-3, 5e-5, 1e-3, 5e-5];
/// Directions of a fault, and turns of the arrow, at which it is tried. Four tell
/// every first wave.
const TURNS: u32 = 4;

/// The shaft's own faults in place of those of the scenario's arrow.
pub(super) fn crooked(setup: &mut Setup, bent: &Faults) {
    let faults = &mut setup.faults;
    faults.bend = bent.bend;
    faults.nock_cant = bent.nock_cant;
    faults.groove_offset = bent.groove_offset;
    faults.point_cant = bent.point_cant;
    faults.point_offset = bent.point_offset;
}

fn one(fault: usize, size: f64, clock: f64) -> Faults {
    let mut faults = Faults::default();
    let clock = Angle::from_si(clock);
    let lean = Lean { angle: Angle::from_si(size), clock };
    let shift = Shift { offset: Length::from_si(size), clock };
    match fault {
        0 => {
            let span = workbench::FULL_SPAN;
            faults.bend = Some(Bend { bow: Length::from_si(size), span, clock });
        }
        1 => faults.nock_cant = lean,
        2 => faults.groove_offset = shift,
        3 => faults.point_cant = lean,
        _ => faults.point_offset = shift,
    }
    faults
}

/// The first wave of four values over a turn: with the turn, and against it.
fn waves(values: [Complex<f64>; 4]) -> [Complex<f64>; 2] {
    let quarter = Complex::i();
    let with: Complex<f64> =
        values.iter().zip(0..).map(|(v, k)| v * quarter.powi(-k)).sum::<Complex<f64>>();
    let against = values.iter().zip(0..).map(|(v, k)| v * quarter.powi(k)).sum::<Complex<f64>>();
    [with / f64::from(TURNS), against / f64::from(TURNS)]
}

impl AimedBow {
    /// What faults throw at each distance, for an arrow with a shaft of this length.
    pub(super) fn throws(&self, length: Length) -> Result<Vec<Throw>, StudyError> {
        let mut base = self.base.clone();
        base.parts.shaft.length = length;
        crooked(&mut base, &Faults::default());
        let impacts = |setup: Setup| -> Result<Vec<Complex<f64>>, StudyError> {
            Ok(self.impacts_at(setup)?.iter().map(|[left, up]| Complex::new(*left, *up)).collect())
        };
        let quarters = |make: &dyn Fn(f64) -> Setup| -> Result<Vec<[Complex<f64>; 2]>, StudyError> {
            let mut hits = Vec::new();
            for k in 0..TURNS {
                hits.push(impacts(make(f64::from(k) * std::f64::consts::FRAC_PI_2))?);
            }
            Ok((0..hits[0].len()).map(|at| waves([0, 1, 2, 3].map(|k| hits[k][at]))).collect())
        };
        let home = quarters(&|turn| {
            let mut setup = base.clone();
            setup.index = Angle::from_si(setup.index.si() + turn);
            setup
        })?;
        let zero = Complex::new(0.0, 0.0);
        let mut throws: Vec<Throw> =
            home.into_iter().map(|home| Throw { home, faults: [[zero; 2]; 5] }).collect();
        for (fault, mut size) in PROBES.into_iter().enumerate() {
            let moved = quarters(&|clock| {
                let mut setup = base.clone();
                crooked(&mut setup, &one(fault, size, clock));
                setup
            })?;
            if fault == 0 {
                // A bow over 28 in as one over the piece.
                size *= (length.si() / workbench::FULL_SPAN.si()).powi(2);
            }
            for (throw, wave) in throws.iter_mut().zip(moved) {
                throw.faults[fault] = wave.map(|of| of / size);
            }
        }
        Ok(throws)
    }
}

/// A bow from which crooked arrows are built and flown in full, one by one: what the
/// linear map is held against.
pub struct FlownRings {
    bow: AimedBow,
}

impl FlownRings {
    /// The bow, for one distance and an arrow with a shaft of this length.
    ///
    /// # Errors
    /// [`StudyError`] where the scenario's own arrow cannot be shot.
    pub fn new(recipe: &dyn Recipe, distance: Length, length: Length) -> Result<Self, StudyError> {
        let mut bow = AimedBow::new(recipe, &[distance.si()])?;
        bow.base.parts.shaft.length = length;
        Ok(Self { bow })
    }

    /// Root mean square of the impact about its middle as the nock of an arrow with
    /// these faults turns, m.
    ///
    /// # Errors
    /// [`StudyError`] where the arrow cannot be built, shot or flown.
    pub fn of(&self, bent: &Faults) -> Result<f64, StudyError> {
        let rings = self.bow.ring(TURNS, |turn| {
            let mut setup = self.bow.base.clone();
            crooked(&mut setup, bent);
            setup.index = Angle::from_si(setup.index.si() + turn.si());
            setup
        })?;
        Ok(rings[0])
    }
}
