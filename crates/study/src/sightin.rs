//! Setting the sight, and the nominal arrow at each distance.

use arrow::Built;
use body::State;
use launch::{Departure, kinetic_energy, momentum};
use solve::{SolveError, root};
use target::Impact;
use units::{Length, Speed};

use crate::shoot::{Met, Shooter};
use crate::{Nominal, Setup, Sight, StudyError};

/// How closely the launch angle is found, rad. Chosen: 1e-9, a ten thousandth
/// of a millimetre at 100 m.
const ANGLE_TOLERANCE: f64 = 1e-9;
/// Half-width of the first bracket of launch angles, rad. Chosen: drag and
/// faultless push move the angle less than this up to about 100 m.
const FIRST_BRACKET: f64 = 0.01;
/// Steepest launch angle from the line to the target, rad. Chosen: 45 degrees,
/// about the angle of greatest range.
const STEEPEST: f64 = std::f64::consts::FRAC_PI_4;

/// The nominal arrow with the sight set for it.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighted {
    /// Its setup: nothing drawn, no faults, no form error.
    pub setup: Setup,
    /// The arrow.
    pub built: Built,
    /// Its departure.
    pub departure: Departure,
    /// From the line to the target up to the line of departure, rad.
    pub launch_pitch: f64,
    /// The arrow at each distance.
    pub marks: Vec<Nominal>,
    /// Where its point meets the plane at each distance, in the line frame.
    pub centres: Vec<Impact>,
}

impl Shooter<'_> {
    /// The same with the sight set for its own arrow.
    pub(crate) fn zeroed(self) -> Result<Self, StudyError> {
        let pitch = self.pitch_to(self.setup.sight.zero.si())?;
        Ok(self.aimed(pitch))
    }

    /// The launch angle at which the point meets the line to the target, and
    /// with it the line of sight, at a distance, m.
    pub(crate) fn pitch_to(&self, zero: f64) -> Result<f64, StudyError> {
        if !(zero.is_finite() && zero > 0.0) {
            return Err(StudyError::Zero { value: zero });
        }
        // How high the point is at the zero; an arrow that falls short is as low
        // as the distance it lacks, which keeps the sign right.
        let height = |pitch: f64| -> Result<f64, StudyError> {
            Ok(match self.clone().aimed(pitch).meet(&[zero])? {
                Ok(met) => met[0].tip.up,
                Err(missed) => missed.reached - zero,
            })
        };
        let out_of_reach =
            || StudyError::OutOfReach { who: self.tag.who(), zero, steepest: STEEPEST };
        let guess = self.flat_guess(zero);
        let (mut low, mut high) = (guess - FIRST_BRACKET, guess + FIRST_BRACKET);
        let mut width = FIRST_BRACKET;
        while height(low)? > 0.0 {
            width *= 2.0;
            low -= width;
            if low < -STEEPEST {
                return Err(out_of_reach());
            }
        }
        while height(high)? < 0.0 {
            if high >= STEEPEST {
                return Err(out_of_reach());
            }
            width *= 2.0;
            high = (high + width).min(STEEPEST);
        }
        let refused = |source| StudyError::SightIn { who: self.tag.who(), source };
        root_of(height, low, high, ANGLE_TOLERANCE)?.map_err(refused)
    }

    /// The launch angle of a flat shot without air, rad.
    fn flat_guess(&self, zero: f64) -> f64 {
        let (site, speed) = (&self.setup.site, self.departure.speed);
        let level = site.gravity.si() * site.shot_angle.si().cos();
        (0.5 * level * zero / (speed * speed)).min(STEEPEST - FIRST_BRACKET)
    }

    /// The arrow at each distance (m, rising), as it is aimed.
    pub(crate) fn sighted(self, distances: &[f64]) -> Result<Sighted, StudyError> {
        let met = self.impacts_at(distances)?;
        let marks = distances.iter().zip(&met).map(|(&at, met)| self.nominal(at, met)).collect();
        let centres = met.iter().map(|met| met.tip).collect();
        let Self { setup, built, departure, pitch: launch_pitch, .. } = self;
        Ok(Sighted { setup, built, departure, launch_pitch, marks, centres })
    }

    fn nominal(&self, distance: f64, met: &Met) -> Nominal {
        let Met { state, tip } = met;
        let moving = Moving::of(self, state);
        let drop = distance * self.pitch.tan() - tip.up;
        let Sight { height, zero, .. } = self.setup.sight;
        let sight = height.si() * (1.0 - distance / zero.si());
        Nominal {
            time: state.time,
            speed: moving.speed,
            energy: moving.energy,
            momentum: moving.momentum,
            drop,
            above_sight: tip.up - sight,
            left: tip.left,
            path_pitch: body::Attitude::of(&state.velocity).pitch,
            spin: state.spin,
        }
    }
}

/// What an arrow carries, SI.
pub(crate) struct Moving {
    pub(crate) speed: f64,
    pub(crate) energy: f64,
    pub(crate) momentum: f64,
}

impl Moving {
    pub(crate) fn of(shooter: &Shooter, state: &State) -> Self {
        let (mass, speed) = (shooter.built.mass.mass(), state.velocity.norm());
        let at = Speed::from_si(speed);
        let (energy, momentum) = (kinetic_energy(mass, at).si(), momentum(mass, at).si());
        Self { speed, energy, momentum }
    }
}

/// A root of a function that may fail: its own first error, if it has one,
/// goes before that of the search.
pub(crate) fn root_of(
    mut of: impl FnMut(f64) -> Result<f64, StudyError>,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Result<Result<f64, SolveError>, StudyError> {
    let mut failed = None;
    let at = |x| match of(x) {
        Ok(value) => value,
        Err(error) => {
            failed.get_or_insert(error);
            f64::NAN
        }
    };
    let found = root(at, low, high, tolerance);
    failed.map_or(Ok(found), Err)
}

/// The distances in m, checked.
pub(crate) fn checked(distances: &[Length]) -> Result<Vec<f64>, StudyError> {
    if distances.is_empty() {
        return Err(StudyError::NoDistance);
    }
    let mut before = 0.0;
    for (index, distance) in distances.iter().enumerate() {
        let value = distance.si();
        if !(value.is_finite() && value > before) {
            return Err(StudyError::Distance { index, value });
        }
        before = value;
    }
    Ok(distances.iter().map(|d| d.si()).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_root_is_found() {
        let found = root_of(|x| Ok(x * x - 2.0), 1.0, 2.0, 1e-12).unwrap().unwrap();
        assert!((found - 2.0_f64.sqrt()).abs() < 1e-12);
    }

    #[test]
    fn regress_a_failing_function_tells_its_own_error() {
        let found = root_of(|_| Err(StudyError::Cancelled), 1.0, 2.0, 1e-12);
        assert_eq!(found.unwrap_err(), StudyError::Cancelled);
    }
}
