//! An arrow flown on the numbers of its scenario, against closed forms worked
//! out here from the same numbers.

use std::f64::consts::PI;

use nalgebra::{Matrix4, Vector4};

use crate::{close, fly, value};

/// Standard air at sea level, kg/m3 (US Standard Atmosphere 1976, R). The
/// program's dry air differs by up to 4e-4.
const DENSITY: f64 = 1.224_999_2;
/// Shaft diameter, m, and frontal area, m2.
const D: f64 = 0.006;
const AREA: f64 = PI * D * D / 4.0;
const MASS: f64 = 0.028;
const TRANSVERSE: f64 = 1.9e-3;
const AXIAL: f64 = 3e-7;
const SPEED: f64 = 56.4;
const DRAG: f64 = 1.56;
const SLOPE: f64 = 17.935_275;
/// Balance point to centre of pressure, m.
const ARM: f64 = 0.43 - 0.141_182_76;

/// Speed over first speed, e^(-k x), k = rho CD A / 2m. Yaw stays below a
/// tenth of a degree, so it adds less than 1e-6.
#[test]
fn exact_speed_of_an_arrow_with_given_drag() {
    let k = DENSITY * DRAG * AREA / (2.0 * MASS);
    for motion in ["six-dof", "point-mass"] {
        let states = fly("given-arrow", &["--model", motion, "--marks", "20 m, 50 m, 70 m"]);
        for (state, x) in states.iter().zip([20.0, 50.0, 70.0_f64]) {
            close(motion, value(state, "speed") / SPEED, (-k * x).exp(), 4e-5);
        }
    }
}

/// Spin from rest: Ia p' = q (G0 V^2 - G1 V p) over the distance x, with V the
/// exponential above, solved in closed form. The density leaves 4e-4.
#[test]
fn exact_spin_of_an_arrow_with_given_roll_coefficients() {
    let k = DENSITY * DRAG * AREA / (2.0 * MASS);
    let drive = 0.5 * DENSITY * 0.477_422_18 * AREA * D / AXIAL;
    let damp = 0.5 * DENSITY * 0.5 * 60.0 * AREA * D * D / AXIAL;
    let states = fly("given-arrow", &["--marks", "5 m, 20 m, 50 m"]);
    for (state, x) in states.iter().zip([5.0, 20.0, 50.0_f64]) {
        let want = drive * SPEED / (damp - k) * ((-k * x).exp() - (-damp * x).exp());
        close("spin", value(state, "spin") / want, 1.0, 5e-4);
    }
}

/// Linear free-flight theory with lift, drag and the pitching moment: over the
/// distance x, with g the course, a the heading, q half the density, the drag
/// K = q CD A / m and the lift slope S0 less CD A,
///     y' = g,  g' = (q/m)((S0 - CD A)(a - g) - S1 a'),
///     a'' = K a' + (q S1 / It)(a - g),  S1 = -S0 arm,
/// by the exponential of the system.
fn linear_theory(rate: f64, x: f64) -> Vector4<f64> {
    let (q, slope) = (0.5 * DENSITY, SLOPE * AREA);
    let lift = q * (slope - DRAG * AREA) / MASS;
    let of_rate = q * slope * ARM / MASS;
    let moment = -q * slope * ARM / TRANSVERSE;
    let slowing = q * DRAG * AREA / MASS;
    let system = Matrix4::new(
        0.0, 1.0, 0.0, 0.0, //
        0.0, -lift, lift, of_rate, //
        0.0, 0.0, 0.0, 1.0, //
        0.0, -moment, moment, slowing,
    );
    (system * x).exp() * Vector4::new(0.0, 0.0, 0.0, rate / SPEED)
}

/// Sideways place and nose of an arrow that departs with a yaw rate. The
/// density leaves 4e-4 of the pitching moment, which over two wavelengths is
/// 2.5e-3 of a radian of swing.
#[test]
fn exact_swing_of_an_arrow_with_given_coefficients() {
    let distances = [10.0, 30.0, 50.0, 70.0_f64];
    let states = fly("given-arrow", &["--marks", "10 m, 30 m, 50 m, 70 m"]);
    let most = 0.02 / SPEED / 0.217;
    for (state, x) in states.iter().zip(distances) {
        let want = linear_theory(0.02, x);
        close("left", value(state, "left") / want[0], 1.0, 1e-3);
        close("yaw", (value(state, "yaw") - want[2]) / most, 0.0, 3e-3);
    }
}

/// The jump angle of classical free-flight theory, It w / (m arm V) times lift
/// slope over normal slope: the course that the swing leaves behind, here as
/// the mean over the second wavelength. The terms of damping left out are half
/// a per cent.
#[test]
fn published_jump_angle_from_a_scenario() {
    let wavelength = 2.0 * PI * (2.0 * TRANSVERSE / (DENSITY * AREA * SLOPE * ARM)).sqrt();
    let marks = format!("{} m, {} m", wavelength, 2.0 * wavelength);
    let states = fly("given-arrow", &["--marks", &marks]);
    let [near, far] = [0, 1].map(|at: usize| value(&states[at], "left"));
    let jump = TRANSVERSE * 0.02 / (MASS * ARM * SPEED) * (1.0 - DRAG / SLOPE);
    close("jump", (far - near) / wavelength / jump, 1.0, 0.01);
}
