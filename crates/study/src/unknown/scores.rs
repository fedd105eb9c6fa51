//! Chances that are not independent.

use nalgebra::DMatrix;
use target::normal_below;

use crate::normal_quantile;

/// Makes independent chances correlated: their normal scores are mixed by the
/// lower root of the matrix of correlations, which leaves each chance even
/// (a Gaussian copula).
#[derive(Clone)]
pub(super) struct Scores {
    /// None where every input is independent.
    root: Option<DMatrix<f64>>,
}

impl Scores {
    /// For so many inputs with these pairs correlated; none where no inputs can be
    /// correlated like that, all at once.
    pub(super) fn new(inputs: usize, pairs: &[([usize; 2], f64)]) -> Option<Self> {
        if pairs.is_empty() {
            return Some(Self { root: None });
        }
        let mut matrix = DMatrix::identity(inputs, inputs);
        for &([one, other], by) in pairs {
            if one == other || by.is_nan() || by.abs() >= 1.0 {
                return None;
            }
            (matrix[(one, other)], matrix[(other, one)]) = (by, by);
        }
        Some(Self { root: Some(matrix.cholesky()?.l()) })
    }

    /// The chances mixed; one that is independent of those before it stays as it is.
    pub(super) fn correlate(&self, chances: Vec<f64>) -> Vec<f64> {
        let Some(root) = &self.root else { return chances };
        let scores: Vec<f64> = chances.iter().map(|chance| normal_quantile(*chance)).collect();
        let mixed = |(at, chance): (usize, &f64)| {
            if (0..at).all(|other| root[(at, other)] == 0.0) {
                return *chance;
            }
            let score: f64 = (0..=at).map(|other| root[(at, other)] * scores[other]).sum();
            // Far scores would round to none or all.
            normal_below(score).clamp(f64::MIN_POSITIVE, 1.0 - f64::EPSILON)
        };
        chances.iter().enumerate().map(mixed).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(count: u32, pairs: &[([usize; 2], f64)]) -> Vec<Vec<f64>> {
        let scores = Scores::new(3, pairs).unwrap();
        let chance = |point, input| f64::from(sobol_burley::sample(point, input, 9)) + 3e-8;
        let point = |at| scores.correlate((0..3).map(|input| chance(at, input)).collect());
        (0..count).map(point).collect()
    }

    /// Each chance stays even: as many below a quarter, a half, three quarters. The
    /// scores have the correlation that was asked.
    #[test]
    fn stat_mixed_chances_stay_even_and_are_correlated() {
        let points = drawn(4096, &[([0, 2], 0.6), ([1, 2], -0.3)]);
        for input in 0..3 {
            for share in [0.25, 0.5, 0.75] {
                let below = points.iter().filter(|point| point[input] < share).count() as f64;
                assert!((below / 4096.0 - share).abs() < 0.005, "{input} {below}");
            }
        }
        let score = |point: &[f64], input: usize| normal_quantile(point[input]);
        let mean = |one: usize, other: usize| {
            let product = |point: &Vec<f64>| score(point, one) * score(point, other);
            points.iter().map(product).sum::<f64>() / 4096.0
        };
        let found = [mean(0, 2), mean(1, 2), mean(0, 1)];
        for (found, asked) in found.into_iter().zip([0.6, -0.3, 0.0]) {
            assert!((found - asked).abs() < 0.01, "{found} {asked}");
        }
    }

    /// C: of X1 + X2 + X3, normal with deviations 1, 1 and 2 and a correlation of 0.5
    /// between the last two, knowing each takes 0.125, 0.5 and 0.78125 of the variance,
    /// which is 1.40625 in all; fair shares are 0.125, 0.296875 and 0.578125. What two
    /// terms of a chance follow of a normal score is 3 / pi of that.
    #[test]
    fn stat_first_and_fair_shares_of_a_correlated_sum() {
        let points = drawn(4096, &[([1, 2], 0.5)]);
        let sum = |u: &[f64]| -> f64 {
            u.iter().zip([1.0, 1.0, 2.0]).map(|(u, sd)| sd * normal_quantile(*u)).sum()
        };
        let told: Vec<(&[f64], f64, f64)> =
            points.iter().map(|u| (u.as_slice(), 1.0, sum(u))).collect();
        let verdicts = vec![true; told.len()];
        let found = super::super::spread::narrowings(&told, &verdicts, &[([1, 2], 0.5)]);
        let known = [(2, 0.78125, 0.578_125), (1, 0.5, 0.296_875), (0, 0.125, 0.125)];
        for (found, (input, share, fair)) in found.iter().zip(known) {
            assert_eq!(found.input, input);
            let followed = |of: f64| of * 3.0 / std::f64::consts::PI;
            assert!((found.share - followed(share)).abs() < 0.01, "{found:?}");
            assert!((found.fair - followed(fair)).abs() < 0.01, "{found:?}");
        }
    }

    #[test]
    fn exact_chances_without_a_pair_stay_as_they_are() {
        let (plain, mixed) = (drawn(16, &[]), drawn(16, &[([1, 2], 0.5)]));
        for (plain, mixed) in plain.iter().zip(&mixed) {
            assert_eq!(plain[..2], mixed[..2]);
        }
    }

    #[test]
    fn exact_correlations_that_cannot_be_are_refused() {
        let all = [([0, 1], 0.9), ([1, 2], 0.9), ([0, 2], -0.9)];
        assert!(Scores::new(3, &all).is_none());
        assert!(Scores::new(3, &[([0, 1], 1.0)]).is_none());
        assert!(Scores::new(3, &[([0, 1], f64::NAN)]).is_none());
    }
}
