//! Events located on the interpolated solution.

use std::f64::consts::LN_2;

use solve::{Control, event};

use super::integrators::control;

fn thrown(_: f64, y: &[f64; 2], dy: &mut [f64; 2]) {
    *dy = [y[1], -9.806_65];
}

/// A ball thrown up at 20 m/s from 1.5 m: the root of its parabola.
#[test]
fn exact_landing_time_of_a_thrown_ball() {
    let g = 9.806_65_f64;
    let wanted = (20.0 + (400.0 + 2.0 * g * 1.5).sqrt()) / g;
    let done = event(thrown, [1.5, 20.0], &[1.0, 2.0, 60.0], &control(1e-10), |_, y| y[0]).unwrap();
    assert!(done.stopped);
    assert_eq!(done.at.len(), 2);
    assert!((done.end - wanted).abs() < 1e-11, "{} {wanted}", done.end);
    assert!(done.last[0].abs() < 1e-10);
    assert!((done.last[1] - (20.0 - g * wanted)).abs() < 1e-10);
}

/// Thrown from the ground, the zero at the start does not count.
#[test]
fn exact_landing_of_a_ball_thrown_from_the_ground() {
    let done = event(thrown, [0.0, 20.0], &[60.0], &control(1e-10), |_, y| y[0]).unwrap();
    assert!((done.end - 40.0 / 9.806_65).abs() < 1e-11, "{}", done.end);
}

/// Without a crossing the integration runs to its last mark and says so.
#[test]
fn exact_no_event() {
    let done = event(thrown, [1.5, 20.0], &[1.0, 2.0], &control(1e-10), |_, y| y[0]).unwrap();
    assert!(!done.stopped);
    assert_eq!((done.at.len(), done.end.to_bits()), (2, 2.0_f64.to_bits()));
    assert_eq!(done.at[1].map(f64::to_bits), done.last.map(f64::to_bits));
}

/// A decay halves after ln 2, in either direction of the crossing.
#[test]
fn exact_half_life() {
    let rhs = |_: f64, y: &[f64; 1], dy: &mut [f64; 1]| dy[0] = -y[0];
    for sign in [1.0, -1.0] {
        let done = event(rhs, [1.0], &[5.0], &control(1e-13), |_, y| sign * (y[0] - 0.5)).unwrap();
        // The integration's own error at this tolerance.
        assert!((done.end - LN_2).abs() < 1e-11, "{:e}", done.end - LN_2);
    }
}

/// An event far from the start of a tiny or huge scale is as sharp: 1e-12
/// relative. The crossing of a straight line is known exactly.
#[test]
fn exact_event_is_relative() {
    for size in [1e-9, 1.0, 1e9] {
        let rhs = |_: f64, _: &[f64; 1], dy: &mut [f64; 1]| dy[0] = 1.0;
        let long = Control { step_max: size, ..control(1e-10) };
        let done = event(rhs, [0.0], &[size], &long, |_, y| y[0] - 0.7 * size).unwrap();
        assert!((done.end / (0.7 * size) - 1.0).abs() < 2e-12, "{}", done.end);
    }
}
