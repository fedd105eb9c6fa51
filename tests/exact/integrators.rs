//! The integrators against closed forms and published orbits.

use std::cell::Cell;
use std::f64::consts::PI;

use solve::{Control, SolveError, integrate, rk4};

pub(crate) fn control<const N: usize>(relative: f64) -> Control<N> {
    Control { relative, scale: [1.0; N], step_max: 10.0, steps_max: 100_000 }
}

/// No error control: steps of this length, for convergence.
fn fixed(step: f64) -> Control<1> {
    Control { relative: 1e3, scale: [1.0], step_max: step, steps_max: 100_000 }
}

fn never<const N: usize>(_: f64, _: &[f64; N]) -> bool {
    false
}

/// Order test: RK4 on x'' = -x, one period, n 50/100/200 (C). The published
/// error is that of x', which is the error of phase.
#[test]
fn exact_rk4_errors_over_one_period() {
    for (n, published) in [(50, 1.2983e-5), (100, 8.149e-7), (200, 5.0985e-8)] {
        let step = 2.0 * PI / f64::from(n);
        let mut y = [1.0, 0.0];
        for i in 0..n {
            y = rk4(|_, y: &[f64; 2]| [y[1], -y[0]], f64::from(i) * step, &y, step);
        }
        // Half a unit of the last digit printed, four or five of them.
        assert!((y[1].abs() / published - 1.0).abs() < 1e-4, "{n}: {:e}", y[1]);
    }
}

/// One RK4 step is exact where y' is a cubic in x (order conditions for the
/// nodes, [hairer1993] II.1).
#[test]
fn exact_rk4_integrates_cubics() {
    let y = rk4(|x: f64, _: &[f64; 1]| [4.0 * x * x * x], 1.0, &[1.0], 2.0);
    assert!((y[0] - 81.0).abs() < 1e-13, "{}", y[0]);
}

/// Arenstorf orbit, mu .012277471, x .994, y' -2.00158510637908, closes after
/// 17.06521656015796: 3e-9 in position at rtol 1e-10.
#[test]
fn published_arenstorf_orbit_closes() {
    let (mu, period) = (0.012_277_471, 17.065_216_560_157_96);
    let start = [0.994, 0.0, 0.0, -2.001_585_106_379_08];
    let rhs = |_: f64, y: &[f64; 4], dy: &mut [f64; 4]| {
        let near = ((y[0] + mu).powi(2) + y[1] * y[1]).powf(1.5);
        let far = ((y[0] - (1.0 - mu)).powi(2) + y[1] * y[1]).powf(1.5);
        *dy = [
            y[2],
            y[3],
            y[0] + 2.0 * y[3] - (1.0 - mu) * (y[0] + mu) / near - mu * (y[0] - (1.0 - mu)) / far,
            y[1] - 2.0 * y[2] - (1.0 - mu) * y[1] / near - mu * y[1] / far,
        ];
    };
    // The figure states a relative tolerance only: the absolute one is made
    // too small to matter.
    let relative = Control { scale: [1e-4; 4], ..control(1e-10) };
    let done = integrate(rhs, start, &[period], &relative, never).unwrap();
    let gap = (done.last[0] - start[0]).hypot(done.last[1] - start[1]);
    assert!(gap < 3e-9, "{gap:e}");
    // Our own count, frozen: 7287 evaluations. A few steps may differ where
    // powers round otherwise.
    let evaluations = done.effort.evaluations;
    assert!((7100..7500).contains(&evaluations), "{evaluations}");
}

/// Quadrature conditions: one step of a fifth-order method integrates a
/// quartic exactly, and its fourth-order interpolant a cubic. A wrong node fails here.
#[test]
fn exact_dopri_order_conditions() {
    for power in 0..=4 {
        let rhs = |x: f64, _: &[f64; 1], dy: &mut [f64; 1]| {
            dy[0] = f64::from(power + 1) * (1.0 + x).powi(power);
        };
        // A start of 8 makes the library's first guess longer than the step.
        let done = integrate(rhs, [8.0], &[0.3, 1.0], &fixed(1.0), never).unwrap();
        assert_eq!(done.effort.accepted, 1);
        for (x, y) in [0.3_f64, 1.0].iter().zip(&done.at) {
            let wanted = 7.0 + (1.0 + x).powi(power + 1);
            // Rounding of numbers up to 39.
            let exact = (y[0] - wanted).abs() < 2e-14;
            assert!(exact || (power == 4 && *x < 1.0), "power {power} at {x}: {} {wanted}", y[0]);
        }
    }
}

/// y' = y cos x has y = exp(sin x). Halving the step divides the error at the
/// end by 2^5; the equation depends on x, so wrong nodes show.
#[test]
fn exact_dopri_order_on_a_non_autonomous_equation() {
    let error = |step: f64| {
        let rhs = |x: f64, y: &[f64; 1], dy: &mut [f64; 1]| dy[0] = y[0] * x.cos();
        let done = integrate(rhs, [1.0], &[4.0], &fixed(step), never).unwrap();
        (done.last[0] - 4.0_f64.sin().exp()).abs()
    };
    let errors = [error(0.125), error(0.0625), error(0.031_25)];
    for pair in errors.windows(2) {
        let order = (pair[0] / pair[1]).log2();
        // The next term of the error is still felt at these steps.
        assert!((order - 5.0).abs() < 0.3, "order {order}, errors {errors:?}");
    }
}

/// Between the steps the interpolant keeps order 4 at least.
#[test]
fn exact_interpolant_order() {
    let error = |step: f64| {
        let marks: Vec<f64> = (1..400).map(|i| 0.01 * f64::from(i)).collect();
        let rhs = |x: f64, y: &[f64; 1], dy: &mut [f64; 1]| dy[0] = y[0] * x.cos();
        let done = integrate(rhs, [1.0], &marks, &fixed(step), never).unwrap();
        let errors = marks.iter().zip(&done.at).map(|(x, y)| (y[0] - x.sin().exp()).abs());
        errors.fold(0.0, f64::max)
    };
    let order = (error(0.125) / error(0.0625)).log2();
    assert!(order > 4.0, "order {order}");
}

/// The last row is as good as the others. The library's own grid output is
/// wrong there by 2.7e-3 on this equation.
#[test]
fn exact_last_row_of_a_decay() {
    let rhs = |_: f64, y: &[f64; 1], dy: &mut [f64; 1]| dy[0] = -y[0];
    for last in [10.0, 0.1 * 3.0, 7.3, 1e-3] {
        let marks: Vec<f64> = (0..=10).map(|i| f64::from(i) * last / 10.0).collect();
        let done = integrate(rhs, [1.0], &marks, &control(1e-12), never).unwrap();
        assert_eq!(done.at.len(), marks.len());
        assert_eq!(done.at[10][0].to_bits(), done.last[0].to_bits());
        for (x, y) in marks.iter().zip(&done.at) {
            // Steps of 1e-12 each, some tens of them.
            assert!((y[0] - (-x).exp()).abs() < 1e-11, "at {x}: {}", y[0]);
        }
    }
}

/// A first mark of 0 gives the start, bit for bit, alone or with others.
#[test]
fn exact_mark_at_the_start() {
    let rhs = |_: f64, y: &[f64; 1], dy: &mut [f64; 1]| dy[0] = y[0];
    let scaled = Control { scale: [0.3], ..control(1e-8) };
    for marks in [&[0.0][..], &[0.0, 1.0]] {
        let done = integrate(rhs, [0.1], marks, &scaled, never).unwrap();
        assert_eq!(done.at.len(), marks.len());
        assert_eq!(done.at[0][0].to_bits(), 0.1_f64.to_bits());
    }
}

/// The stop hook ends after the first accepted step that fulfils it.
#[test]
fn exact_stop_hook() {
    let rhs = |_: f64, _: &[f64; 1], dy: &mut [f64; 1]| dy[0] = 1.0;
    let short = Control { step_max: 0.125, ..control(1e-6) };
    let marks: Vec<f64> = (0..=100).map(|i| 0.03 * f64::from(i)).collect();
    let done = integrate(rhs, [0.0], &marks, &short, |_, y| y[0] >= 1.0).unwrap();
    assert!(done.stopped);
    assert!((1.0..1.125 + 1e-12).contains(&done.end), "{}", done.end);
    assert!((done.last[0] - done.end).abs() < 1e-14);
    assert_eq!(done.at.len(), marks.iter().filter(|&&mark| mark <= done.end).count());
}

/// A small fast component beside a large slow one: with its own scale it is
/// as good as the large one, without it a hundred times worse and more.
#[test]
fn exact_scale_of_each_component() {
    let rhs =
        |_: f64, y: &[f64; 4], dy: &mut [f64; 4]| *dy = [y[1], -y[0], 8.0 * y[3], -8.0 * y[2]];
    let error = |small: f64| {
        let settings = Control { scale: [1.0, 1.0, small, small], ..control(1e-8) };
        let done = integrate(rhs, [1.0, 0.0, 1e-6, 0.0], &[20.0], &settings, never).unwrap();
        (done.last[2] - 1e-6 * 160.0_f64.cos()).abs() / 1e-6
    };
    let (own, shared) = (error(1e-6), error(1.0));
    // About 500 steps with errors of 1e-8 each.
    assert!(own < 3e-6, "{own:e}");
    assert!(shared > 100.0 * own, "{shared:e} against {own:e}");
}

/// Units of the state do not matter: scaling start and scale by a power of
/// two changes no bit of the scaled result.
#[test]
fn law_units_of_the_state_do_not_matter() {
    let rhs = |_: f64, y: &[f64; 2], dy: &mut [f64; 2]| *dy = [y[1], -y[0]];
    let last = |unit: f64| {
        let settings = Control { scale: [unit; 2], ..control(1e-9) };
        integrate(rhs, [unit, 0.0], &[7.0], &settings, never).unwrap().last
    };
    assert_eq!(last(1.0).map(f64::to_bits), last(1024.0).map(|y| (y / 1024.0).to_bits()));
}

/// The first bad term is named: in the start, in the first derivative, later.
#[test]
fn exact_the_first_bad_term_is_named() {
    let run = |start: [f64; 3], from: f64, bad: f64| {
        let rhs = |x: f64, _: &[f64; 3], dy: &mut [f64; 3]| {
            *dy = [1.0, 1.0, if x >= from { bad } else { 1.0 }];
        };
        integrate(rhs, start, &[5.0], &control(1e-6), never).unwrap_err()
    };
    let at_start = |component| SolveError::NotFinite { at: 0.0, component };
    assert_eq!(run([0.0, f64::NAN, f64::NAN], 9.0, 1.0), at_start(1));
    assert_eq!(run([f64::INFINITY, 0.0, 0.0], 9.0, 1.0), at_start(0));
    for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
        assert_eq!(run([0.0; 3], 0.0, bad), at_start(2));
        let SolveError::NotFinite { at, component: 2 } = run([0.0; 3], 2.0, bad) else {
            panic!("the third component is the bad one")
        };
        assert!((at - 2.0).abs() < 1e-9, "{at}");
    }
}

/// A derivative that writes nothing is a fault, not a rest.
#[test]
fn exact_an_unwritten_derivative_is_refused() {
    let error = integrate(|_, _, _| {}, [1.0, 2.0], &[1.0], &control(1e-6), never).unwrap_err();
    assert_eq!(error, SolveError::NotFinite { at: 0.0, component: 0 });
}

/// A fault at the second stage has no weight in the error estimate and none in
/// the new state. It still must not pass: times zero it is not a number.
#[test]
fn exact_a_fault_without_weight_is_seen() {
    let rhs = |x: f64, _: &[f64; 1], dy: &mut [f64; 1]| {
        dy[0] = if (0.1..0.25).contains(&x) { f64::INFINITY } else { 1.0 };
    };
    let error = integrate(rhs, [8.0], &[1.0], &fixed(1.0), never).unwrap_err();
    let SolveError::NotFinite { at, component: 0 } = error else { panic!("{error}") };
    assert!((at - 0.1).abs() < 1e-9, "{at}");
}

/// A trial step that leaves the domain of the derivative is tried again
/// shorter and leaves no mark on the answer.
#[test]
fn exact_trial_steps_outside_the_domain() {
    let outside = Cell::new(0);
    let rhs = |_: f64, y: &[f64; 1], dy: &mut [f64; 1]| {
        // Steps that are too long overshoot rest at 1.
        dy[0] = if y[0] > 1.0 { f64::NAN } else { 1.0 - y[0] };
        outside.set(outside.get() + u32::from(dy[0].is_nan()));
    };
    let done = integrate(rhs, [0.0], &[1.0, 100.0], &control(1e-4), never).unwrap();
    assert!(outside.get() > 0, "the test is meant to leave the domain");
    assert!((done.at[0][0] - (1.0 - (-1.0_f64).exp())).abs() < 1e-4);
    assert!((done.last[0] - 1.0).abs() < 1e-3);
}

/// The cost of a run is reported, and bounded by the steps allowed.
#[test]
fn exact_steps_are_limited() {
    let rhs = |_: f64, y: &[f64; 2], dy: &mut [f64; 2]| *dy = [y[1], -y[0]];
    let calls = Cell::new(0);
    let counted = |x: f64, y: &[f64; 2], dy: &mut [f64; 2]| {
        calls.set(calls.get() + 1);
        rhs(x, y, dy);
    };
    let done = integrate(counted, [1.0, 0.0], &[9.0], &control(1e-9), never).unwrap();
    assert_eq!(done.effort.evaluations, calls.get());
    let steps = done.effort.accepted + done.effort.rejected;
    assert_eq!(done.effort.evaluations, 3 + 6 * steps);
    let limited = |steps_max| {
        let settings = Control { steps_max, ..control(1e-9) };
        integrate(rhs, [1.0, 0.0], &[9.0], &settings, never)
    };
    assert!(limited(steps).is_ok());
    let error = limited(steps - 1).unwrap_err();
    assert!(matches!(error, SolveError::TooManySteps { steps: tried, .. } if tried == steps - 1));
}
