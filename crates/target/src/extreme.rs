//! Extreme spread: the widest distance between two shots of a group, and what it
//! says of sigma.

use crate::error::positive;
use crate::spread::of_variation;
use crate::{Spread, TargetError};

/// Shots of the largest group in the table.
pub const MOST_IN_SPREAD: u32 = 30;

/// Mean and standard deviation of the extreme spread of n shots, sigma 1 per axis,
/// from n = 2: own sampling [own-extreme-spread].
const TABLE: [(f64, f64); 29] = [
    (1.7724, 0.9271),
    (2.4091, 0.8922),
    (2.7932, 0.8564),
    (3.0664, 0.8273),
    (3.2753, 0.8035),
    (3.4443, 0.7835),
    (3.5847, 0.7675),
    (3.7061, 0.7533),
    (3.8127, 0.7422),
    (3.9054, 0.7314),
    (3.9880, 0.7211),
    (4.0636, 0.7131),
    (4.1324, 0.7044),
    (4.1956, 0.6972),
    (4.2545, 0.6916),
    (4.3089, 0.6850),
    (4.3584, 0.6788),
    (4.4067, 0.6740),
    (4.4513, 0.6700),
    (4.4929, 0.6652),
    (4.5338, 0.6616),
    (4.5714, 0.6570),
    (4.6068, 0.6524),
    (4.6414, 0.6492),
    (4.6735, 0.6456),
    (4.7047, 0.6424),
    (4.7342, 0.6396),
    (4.7619, 0.6363),
    (4.7904, 0.6332),
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

    /// Means of the extreme spread, sigma 1: closed forms for n 2 and 3; 3.0659 for 5
    /// and 4.4509 for 20 (tables); own sampling for 6.
    #[test]
    fn published_mean_extreme_spread() {
        for (shots, mean) in
            [(2, 1.772_453_851), (3, 2.408_801_240), (5, 3.0659), (6, 3.275_84), (20, 4.4509)]
        {
            let got = mean_extreme_spread(shots).expect("in the table");
            // Three standard errors of the sampling.
            assert!((got - mean).abs() < 0.002, "{shots} {got} {mean}");
        }
        assert_eq!(mean_extreme_spread(1), None);
    }

    #[test]
    fn exact_pooled_variances_weigh_by_freedom() {
        let of = |sigma, freedom| Spread { sigma, freedom };
        let all = Spread::pooled(&[of(1.0, 8.0), of(2.0, 4.0)]);
        assert_eq!(all.map(|all| (all.sigma, all.freedom)), Some((2.0_f64.sqrt(), 12.0)));
        assert_eq!(Spread::pooled(&[]), None);
    }
}
