//! Points, estimators and sorted laws against closed forms.
#![expect(clippy::float_cmp, reason = "chances of one point are equal to the last bit")]

use study::{
    Design, Distribution, REPLICATES, ShareEstimator, StudyError, VarianceSums, normal_quantile,
};
use target::{Estimate, normal_below};

/// Sums of a function of so many inputs, each a cause of its own.
fn sums(inputs: usize, points: usize, f: impl Fn(&[f64]) -> f64) -> Vec<VarianceSums> {
    let causes: Vec<Vec<usize>> = (0..inputs).map(|input| vec![input]).collect();
    let design = Design::new(3, inputs, &causes).unwrap();
    let rows = design.rows();
    let one = |set: usize| {
        let row = |row| (0..inputs).map(|i| design.chance(set, row, i)).collect::<Vec<_>>();
        VarianceSums::of(&(0..points * rows).map(|at| f(&row(at))).collect::<Vec<_>>(), rows)
    };
    (0..REPLICATES).map(one).collect()
}

fn near(found: Estimate, expected: f64, tolerance: f64) {
    assert!((found.value - expected).abs() <= tolerance, "{found:?}, expected {expected}");
}

/// Normal inputs with deviations 1, 2, 3, added up: shares 1/14, 4/14, 9/14,
/// the same alone and in all (closed form).
#[test]
fn exact_shares_of_a_linear_sum() {
    let sets = sums(3, 1024, |u| {
        u.iter().zip([1.0, 2.0, 3.0]).map(|(u, sd)| sd * normal_quantile(*u)).sum()
    });
    let ratio = ShareEstimator::new(&sets).unwrap();
    for (at, square) in [1.0, 4.0, 9.0].into_iter().enumerate() {
        near(ratio.of(|s| s.first[at]).unwrap(), square / 14.0, 2e-3);
        near(ratio.of(|s| s.total[at]).unwrap(), square / 14.0, 2e-3);
    }
}

/// An input that does nothing has no share, exactly, and no interval.
#[test]
fn exact_no_share_without_effect() {
    let sets = sums(2, 16, |u| u[0].powi(3));
    let ratio = ShareEstimator::new(&sets).unwrap();
    let none = Estimate { value: 0.0, low: 0.0, high: 0.0 };
    assert_eq!(ratio.of(|s| s.first[1]).unwrap(), none);
    assert_eq!(ratio.of(|s| s.total[1]).unwrap(), none);
}

/// A product of two centred inputs: nothing alone, everything together.
#[test]
fn exact_a_product_is_all_together() {
    let sets = sums(2, 1024, |u| (u[0] - 0.5) * (u[1] - 0.5));
    let ratio = ShareEstimator::new(&sets).unwrap();
    for at in 0..2 {
        near(ratio.of(|s| s.first[at]).unwrap(), 0.0, 5e-3);
        near(ratio.of(|s| s.total[at]).unwrap(), 1.0, 5e-3);
    }
    // VarianceSums of two outputs add: the same output twice has the same shares.
    let twice: Vec<VarianceSums> = sets.iter().map(|s| s.clone().and(s)).collect();
    let again = ShareEstimator::new(&twice).unwrap();
    assert_eq!(ratio.of(|s| s.total[0]).unwrap(), again.of(|s| s.total[0]).unwrap());
}

/// Where nothing varies there is nothing to share out.
#[test]
fn exact_no_shares_of_nothing() {
    assert!(ShareEstimator::new(&sums(1, 8, |_| 0.3)).is_none());
}

/// The row of a cause is row A but for that cause's inputs, which are B's.
#[test]
fn exact_rows_of_the_design() {
    let design = Design::new(9, 3, &[vec![0, 2], vec![1]]).unwrap();
    assert_eq!(design.rows(), 4);
    for set in [0, REPLICATES - 1] {
        for point in 0..5 {
            let at = |kind, input| design.chance(set, 4 * point + kind, input);
            for input in 0..3 {
                let (a, b) = (at(0, input), at(1, input));
                assert!(a > 0.0 && a < 1.0 && b > 0.0 && b < 1.0 && a != b);
                let owns = [input != 1, input == 1];
                for (cause, owns) in owns.into_iter().enumerate() {
                    assert_eq!(at(2 + cause, input), if owns { b } else { a });
                }
            }
        }
    }
}

/// Every set of 2^k points has one in each of 2^k equal parts of every input.
#[test]
fn exact_points_fill_each_input_evenly() {
    let design = Design::new(1, 20, &[]).unwrap();
    let rows = design.rows();
    for set in 0..REPLICATES {
        for kind in 0..2 {
            for input in 0..20 {
                let mut chances: Vec<f64> =
                    (0..64).map(|p| design.chance(set, rows * p + kind, input)).collect();
                chances.sort_unstable_by(f64::total_cmp);
                for (part, chance) in (0..64).zip(chances) {
                    let low = f64::from(part) / 64.0;
                    assert!((low..low + 1.0 / 64.0).contains(&chance), "{part} {chance}");
                }
            }
        }
    }
}

/// The points have 256 dimensions, two for each drawn value.
#[test]
fn exact_too_many_draws_are_refused() {
    let refused = Design::new(1, 129, &[]).unwrap_err();
    assert_eq!(refused, StudyError::ManyDraws { draws: 129, most: 128 });
    assert!(Design::new(1, 128, &[]).is_ok());
}

/// Quantiles of what is left after sorting: those of the whole law, its chance
/// cut down to the share that is kept (closed form).
#[test]
fn exact_sorted_laws_at_a_chance() {
    let near = |found: f64, expected: f64| {
        assert!((found - expected).abs() < 1e-12, "{found}, expected {expected}");
    };
    let sorted = Distribution::RayleighUpTo { scale: 2.0, most: 3.0 };
    let kept = 1.0 - (-0.5 * 1.5_f64.powi(2)).exp();
    for chance in [1e-6, 0.25, 0.5, 0.75] {
        near(sorted.at(chance), Distribution::Rayleigh { scale: 2.0 }.at(kept * chance));
    }
    near(sorted.at(1.0 - 1e-16), 3.0);
    let sorted = Distribution::NormalWithin { mean: 1.0, sd: 2.0, within: 1.0 };
    near(sorted.at(0.5), 1.0);
    let below = normal_below(-0.5);
    near(sorted.at(0.25), 1.0 + 2.0 * normal_quantile(below + 0.25 * (1.0 - 2.0 * below)));
    assert!((sorted.at(1.0 - 1e-16) - 2.0).abs() < 1e-9 && sorted.at(1e-300) >= 0.0);
    // A bound that cuts nothing off leaves the law as it was.
    near(
        Distribution::NormalWithin { mean: 0.0, sd: 1.0, within: 40.0 }.at(0.9),
        normal_quantile(0.9),
    );
}
