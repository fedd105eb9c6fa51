use nalgebra::{Quaternion, UnitQuaternion, Vector3};
use solve::{Control, integrate};

use crate::FlightError;
use crate::air::standard_density;

/// Radius of the Earth at the equator, m (WGS 84, M): free fall changes with it.
const EQUATOR: f64 = 6_378_137.0;
/// Longest step, s. Chosen: short beside any fall.
const STEP: f64 = 1.0;

/// A rigid body with three unlike principal moments of inertia.
///
/// A check of the rigid-body mathematics, not a model of an arrow. Body axes are
/// x forward, y left, z up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RigidBody {
    /// Principal moments about x, y, z, kg m2.
    pub inertia: [f64; 3],
    /// Its fall through air, or none: then there is neither air nor weight.
    pub fall: Option<Fall>,
}

/// A fall from rest through the standard atmosphere, with a drag and a damping
/// that do not depend on the attitude.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fall {
    /// Altitude at the start, m.
    pub altitude: f64,
    /// Free fall at that altitude, m/s2; it grows toward the Earth.
    pub gravity: f64,
    /// Mass, kg.
    pub mass: f64,
    /// Span and chord, m; their product is the reference area.
    pub size: [f64; 2],
    /// Drag coefficient.
    pub drag: f64,
    /// Damping coefficients Clp, Cmq, Cnr, by p b / 2 V, q c / 2 V, r b / 2 V.
    pub damping: [f64; 3],
    /// Steady wind across the fall, m/s.
    pub wind: f64,
}

impl Fall {
    /// Free fall at an altitude, m/s2: by the square of the distance from the
    /// Earth's centre.
    fn gravity_at(&self, altitude: f64) -> f64 {
        self.gravity * ((EQUATOR + self.altitude) / (EQUATOR + altitude)).powi(2)
    }

    /// Dynamic pressure times area over speed, N s/m, and the velocity against
    /// the air, across and down, m/s.
    fn met(&self, altitude: f64, across: f64, down: f64) -> (f64, [f64; 2]) {
        let against = [across - self.wind, down];
        let speed = against[0].hypot(against[1]);
        let area = self.size[0] * self.size[1];
        (0.5 * standard_density(altitude) * speed * area, against)
    }
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
    /// Altitude, m; that of the start without a fall.
    pub altitude: f64,
    /// Speed of the fall, m/s.
    pub falling: f64,
    /// How far the wind has carried it, m.
    pub carried: f64,
}

/// Turns a rigid body from the given body rates, attitude aligned with the start
/// frame, and gives its state at each time (s, rising).
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
    let rhs = |_: f64, s: &[f64; 11], out: &mut [f64; 11]| {
        let q = Quaternion::new(s[0], s[1], s[2], s[3]);
        let w = Vector3::new(s[4], s[5], s[6]);
        let [altitude, across, down] = [s[7], s[9], s[10]];
        let dq = q * Quaternion::from_imag(w) * 0.5;
        let (mut moment, mut pull) = ([0.0; 3], [0.0; 2]);
        if let Some(fall) = &body.fall {
            // The damping moment, q S b Clp p b / (2 V), has no speed left to
            // divide by.
            let (grip, against) = fall.met(altitude, across, down);
            let [span, chord] = fall.size;
            let by_rate =
                |i: usize, length: f64| 0.5 * grip * length * length * fall.damping[i] * w[i];
            moment = [by_rate(0, span), by_rate(1, chord), by_rate(2, span)];
            let slow = grip * fall.drag / fall.mass;
            pull = [-slow * against[0], fall.gravity_at(altitude) - slow * against[1]];
        }
        *out = [
            dq.w,
            dq.i,
            dq.j,
            dq.k,
            ((b - c) * w.y * w.z + moment[0]) / a,
            ((c - a) * w.z * w.x + moment[1]) / b,
            ((a - b) * w.x * w.y + moment[2]) / c,
            -down,
            across,
            pull[0],
            pull[1],
        ];
    };
    // Chosen: a body that turns less than this hardly turns.
    let size = rates.norm().max(1e-3);
    let control = Control {
        relative,
        scale: [1.0, 1.0, 1.0, 1.0, size, size, size, 1.0, 1.0, 1.0, 1.0],
        // A tenth of a turn. Chosen: the error control does the rest.
        step_max: (0.1 * std::f64::consts::TAU / size).min(STEP),
        steps_max: 1_000_000,
    };
    let high = body.fall.map_or(0.0, |fall| fall.altitude);
    let start = [1.0, 0.0, 0.0, 0.0, rates.x, rates.y, rates.z, high, 0.0, 0.0, 0.0];
    let solution = integrate(rhs, start, times, &control, |_, _| false)?;
    Ok(times
        .iter()
        .zip(&solution.at)
        .map(|(&time, s)| RigidState {
            time,
            attitude: UnitQuaternion::from_quaternion(Quaternion::new(s[0], s[1], s[2], s[3])),
            rates: Vector3::new(s[4], s[5], s[6]),
            altitude: s[7],
            falling: s[10],
            carried: s[8],
        })
        .collect())
}
