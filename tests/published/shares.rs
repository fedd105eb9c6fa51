//! Sobol' indices of functions whose indices are known.

use std::f64::consts::{PI, TAU};

use study::{Design, REPLICATES, ShareEstimator, VarianceSums};
use target::Estimate;

/// First-order and total share of each input of a function of chances.
pub(crate) fn shares(
    inputs: usize,
    points: usize,
    seed: u64,
    f: impl Fn(&[f64]) -> f64,
) -> Vec<(Estimate, Estimate)> {
    let causes: Vec<Vec<usize>> = (0..inputs).map(|input| vec![input]).collect();
    let design = Design::new(seed, inputs, &causes).unwrap();
    let rows = design.rows();
    let one = |set: usize| {
        let row = |row| (0..inputs).map(|i| design.chance(set, row, i)).collect::<Vec<_>>();
        let outputs: Vec<f64> = (0..points * rows).map(|at| f(&row(at))).collect();
        VarianceSums::of(&outputs, rows)
    };
    let sets: Vec<VarianceSums> = (0..REPLICATES).map(one).collect();
    let ratio = ShareEstimator::new(&sets).unwrap();
    let share =
        |at: usize| (ratio.of(|s| s.first[at]).unwrap(), ratio.of(|s| s.total[at]).unwrap());
    (0..inputs).map(share).collect()
}

/// Within a tolerance, and the interval no wider than it.
fn near(found: Estimate, expected: f64, tolerance: f64) {
    assert!((found.value - expected).abs() <= tolerance, "{found:?}, expected {expected}");
    assert!(0.5 * (found.high - found.low) <= tolerance, "{found:?}");
}

/// Ishigami's function, a = 7, b = 0.1: analytic, and the library `SALib` 1.6
/// (C).
#[test]
fn published_ishigami_shares() {
    let f = |u: &[f64]| {
        let x = |at: usize| TAU * u[at] - PI;
        x(0).sin() + 7.0 * x(1).sin().powi(2) + 0.1 * x(2).powi(4) * x(0).sin()
    };
    let found = shares(3, 2048, 5, f);
    let first = [0.313_905, 0.442_411, 0.0];
    let total = [0.557_589, 0.442_411, 0.243_684];
    for (at, (alone, all)) in found.into_iter().enumerate() {
        near(alone, first[at], 4e-3);
        near(all, total[at], 4e-3);
    }
}

/// Sobol's G function, a = 0 1 4.5 9 99 99 99 99: analytic (C).
#[test]
fn published_g_function_shares() {
    let a = [0.0, 1.0, 4.5, 9.0, 99.0, 99.0, 99.0, 99.0];
    let f =
        |u: &[f64]| u.iter().zip(a).map(|(u, a)| ((4.0 * u - 2.0).abs() + a) / (1.0 + a)).product();
    let found = shares(8, 2048, 5, f);
    near(found[0].0, 0.716_192, 4e-3);
    near(found[0].1, 0.787_144, 4e-3);
    // Closed form: V_i = 1 / (3 (1 + a)^2), V = prod(1 + V_i) - 1.
    let part = |a: f64| 1.0 / (3.0 * (1.0 + a).powi(2));
    let variance = a.iter().map(|a| 1.0 + part(*a)).product::<f64>() - 1.0;
    for (found, a) in found.iter().zip(a) {
        let others = (variance + 1.0) / (1.0 + part(a));
        near(found.0, part(a) / variance, 4e-3);
        near(found.1, part(a) * others / variance, 4e-3);
    }
}
