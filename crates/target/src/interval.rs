use statrs::distribution::{Binomial, ChiSquared, ContinuousCDF, DiscreteCDF, Normal, StudentsT};

use crate::TargetError;

/// The largest impact or value taken. Chosen: far above any use, and its
/// square summed over any list stays finite.
pub(crate) const LARGEST: f64 = 1e100;

/// Chance outside a 95 % interval, at each end.
pub(crate) const TAIL: f64 = 0.025;

/// A value with its 95 % interval, in SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// The estimate.
    pub value: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of the 95 % interval.
    pub high: f64,
}

/// A share of hits, with the Wilson score interval [wilson-1927].
///
/// `value` is `hits / of`; the interval stays within 0 and 1 and has a width
/// even at no hit or all hits.
///
/// # Errors
/// [`TargetError::TooFew`] without a shot, [`TargetError::Hits`] when there are
/// more hits than shots.
pub fn hit_share(hits: usize, of: usize) -> Result<Estimate, TargetError> {
    if of == 0 {
        return Err(TargetError::TooFew { what: "shots", count: of, needed: 1 });
    }
    if hits > of {
        return Err(TargetError::Hits { hits, of });
    }
    let n = of as f64;
    let share = hits as f64 / n;
    let z2_n = Normal::standard().inverse_cdf(1.0 - TAIL).powi(2) / n;
    let centre = (share + z2_n / 2.0) / (1.0 + z2_n);
    let half = (z2_n * (share * (1.0 - share) + z2_n / 4.0)).sqrt() / (1.0 + z2_n);
    // At no hit and at all hits the end is 0 or 1, but for rounding.
    Ok(Estimate {
        value: share,
        low: if hits == 0 { 0.0 } else { centre - half },
        high: if hits == of { 1.0 } else { centre + half },
    })
}

/// The mean of values such as scores, with Student's t interval.
///
/// # Errors
/// [`TargetError::TooFew`] below two values; [`TargetError::Value`] names the
/// first that is not finite, or beyond 1e100, where squares would no longer be
/// finite.
pub fn mean_estimate(values: &[f64]) -> Result<Estimate, TargetError> {
    if values.len() < 2 {
        return Err(TargetError::TooFew { what: "values", count: values.len(), needed: 2 });
    }
    let unusable = |v: &f64| !v.is_finite() || v.abs() > LARGEST;
    match values.iter().position(unusable) {
        Some(index) => Err(TargetError::Value { index, value: values[index], limit: LARGEST }),
        None => Ok(mean_interval(values)),
    }
}

/// Half the width of a 95 % interval over the standard error, when that error
/// was estimated with `freedom` degrees of freedom: Student's t.
///
/// # Errors
/// [`TargetError::TooFew`] without a degree of freedom.
pub fn t_factor(freedom: usize) -> Result<f64, TargetError> {
    match StudentsT::new(0.0, 1.0, freedom as f64) {
        Ok(law) => Ok(law.inverse_cdf(1.0 - TAIL)),
        Err(_) => {
            Err(TargetError::TooFew { what: "degrees of freedom", count: freedom, needed: 1 })
        }
    }
}

/// What the largest of `count` residuals, each over its own error, stays within
/// in 95 % of good sets (at least; by Bonferroni's bound). The errors were
/// estimated with `freedom` degrees of freedom, or are known.
///
/// # Errors
/// [`TargetError::TooFew`] without a residual, or a degree of freedom.
pub fn outlier_factor(count: usize, freedom: Option<usize>) -> Result<f64, TargetError> {
    if count == 0 {
        return Err(TargetError::TooFew { what: "residuals", count, needed: 1 });
    }
    let below = 1.0 - TAIL / count as f64;
    let Some(freedom) = freedom else { return Ok(Normal::standard().inverse_cdf(below)) };
    match StudentsT::new(0.0, 1.0, freedom as f64) {
        Ok(law) => Ok(law.inverse_cdf(below)),
        Err(_) => {
            Err(TargetError::TooFew { what: "degrees of freedom", count: freedom, needed: 1 })
        }
    }
}

/// What the root mean square of residuals over their known errors stays below
/// in 97.5 % of good sets: from the chi-square distribution.
///
/// # Errors
/// [`TargetError::TooFew`] without a degree of freedom.
pub fn scatter_limit(freedom: usize) -> Result<f64, TargetError> {
    match ChiSquared::new(freedom as f64) {
        Ok(law) => Ok((law.inverse_cdf(1.0 - TAIL) / freedom as f64).sqrt()),
        Err(_) => {
            Err(TargetError::TooFew { what: "degrees of freedom", count: freedom, needed: 1 })
        }
    }
}

/// The share of a normal law that lies below this many standard deviations from
/// its mean.
pub fn normal_below(deviations: f64) -> f64 {
    Normal::standard().cdf(deviations)
}

/// Mean of at least two finite values, with Student's t interval.
pub(crate) fn mean_interval(values: &[f64]) -> Estimate {
    let n = values.len() as f64;
    let first = values[0];
    let mean = first + values.iter().map(|v| v - first).sum::<f64>() / n;
    let squares: f64 = values.iter().map(|v| (v - mean).powi(2)).sum();
    let t = StudentsT::new(0.0, 1.0, n - 1.0)
        .expect("two values or more leave a degree of freedom")
        .inverse_cdf(1.0 - TAIL);
    let half = t * (squares / (n - 1.0) / n).sqrt();
    Estimate { value: mean, low: mean - half, high: mean + half }
}

/// What to multiply a standard deviation by for the ends of its interval, when
/// its square has a chi-square distribution with `freedom` degrees of freedom.
pub(crate) fn sigma_factors(freedom: f64) -> (f64, f64) {
    let chi = ChiSquared::new(freedom).expect("two impacts or more leave a degree of freedom");
    let factor = |p| (freedom / chi.inverse_cdf(p)).sqrt();
    (factor(1.0 - TAIL), factor(TAIL))
}

/// Rising values.
pub(crate) struct Sorted(Vec<f64>);

impl Sorted {
    pub(crate) fn new(mut values: Vec<f64>) -> Self {
        values.sort_unstable_by(f64::total_cmp);
        Self(values)
    }

    /// The value that `tenths` of ten lie below, median-unbiased
    /// [hyndman-fan-1996] (their definition 8), with the distribution-free interval
    /// between two order statistics. None when the values are too few for
    /// such an interval.
    pub(crate) fn quantile(&self, tenths: usize) -> Option<Estimate> {
        let n = self.0.len();
        // The k-th smallest lies above the quantile with the chance that fewer
        // than k of n fall below it, which is binomial.
        let binomial = Binomial::new(tenths as f64 / 10.0, n as u64)
            .expect("a share of tenths is a probability");
        let at_most = |k: usize| binomial.cdf(k as u64);
        let low = first_where(n, |k| at_most(k) > TAIL).checked_sub(1)?;
        let high = first_where(n, |k| at_most(k) >= 1.0 - TAIL);
        let high = *self.0.get(high)?;

        // Rank h = (n + 1/3) p + 1/3, counted from one, in thirtieths.
        let rank = (3 * n + 1) * tenths + 10;
        let (whole, part) = (rank / 30, (rank % 30) as f64 / 30.0);
        let below = self.0[whole - 1];
        let above = *self.0.get(whole)?;
        Some(Estimate { value: below + part * (above - below), low: self.0[low], high })
    }
}

/// The first of 0..=n where the rising condition holds; it holds at n.
fn first_where(n: usize, holds: impl Fn(usize) -> bool) -> usize {
    let (mut low, mut high) = (0, n);
    while low < high {
        let mid = low + (high - low) / 2;
        if holds(mid) {
            high = mid;
        } else {
            low = mid + 1;
        }
    }
    low
}
