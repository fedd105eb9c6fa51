//! Extreme spread: the widest distance between two shots of a group, and what it
//! says of sigma.

use crate::error::positive;
use crate::spread::of_variation;
use crate::{Spread, TargetError};

/// Shots of the largest group in [`TABLE`].
pub const MOST_IN_SPREAD: u32 = 30;

/// Mean and standard deviation of the extreme spread of n shots, sigma 1 per axis,
/// from n = 2: own sampling [own-extreme-spread].
const TABLE: [(f64, f64); 29] = [
    (1.7722, 0.9267),
    (2.4059, 0.8931),
    (2.7932, 0.8568),
    (3.0647, 0.8260),
    (3.2763, 0.8036),
    (3.4429, 0.7845),
    (3.5879, 0.7695),
    (3.7083, 0.7536),
    (3.8114, 0.7429),
    (3.9049, 0.7303),
    (3.9909, 0.7202),
    (4.0633, 0.7129),
    (4.1342, 0.7059),
    (4.1968, 0.6978),
    (4.2522, 0.6903),
    (4.3071, 0.6833),
    (4.3597, 0.6782),
    (4.4065, 0.6744),
    (4.4488, 0.6695),
    (4.4920, 0.6642),
    (4.5345, 0.6609),
    (4.5720, 0.6565),
    (4.6066, 0.6532),
    (4.6410, 0.6480),
    (4.6750, 0.6461),
    (4.7068, 0.6438),
    (4.7350, 0.6403),
    (4.7629, 0.6371),
    (4.7901, 0.6338),
];

/// Mean extreme spread of so many shots over sigma per axis; none outside 2 to
/// [`MOST_IN_SPREAD`].
pub fn mean_extreme_spread(shots: u32) -> Option<f64> {
    row(shots).map(|(mean, _)| mean)
}

fn row(shots: u32) -> Option<(f64, f64)> {
    TABLE.get(usize::try_from(shots).ok()?.checked_sub(2)?).copied()
}

impl Spread {
    /// From a number of shots and the widest distance between two of them, m.
    ///
    /// Its distribution is taken as that of a chi variable of the same coefficient
    /// of variation: exact for two shots, and its interval then holds what it says
    /// to about a per cent (`stat_sigma_from_extreme_spread_covers`).
    ///
    /// # Errors
    /// [`TargetError::TooFew`] below two shots, [`TargetError::ManyShots`] above
    /// [`MOST_IN_SPREAD`], [`TargetError::NotPositive`] for a spread not finite and
    /// above zero.
    pub fn of_extreme_spread(shots: u32, spread: f64) -> Result<Self, TargetError> {
        let count = shots as usize;
        if shots < 2 {
            return Err(TargetError::TooFew { what: "shots", count, needed: 2 });
        }
        let Some((mean, deviation)) = row(shots) else {
            return Err(TargetError::ManyShots { count, most: MOST_IN_SPREAD as usize });
        };
        let spread = positive("the extreme spread", spread)?;
        // Between a half of what coordinates would give and all of it.
        let most = 2.0 * f64::from(shots) - 2.0;
        Ok(of_variation(spread / mean, (deviation / mean).powi(2), (0.5 * most, 1.01 * most)))
    }

    /// Several spreads of one archer as one: variances weighed by their degrees of
    /// freedom. None of nothing.
    pub fn pooled(spreads: &[Self]) -> Option<Self> {
        let freedom: f64 = spreads.iter().map(|of| of.freedom).sum();
        let squares: f64 = spreads.iter().map(|of| of.freedom * of.sigma * of.sigma).sum();
        (freedom > 0.0).then(|| Self { sigma: (squares / freedom).sqrt(), freedom })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Two shots: the distance is that of a Rayleigh variable of sigma root 2.
    #[test]
    fn exact_two_shots_are_two_shots_of_chi() -> Result<(), TargetError> {
        let of = Spread::of_extreme_spread(2, std::f64::consts::PI.sqrt())?;
        assert!((of.freedom - 2.0).abs() < 0.01, "{of:?}");
        assert!(matches!(Spread::of_extreme_spread(31, 1.0), Err(TargetError::ManyShots { .. })));
        assert!(matches!(Spread::of_extreme_spread(1, 1.0), Err(TargetError::TooFew { .. })));
        assert!(matches!(Spread::of_extreme_spread(5, 0.0), Err(TargetError::NotPositive { .. })));
        Ok(())
    }

    #[test]
    fn exact_pooled_variances_weigh_by_freedom() {
        let of = |sigma, freedom| Spread { sigma, freedom };
        let all = Spread::pooled(&[of(1.0, 8.0), of(2.0, 4.0)]);
        assert_eq!(all.map(|all| (all.sigma, all.freedom)), Some((2.0_f64.sqrt(), 12.0)));
        assert_eq!(Spread::pooled(&[]), None);
    }
}
