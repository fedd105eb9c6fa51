//! Roots and tables.

use proptest::prelude::*;
use solve::{SolveError, Table, root};

/// Roots known in closed form, or as constants. Dottie's number: mark M.
#[test]
fn exact_known_roots() {
    let found = |f: fn(f64) -> f64, low, high| root(f, low, high, 1e-14).unwrap();
    assert!((found(|x| x * x - 2.0, 0.0, 2.0) - 2.0_f64.sqrt()).abs() < 2e-14);
    assert!((found(|x| x.cos() - x, 0.0, 1.0) - 0.739_085_133_215_160_6).abs() < 2e-14);
    assert!((found(|x| 1.0 - x.exp(), -3.0, 1.0)).abs() < 2e-14);
    assert!((found(|x| (x - 0.3).powi(9), -1.0, 1.0) - 0.3).abs() < 2e-14);
    // A jump is a change of sign too.
    assert!((found(|x| if x < 0.7 { -1.0 } else { 1e9 }, 0.0, 1.0) - 0.7).abs() < 2e-14);
}

/// An end that is a zero is the answer, whichever end it is.
#[test]
fn exact_root_at_an_end() {
    for (low, high) in [(1.0, 2.0), (0.0, 1.0), (2.0, 1.0)] {
        assert_eq!(root(|x| x - 1.0, low, high, 1e-9).unwrap().to_bits(), 1.0_f64.to_bits());
    }
}

/// Never more than two evaluations beyond bisection, plus the two ends.
#[test]
fn exact_root_costs_no_more_than_bisection() {
    let functions: [fn(f64) -> f64; 5] = [
        |x| x - 0.3,
        |x| (x - 0.3).powi(9),
        |x| if x < 0.3 { -1.0 } else { 1e-12 },
        |x| (40.0 * (x - 0.3)).exp() - 1.0,
        |x| (x - 0.3).cbrt(),
    ];
    for (index, f) in functions.iter().enumerate() {
        let mut calls = 0;
        let count = |x| {
            calls += 1;
            f(x)
        };
        root(count, 0.0, 1.0, 1e-10).unwrap();
        // Half of the bracket 1 to 1e-10: 33 bisections. Rounding may add one.
        assert!(calls <= 33 + 1 + 1 + 2, "function {index}: {calls}");
    }
}

/// On smooth functions it takes 12 evaluations at most, against bisection's 35.
#[test]
fn exact_root_is_fast_on_smooth_functions() {
    for (index, f) in [f64::exp, |x| x * x + 1.0, f64::sin].iter().enumerate() {
        let mut calls = 0;
        let count = |x| {
            calls += 1;
            f(x) - f(0.3)
        };
        root(count, 0.0, 1.0, 1e-10).unwrap();
        assert!(calls <= 12, "function {index}: {calls}");
    }
}

/// A tolerance finer than the numbers themselves still ends.
#[test]
fn exact_root_at_the_resolution_of_the_numbers() {
    let x = root(|x| x * x - 2.0, 0.0, 1e6, 1e-300).unwrap();
    assert!((x - 2.0_f64.sqrt()).abs() < 1e-9);
}

proptest! {
    /// The root of a cubic with one real root at `wanted`.
    #[test]
    fn exact_root_within_its_tolerance(
        wanted in -50.0..50.0_f64, lift in 0.01..10.0_f64, tolerance in 1e-12..1e-2_f64,
    ) {
        let f = |x: f64| (x - wanted) * ((x - wanted).powi(2) + lift);
        let x = root(f, -60.0, 70.0, tolerance).unwrap();
        prop_assert!((x - wanted).abs() <= tolerance, "{x} {wanted}");
    }

    /// On its rows a table is exact, between them it stays between them.
    #[test]
    fn exact_table_on_and_between_its_rows(
        rows in prop::collection::vec((0.01..5.0_f64, -9.0..9.0_f64), 2..9), share in 0.0..1.0_f64,
    ) {
        let mut x = 0.0;
        let rows: Vec<_> = rows.into_iter().map(|(step, y)| { x += step; (x, y) }).collect();
        let table = Table::new(rows.clone()).unwrap();
        for &(x, y) in &rows {
            prop_assert_eq!(table.at(x).unwrap().to_bits(), y.to_bits());
        }
        for pair in rows.windows(2) {
            let x = pair[0].0 + share * (pair[1].0 - pair[0].0);
            let wanted = pair[0].1 + share * (pair[1].1 - pair[0].1);
            // Rounding only: nine units of last place of the largest value.
            prop_assert!((table.at(x).unwrap() - wanted).abs() < 1e-12);
        }
        let (low, high) = table.range();
        for value in [low.next_down(), high.next_up(), f64::INFINITY] {
            prop_assert_eq!(table.at(value), Err(SolveError::OutOfTable { value, low, high }));
        }
        prop_assert!(table.at(f64::NAN).is_err());
    }
}
