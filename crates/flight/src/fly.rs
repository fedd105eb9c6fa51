use std::f64::consts::PI;

use body::State;
use nalgebra::Vector3;
use solve::{Arch, Control, Effort, Solution, integrate};

use crate::error::StartFault;
use crate::model::{SIX, pack, unpack};
use crate::{FlightError, Model};

/// How closely to integrate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tolerance {
    /// Relative tolerance of a step; see [`Tolerance::default`].
    pub relative: f64,
    /// Steps to a turn of the arrow, where something turns with it; to half a
    /// turn with two blades.
    pub per_turn: f64,
}

impl Default for Tolerance {
    /// Chosen so that halving both moves no impact at 60 yd by 0.05 mm; a test
    /// holds it.
    fn default() -> Self {
        Self { relative: 1e-5, per_turn: 3.0 }
    }
}

impl Tolerance {
    /// Half the tolerance, twice the steps to a turn.
    #[must_use]
    pub fn halved(self) -> Self {
        Self { relative: 0.5 * self.relative, per_turn: 2.0 * self.per_turn }
    }
}

/// Why a flight ended before its last mark.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Shortfall {
    /// It no longer moves toward the target.
    #[error("it no longer moves toward the target")]
    Spent,
    /// It turned more than 45 degrees from its path, beyond what the
    /// aerodynamics can say.
    #[error("it turned more than 45 degrees from its path")]
    Tumbled,
}

/// How a flight ended.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum FlightEnd {
    /// It passed every mark.
    Arrived,
    /// It did not.
    Short {
        /// The distance it reached, m.
        reached: f64,
        /// Why.
        why: Shortfall,
    },
}

/// A flown arrow.
#[derive(Debug, Clone, PartialEq)]
pub struct Flight {
    /// State at each mark passed.
    pub marks: Vec<State>,
    /// How it ended.
    pub end: FlightEnd,
    /// What it cost.
    pub effort: Effort,
}

/// Longest step of a smooth flight, m. Chosen: arrows pitch once in 15 to 40 m.
const STEP: f64 = 2.0;
/// Most steps. Chosen: 40 times what the longest shot takes.
const STEPS: u32 = 20_000;
/// A flight is spent when its speed along the line falls below this share of
/// the starting one. Chosen.
const SPENT: f64 = 0.05;
/// Cosine of the incidence at which the aerodynamics give up, 45 degrees.
const TUMBLED: f64 = std::f64::consts::FRAC_1_SQRT_2;

/// Flies an arrow with six degrees of freedom and gives its state at each mark.
///
/// Marks are distances along the line to the target, m, rising, at or beyond
/// the start. The state's own distance is its first coordinate; ground and
/// obstacles are not looked at.
///
/// # Errors
/// [`FlightError`] for a start that cannot fly, marks out of order, or a
/// failing integration. An arrow that does not arrive is no error: see
/// [`Flight::end`].
pub fn fly(
    model: &Model<f64>,
    start: &State,
    marks: &[f64],
    tolerance: &Tolerance,
) -> Result<Flight, FlightError> {
    check(start)?;
    let speed = start.velocity.norm();
    let mut step_max = STEP;
    let turn = model.turn_per_length().abs().max(start.spin.abs() / speed) * model.beats();
    if turn > 0.0 {
        step_max = step_max.min(2.0 * PI / (turn * tolerance.per_turn));
    }
    let control = Control {
        relative: tolerance.relative,
        // s, m, m/s, rad, rad/s: the sizes met in flight; the roll angle is
        // wanted to a few thousandths of a turn only.
        scale: [0.1, 0.1, 0.1, 10.0, 1.0, 1.0, 1.0, 0.1, 0.1, 1.0, 1.0, 1.0, 100.0, 100.0],
        step_max,
        steps_max: STEPS,
    };
    let from = start.position.x;
    let arch = Arch::new();
    let rhs = |x: f64, s: &[f64; SIX], out: &mut [f64; SIX]| {
        *out = arch.dispatch(
            #[inline(always)]
            || model.slope(from + x, s),
        );
    };
    let spent = spent_below(start);
    let stop = |_: f64, s: &[f64; SIX]| shortfall(s, spent).is_some();
    let relative: Vec<f64> = marks.iter().map(|m| m - from).collect();
    let solution = integrate(rhs, pack(start), &relative, &control, stop)?;
    Ok(finish(&solution, marks, from, unpack, |s| shortfall(s, spent).unwrap_or(Shortfall::Spent)))
}

/// Flies a point mass that drags as the arrow would if it pointed where it
/// goes. The states carry the axis along the velocity, no rate and no spin.
///
/// # Errors
/// As [`fly`].
pub fn fly_point(
    model: &Model<f64>,
    start: &State,
    marks: &[f64],
    tolerance: &Tolerance,
) -> Result<Flight, FlightError> {
    check(start)?;
    let control = Control {
        relative: tolerance.relative,
        scale: [0.1, 0.1, 0.1, 10.0, 1.0, 1.0],
        step_max: STEP,
        steps_max: STEPS,
    };
    let from = start.position.x;
    let (r, v) = (start.position, start.velocity);
    let packed = [start.time, r.y, r.z, v.x, v.y, v.z];
    let arch = Arch::new();
    let rhs = |x: f64, s: &[f64; 6], out: &mut [f64; 6]| {
        let [ax, ay, az] = arch.dispatch(
            #[inline(always)]
            || model.acceleration(from + x, s[2], [s[3], s[4], s[5]]),
        );
        let per_length = 1.0 / s[3];
        *out = [1.0, s[4], s[5], ax, ay, az].map(|d| d * per_length);
    };
    let spent = spent_below(start);
    let relative: Vec<f64> = marks.iter().map(|m| m - from).collect();
    let solution = integrate(rhs, packed, &relative, &control, |_, s| s[3] < spent)?;
    let along = |x: f64, s: &[f64; 6]| {
        let velocity = Vector3::new(s[3], s[4], s[5]);
        State {
            time: s[0],
            position: Vector3::new(x, s[1], s[2]),
            velocity,
            axis: velocity.normalize(),
            rate: Vector3::zeros(),
            spin: 0.0,
            roll: start.roll,
        }
    };
    Ok(finish(&solution, marks, from, along, |_| Shortfall::Spent))
}

fn check(start: &State) -> Result<(), FlightError> {
    let why = if !start.is_finite() {
        StartFault::NotFinite
    } else if start.velocity.x <= 0.0 {
        StartFault::NotForward
    } else if (start.axis.norm() - 1.0).abs() > 1e-9 {
        StartFault::Axis
    } else {
        return Ok(());
    };
    Err(FlightError::Start { why })
}

/// Speed along the line below which a flight is spent, m/s.
pub(crate) fn spent_below(start: &State) -> f64 {
    SPENT * start.velocity.x
}

/// Why a flight must end at a state, if it must.
pub(crate) fn shortfall(s: &[f64; SIX], spent: f64) -> Option<Shortfall> {
    let along = s[3] * s[6] + s[4] * s[7] + s[5] * s[8];
    if along < TUMBLED * (s[3] * s[3] + s[4] * s[4] + s[5] * s[5]).sqrt() {
        Some(Shortfall::Tumbled)
    } else {
        (s[3] < spent).then_some(Shortfall::Spent)
    }
}

fn finish<const N: usize>(
    solution: &Solution<N>,
    marks: &[f64],
    from: f64,
    state: impl Fn(f64, &[f64; N]) -> State,
    why: impl Fn(&[f64; N]) -> Shortfall,
) -> Flight {
    let end = if solution.stopped {
        FlightEnd::Short { reached: from + solution.end, why: why(&solution.last) }
    } else {
        FlightEnd::Arrived
    };
    let marks = marks.iter().zip(&solution.at).map(|(&x, s)| state(x, s)).collect();
    Flight { marks, end, effort: solution.effort }
}
