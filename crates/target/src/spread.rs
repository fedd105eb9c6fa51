//! The spread of a group, from its impacts or from its mean radius alone.

use std::f64::consts::FRAC_PI_2;

use statrs::function::gamma::ln_gamma;

use crate::error::positive;
use crate::interval::sigma_factors;
use crate::{Estimate, Group, TargetError};

/// A standard deviation per axis, and how well it is known: its square has a
/// chi-square distribution with so many degrees of freedom.
///
/// Card: `docs/model/power_test.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Standard deviation per axis, m.
    pub sigma: f64,
    /// Degrees of freedom.
    pub freedom: f64,
}

impl Spread {
    /// From the statistics of a group: exact for a circular normal one.
    pub fn of_group(group: &Group) -> Self {
        Self { sigma: group.sigma.value, freedom: 2.0 * group.count as f64 - 2.0 }
    }

    /// Sigma with its 95 % interval.
    pub fn estimate(&self) -> Estimate {
        let (low, high) = sigma_factors(self.freedom);
        let value = self.sigma;
        Estimate { value, low: value * low, high: value * high }
    }

    /// From a number of shots and their mean distance from the group's own
    /// centre, m.
    ///
    /// The mean radius of a circular normal group has nearly the distribution
    /// of a chi variable; its degrees of freedom are those that give the same
    /// coefficient of variation. Exact for two shots.
    ///
    /// # Errors
    /// [`TargetError::TooFew`] below two shots, [`TargetError::NotPositive`]
    /// for a mean radius not finite and above zero.
    pub fn of_mean_radius(shots: u32, mean_radius: f64) -> Result<Self, TargetError> {
        if shots < 2 {
            let count = shots as usize;
            return Err(TargetError::TooFew { what: "shots", count, needed: 2 });
        }
        let mean_radius = positive("the mean radius", mean_radius)?;
        let n = f64::from(shots);
        let about_own_centre = (FRAC_PI_2 * (1.0 - 1.0 / n)).sqrt();
        // Between 1.83 (many shots) and 2 (two) to each shot after the first.
        let ends = (1.8 * (n - 1.0), 2.0 * (n - 1.0));
        Ok(of_variation(mean_radius / about_own_centre, variation(n), ends))
    }
}

/// The spread that an unbiased reading of sigma gives whose coefficient of
/// variation has this square; the degrees of freedom lie between two ends.
pub(crate) fn of_variation(sigma: f64, wanted: f64, (mut low, mut high): (f64, f64)) -> Spread {
    for _ in 0..HALVINGS {
        let mid = 0.5 * (low + high);
        if mean_of_chi(mid).powi(-2) - 1.0 > wanted {
            low = mid;
        } else {
            high = mid;
        }
    }
    Spread { sigma: sigma * mean_of_chi(high), freedom: high }
}

/// Halvings of that bracket. Chosen: down to rounding.
const HALVINGS: u32 = 52;

/// The square of the coefficient of variation of the mean radius about the own
/// centre. Two deviations from it correlate by r = -1/(n - 1), and then the
/// mean of the product of their sizes is pi/2 F(-1/2, -1/2; 1; r^2) in units
/// of their variance.
fn variation(n: f64) -> f64 {
    let product = FRAC_PI_2 * hypergeometric((n - 1.0).powi(-2));
    (2.0 + (n - 1.0) * product) / (n * FRAC_PI_2) - 1.0
}

/// F(-1/2, -1/2; 1; x) for x in 0..1, by its series; 4/pi at 1.
fn hypergeometric(x: f64) -> f64 {
    if x >= 1.0 {
        return 2.0 / FRAC_PI_2;
    }
    let (mut sum, mut term) = (1.0, 1.0);
    let mut k = 0.0_f64;
    while term > f64::EPSILON * sum {
        term *= ((k - 0.5) / (k + 1.0)).powi(2) * x;
        sum += term;
        k += 1.0;
    }
    sum
}

/// Degrees of freedom above which the series is used. Chosen: it then holds
/// 1e-11, where the difference of two logarithms loses more.
const MANY: f64 = 200.0;

/// Mean of a chi variable over the root of its degrees of freedom.
fn mean_of_chi(freedom: f64) -> f64 {
    if freedom > MANY {
        let v = 1.0 / freedom;
        return 1.0 - v / 4.0 + v * v / 32.0 + 5.0 * v * v * v / 128.0;
    }
    (2.0 / freedom).sqrt() * (ln_gamma(0.5 * (freedom + 1.0)) - ln_gamma(0.5 * freedom)).exp()
}
