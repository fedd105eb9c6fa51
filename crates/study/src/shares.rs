//! Sobol' indices from rows of outputs. Model card: docs/model/shares.md.

use target::{Estimate, TargetError, mean_estimate};

/// Mean products of one set of points, from which shares follow.
///
/// Sums over several outputs add up: the shares of a vector's spread are those
/// of the summed variances. [gamboa-2014]
#[derive(Debug, Clone, PartialEq)]
pub struct VarianceSums {
    /// Variance of the output.
    pub variance: f64,
    /// Part of the variance that each cause makes on its own.
    pub first: Vec<f64>,
    /// Part of the variance that would go if each cause alone were fixed.
    pub total: Vec<f64>,
}

impl VarianceSums {
    /// Of one set's outputs, `rows` for each point: that of `A`, that of `B`,
    /// then those of the causes.
    ///
    /// First order: the estimator of Saltelli et al., total: that of Jansen,
    /// rows (b) and (f) of their table 2. [saltelli-2010] [jansen-1999]
    pub fn of(outputs: &[f64], rows: usize) -> Self {
        let points = (outputs.len() / rows) as f64;
        let both = || outputs.chunks_exact(rows).flat_map(|point| &point[..2]);
        let first_of_all = outputs.first().copied().unwrap_or_default();
        // From the first output, so that equal outputs have no variance.
        let shift = both().map(|y| y - first_of_all).sum::<f64>() / (2.0 * points);
        let mean = first_of_all + shift;
        let variance = both().map(|y| (y - mean).powi(2)).sum::<f64>() / (2.0 * points);
        let mut sums = Self { variance, first: vec![0.0; rows - 2], total: vec![0.0; rows - 2] };
        for point in outputs.chunks_exact(rows) {
            let (a, b) = (point[0], point[1] - mean);
            for (cause, mixed) in point[2..].iter().enumerate() {
                sums.first[cause] += b * (mixed - a);
                sums.total[cause] += 0.5 * (mixed - a).powi(2);
            }
        }
        for part in sums.first.iter_mut().chain(&mut sums.total) {
            *part /= points;
        }
        sums
    }

    /// The sums of this output and another.
    #[must_use]
    pub fn and(mut self, other: &Self) -> Self {
        self.variance += other.variance;
        let parts = self.first.iter_mut().chain(&mut self.total);
        for (part, more) in parts.zip(other.first.iter().chain(&other.total)) {
            *part += more;
        }
        self
    }
}

/// Shares of the variance over all sets of points.
#[derive(Debug)]
pub struct ShareEstimator<'a> {
    sets: &'a [VarianceSums],
    variance: f64,
}

impl<'a> ShareEstimator<'a> {
    /// None where nothing varies.
    pub fn new(sets: &'a [VarianceSums]) -> Option<Self> {
        let variance: f64 = sets.iter().map(|sums| sums.variance).sum();
        (variance > 0.0).then_some(Self { sets, variance })
    }

    /// A part of the variance over the whole, with the interval that the
    /// scatter between the sets gives: Student's t on the pseudo-values, each
    /// set left out in turn. [tukey-1958]
    ///
    /// # Errors
    /// [`TargetError`] where a part is not finite.
    pub fn of(&self, part: impl Fn(&VarianceSums) -> f64) -> Result<Estimate, TargetError> {
        let parts: Vec<f64> = self.sets.iter().map(part).collect();
        let sum: f64 = parts.iter().sum();
        let value = sum / self.variance;
        let count = parts.len() as f64;
        let pseudo: Vec<f64> = parts
            .iter()
            .zip(self.sets)
            .map(|(part, set)| {
                let rest = self.variance - set.variance;
                // The whole variance in one set says nothing about the scatter.
                let without = if rest > 0.0 { (sum - part) / rest } else { value };
                count * value - (count - 1.0) * without
            })
            .collect();
        let about = mean_estimate(&pseudo)?;
        let half = 0.5 * (about.high - about.low);
        Ok(Estimate { value, low: value - half, high: value + half })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Outputs of `f` over a full grid of two inputs, laid out as a design: rows
    /// `A`, `B`, then `A` with the first, with the second input of `B`.
    fn outputs(f: impl Fn(f64, f64) -> f64) -> Vec<f64> {
        let grid = || (0..6).map(|i| f64::from(i) - 2.5);
        let mut out = Vec::new();
        for a in grid() {
            for b in grid() {
                for c in grid() {
                    for d in grid() {
                        out.extend([f(a, b), f(c, d), f(c, b), f(a, d)]);
                    }
                }
            }
        }
        out
    }

    #[test]
    fn exact_shares_of_a_sum_are_those_of_its_variances() {
        // Over a full grid the estimators' sums are exact: variances 1 and 9.
        let sums = VarianceSums::of(&outputs(|x, y| x + 3.0 * y), 4);
        let share = |part: f64| part / sums.variance;
        for of in [&sums.first, &sums.total] {
            assert!((share(of[0]) - 0.1).abs() < 1e-12 && (share(of[1]) - 0.9).abs() < 1e-12);
        }
    }

    #[test]
    fn exact_a_product_works_together_alone() {
        let sums = VarianceSums::of(&outputs(|x, y| x * y), 4);
        for cause in 0..2 {
            assert!(sums.first[cause].abs() < 1e-12 * sums.variance);
            assert!((sums.total[cause] / sums.variance - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn exact_nothing_that_varies_has_no_shares() {
        assert!(ShareEstimator::new(&[VarianceSums::of(&outputs(|_, _| 0.1), 4)]).is_none());
    }
}
