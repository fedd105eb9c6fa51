//! Fits of bench readings against general libraries.

use body::Across;
use units::{Angle, Length};
use workbench::{face, fit_turns, harmonic};

fn near(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got} against {want} within {within:e}");
}

/// Readings of `tests/reference/workbench.py`, micrometres.
const CLOCKS: [f64; 7] = [0.0, 40.0, 95.0, 150.0, 210.0, 275.0, 330.0];
const READINGS: [f64; 7] = [131.0, 158.5, 139.0, 88.0, 51.5, 60.0, 104.0];

fn pairs() -> Vec<(f64, f64)> {
    CLOCKS.iter().zip(READINGS).map(|(c, y)| (c.to_radians(), y)).collect()
}

/// What the script prints.
const MEAN: f64 = 99.336_344_612_813_8;
const WAVE: [f64; 2] = [33.836_571_893_731_1, 43.365_308_752_817_3];
const NOISE: f64 = 4.098_679_716_346_196;
const LARGEST: f64 = 5.368_654_357_255_508;
const ERRORS: [f64; 2] = [2.122_015_292_287_751, 2.312_884_684_877_197];
const COVARIANCE: f64 = 0.189_872_312_047_790_15;
const CIRCLE: [f64; 3] = [-25.710_996_596_342, 30.641_236_825_812_5, 3_124.128_032_320_96];

/// `scipy.optimize.curve_fit` (C).
#[test]
fn exact_a_wave_agrees_with_a_reference_library() {
    let fit = harmonic(&pairs()).unwrap();
    near(fit.mean, MEAN, 1e-5);
    near(fit.wave.at0, WAVE[0], 1e-5);
    near(fit.wave.at90, WAVE[1], 1e-5);
    near(fit.noise, NOISE, 1e-6);
    near(fit.largest, LARGEST, 1e-5);
    near(fit.error(fit.noise, Across { at0: 1.0, at90: 0.0 }), ERRORS[0], 1e-6);
    near(fit.error(fit.noise, Across { at0: 0.0, at90: 1.0 }), ERRORS[1], 1e-6);
    // Of a sum, the variance holds twice the covariance.
    let sum = fit.error(fit.noise, Across { at0: 1.0, at90: 1.0 }).powi(2);
    near(sum, ERRORS[0].powi(2) + ERRORS[1].powi(2) + 2.0 * COVARIANCE, 1e-5);
}

/// The geometric least-squares circle, `scipy.optimize.least_squares` (C). They
/// differ by the square of the eccentricity over the radius, 0.5 um here, and
/// by less in the centre.
#[test]
fn exact_the_wave_is_the_centre_of_the_least_squares_circle() {
    let trace = |degrees: u32| {
        let c = f64::from(degrees).to_radians();
        let lobes = 2.0 * (3.0 * c).cos();
        (c, 3124.0 + 40.0 * (c - 130_f64.to_radians()).cos() + lobes)
    };
    let pairs: Vec<(f64, f64)> = (0..360).step_by(30).map(trace).collect();
    let fit = harmonic(&pairs).unwrap();
    near(fit.wave.at0, CIRCLE[0], 0.02);
    near(fit.wave.at90, CIRCLE[1], 0.02);
    near(fit.mean, CIRCLE[2], 0.3);
}

/// A plane face at a known angle, read at a known radius, any number of
/// readings: closed form.
#[test]
fn exact_a_face_from_readings_round_the_clock() {
    let (angle, high, radius) = (0.3_f64.to_radians(), 2.2_f64, 2.5e-3);
    for clocks in [[0.0, 2.1, 4.2].as_slice(), &[0.1, 1.0, 2.0, 3.0, 4.0, 5.0]] {
        let one = |c: &f64| {
            let height = radius * angle.tan() * (c - high).cos() + 0.01;
            (Angle::from_si(*c), Length::from_si(height))
        };
        let readings: Vec<_> = clocks.iter().map(one).collect();
        let found = face(&readings, Length::from_si(radius)).unwrap();
        near(found.angle.si(), angle, 1e-12);
        near(found.clock.si(), high, 1e-10);
    }
}

/// Shots on an ellipse, every direction its own wave; scatter by hand.
#[test]
fn exact_a_turn_fit_by_hand() {
    let hit = |turn: f64| [0.02 + 0.01 * turn.cos(), -0.01 + 0.004 * turn.sin()];
    let mut shots = Vec::new();
    for turn in [0.0_f64, 90.0, 180.0, 270.0].map(f64::to_radians) {
        for by in [0.003, -0.003] {
            let [left, up] = hit(turn);
            shots.push((Angle::from_si(turn), [left + by, up]));
        }
    }
    let fit = fit_turns(&shots).unwrap();
    for turn in [0.3_f64, 2.0, 5.0] {
        let [left, up] = fit.at(Angle::from_si(turn));
        near(left, hit(turn)[0], 1e-15);
        near(up, hit(turn)[1], 1e-15);
    }
    // Eight residuals of 3 mm over five, none upward; their mean square.
    near(fit.noise, (8.0 * 9e-6 / 5.0 / 2.0_f64).sqrt(), 1e-15);
    assert_eq!(fit.freedom, 10);
    near(fit.ring(), 5.8e-5_f64.sqrt(), 1e-15);
    // Opposite positions: twice the wave, whose variance is 2/8 of a shot's.
    let apart = fit.error_between(Angle::ZERO, Angle::from_si(std::f64::consts::PI));
    near(apart, fit.noise, 1e-15);
}
