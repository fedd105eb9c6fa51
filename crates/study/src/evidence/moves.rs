//! Moves of a population that leave what is likely as it is.

use nalgebra::{DMatrix, DVector};

use super::tried::{Tried, normal};

/// How much wider than the population its moves are. Chosen: tails are reached too.
const WIDER: f64 = 1.2;

/// Steps that follow how the crowd lies: each leaves a bell about the crowd's
/// middle as it is, so only what that bell lacks decides whether it is taken.
pub(super) struct Moves {
    middle: DVector<f64>,
    /// Lower root of the crowd's covariance.
    root: DMatrix<f64>,
}

impl Moves {
    pub(super) fn of(crowd: &[Tried]) -> Self {
        let all: Vec<DVector<f64>> = crowd.iter().map(|one| normal(&one.chances)).collect();
        let (count, values) = (all.len() as f64, all[0].len());
        let middle = all.iter().fold(DVector::zeros(values), |sum, z| sum + z) / count;
        let mut spread = DMatrix::identity(values, values) * 1e-9;
        for z in &all {
            let off = z - &middle;
            spread += WIDER * WIDER / count * &off * off.transpose();
        }
        let root = spread
            .cholesky()
            .map_or_else(|| DMatrix::identity(values, values), |spread| spread.l());
        Self { middle, root }
    }

    /// Where a step leads.
    pub(super) fn step(&self, from: &[f64], noise: &[f64], width: f64) -> DVector<f64> {
        let stay = (1.0 - width * width).sqrt();
        let noise = DVector::from_row_slice(noise);
        &self.middle + stay * (normal(from) - &self.middle) + width * &self.root * noise
    }

    /// Logarithm of how much likelier, before anything is measured, the new point is
    /// than the old, over the same by the bell.
    pub(super) fn balance(&self, old: &[f64], new: &[f64]) -> f64 {
        let own = |chances: &[f64]| {
            let z = normal(chances);
            let off = self.root.solve_lower_triangular(&(&z - &self.middle));
            0.5 * (off.map_or(0.0, |off| off.norm_squared()) - z.norm_squared())
        };
        own(new) - own(old)
    }
}
