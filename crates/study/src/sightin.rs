//! Setting the sight, and the nominal arrow at each distance.

use arrow::Built;
use launch::Departure;
use solve::{SolveError, root};
use target::Impact;
use units::Length;

use crate::shoot::{Loosed, Met, Motion, Tag, loose, meet};
use crate::{Nominal, Setup, StudyError};

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

/// Sets the sight for a setup and flies it to the distances (m, rising).
pub(crate) fn sight_in(
    setup: Setup,
    distances: &[f64],
    motion: Motion,
    tag: Tag,
) -> Result<Sighted, StudyError> {
    let loosed = loose(&setup, None, tag)?;
    let launch_pitch = launch_pitch(&setup, &loosed, motion, tag)?;
    let met = meet(&setup, &loosed, launch_pitch, distances, motion, tag)?
        .map_err(|missed| missed.error(tag))?;
    let mass = loosed.built.mass.mass().si();
    let marks = distances
        .iter()
        .zip(&met)
        .map(|(&distance, met)| nominal(&setup, mass, launch_pitch, distance, met))
        .collect();
    let centres = met.iter().map(|met| met.tip).collect();
    let (built, departure) = (loosed.built, loosed.departure);
    Ok(Sighted { setup, built, departure, launch_pitch, marks, centres })
}

fn nominal(setup: &Setup, mass: f64, pitch: f64, distance: f64, met: &Met) -> Nominal {
    let Met { state, tip } = met;
    let speed = state.velocity.norm();
    let drop = distance * pitch.tan() - tip.up;
    let sight = setup.sight.height.si() * (1.0 - distance / setup.sight.zero.si());
    Nominal {
        time: state.time,
        speed,
        energy: 0.5 * mass * speed * speed,
        momentum: mass * speed,
        drop,
        above_sight: tip.up - sight,
        left: tip.left,
        path_pitch: body::Attitude::of(&state.velocity).pitch,
        spin: state.spin,
        drop_band: (drop, drop),
    }
}

/// The launch angle at which the point meets the line to the target, and with
/// it the line of sight, at the zero distance.
pub(crate) fn launch_pitch(
    setup: &Setup,
    loosed: &Loosed,
    motion: Motion,
    tag: Tag,
) -> Result<f64, StudyError> {
    let zero = setup.sight.zero.si();
    if !(zero.is_finite() && zero > 0.0) {
        return Err(StudyError::Zero { value: zero });
    }
    // How high the point is at the zero; an arrow that falls short is as low
    // as the distance it lacks, which keeps the sign right.
    let height = |pitch: f64| -> Result<f64, StudyError> {
        Ok(match meet(setup, loosed, pitch, &[zero], motion, tag)? {
            Ok(met) => met[0].tip.up,
            Err(missed) => missed.reached - zero,
        })
    };
    let guess = flat_guess(setup, loosed.departure.speed, zero);
    let (mut low, mut high) = (guess - FIRST_BRACKET, guess + FIRST_BRACKET);
    let mut width = FIRST_BRACKET;
    while height(low)? > 0.0 {
        width *= 2.0;
        low -= width;
        if low < -STEEPEST {
            return Err(out_of_reach(zero, tag));
        }
    }
    while height(high)? < 0.0 {
        if high >= STEEPEST {
            return Err(out_of_reach(zero, tag));
        }
        width *= 2.0;
        high = (high + width).min(STEEPEST);
    }
    let mut failed = None;
    let found = root(
        |pitch| match height(pitch) {
            Ok(height) => height,
            Err(error) => {
                failed.get_or_insert(error);
                f64::NAN
            }
        },
        low,
        high,
        ANGLE_TOLERANCE,
    );
    match (failed, found) {
        (Some(error), _) => Err(error),
        (None, found) => {
            found.map_err(|source: SolveError| StudyError::SightIn { who: tag.who(), source })
        }
    }
}

fn out_of_reach(zero: f64, tag: Tag) -> StudyError {
    StudyError::OutOfReach { who: tag.who(), zero, steepest: STEEPEST }
}

/// The launch angle of a flat shot without air, rad.
fn flat_guess(setup: &Setup, speed: f64, zero: f64) -> f64 {
    let level = setup.site.gravity.si() * setup.site.shot_angle.si().cos();
    (0.5 * level * zero / (speed * speed)).min(STEEPEST - FIRST_BRACKET)
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
