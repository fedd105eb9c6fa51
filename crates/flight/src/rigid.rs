use nalgebra::{Quaternion, UnitQuaternion, Vector3};
use solve::{Control, integrate};

use crate::FlightError;

/// A rigid body with three unlike principal moments of inertia, turning freely.
///
/// A check of the rigid-body mathematics, not a model of an arrow: no air, no
/// gravity. Body axes are x forward, y left, z up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidBody {
    /// Principal moments about x, y, z, kg m2.
    pub inertia: [f64; 3],
}

/// Attitude and body rates at an instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidState {
    /// Time, s.
    pub time: f64,
    /// Turn from the start frame to the body.
    pub attitude: UnitQuaternion<f64>,
    /// Rates about the body's x, y, z, rad/s.
    pub rates: Vector3<f64>,
}

/// Turns a free rigid body from the given body rates, attitude aligned with the
/// start frame, and gives its state at each time (s, rising).
///
/// # Errors
/// [`FlightError::Solve`] when times are out of order or the integration fails.
pub fn tumble(
    body: &RigidBody,
    rates: Vector3<f64>,
    times: &[f64],
    relative: f64,
) -> Result<Vec<RigidState>, FlightError> {
    let [a, b, c] = body.inertia;
    let rhs = |_: f64, s: &[f64; 7], out: &mut [f64; 7]| {
        let q = Quaternion::new(s[0], s[1], s[2], s[3]);
        let w = Vector3::new(s[4], s[5], s[6]);
        let dq = q * Quaternion::from_imag(w) * 0.5;
        *out = [
            dq.w,
            dq.i,
            dq.j,
            dq.k,
            (b - c) / a * w.y * w.z,
            (c - a) / b * w.z * w.x,
            (a - b) / c * w.x * w.y,
        ];
    };
    let size = rates.norm().max(f64::MIN_POSITIVE);
    let control = Control {
        relative,
        scale: [1.0, 1.0, 1.0, 1.0, size, size, size],
        // A tenth of a turn. Chosen: the error control does the rest.
        step_max: 0.1 * std::f64::consts::TAU / size,
        steps_max: 1_000_000,
    };
    let start = [1.0, 0.0, 0.0, 0.0, rates.x, rates.y, rates.z];
    let solution = integrate(rhs, start, times, &control, |_, _| false)?;
    Ok(times
        .iter()
        .zip(&solution.at)
        .map(|(&time, s)| RigidState {
            time,
            attitude: UnitQuaternion::from_quaternion(Quaternion::new(s[0], s[1], s[2], s[3])),
            rates: Vector3::new(s[4], s[5], s[6]),
        })
        .collect())
}
