use statrs::distribution::{ContinuousCDF, FisherSnedecor};

use crate::interval::TAIL;
use crate::{Estimate, Group, TargetError};

/// Power at which a difference counts as told. Chosen: 80 %, the usual
/// convention.
const POWER: f64 = 0.8;

/// The pooled sigma of `a` over that of `b`, with the interval of the F
/// distribution at 2n - 2 degrees of freedom for each group.
///
/// It takes the two groups as independent: when both were flown with the same
/// chances, the true interval is narrower.
///
/// # Errors
/// [`TargetError::NoSpread`] when the impacts of `b` share one point;
/// [`TargetError::TooFew`] for a group not made by [`Group::of`].
pub fn sigma_ratio(a: &Group, b: &Group) -> Result<Estimate, TargetError> {
    for group in [a, b] {
        if group.count < 2 {
            let count = group.count;
            return Err(TargetError::TooFew { what: "impacts", count, needed: 2 });
        }
    }
    let value = a.sigma.value / b.sigma.value;
    if !value.is_finite() {
        return Err(TargetError::NoSpread);
    }
    let upper = |over: &Group, under: &Group| {
        spread_test(freedom(over), freedom(under)).inverse_cdf(1.0 - TAIL).sqrt()
    };
    Ok(Estimate { value, low: value / upper(a, b), high: value * upper(b, a) })
}

/// How many shots with each of two builds until their group sizes differ
/// beyond chance: an F test on the pooled variances, two-sided at 5 %, with
/// 80 % power.
///
/// `ratio` is one true sigma over the other; below 1, its inverse is taken.
/// None when more than `limit` shots are needed, as always at a ratio of 1,
/// and for a ratio that is negative or not a number. A ratio of zero or
/// infinity, where one build has no spread, takes the fewest, 2.
pub fn shots_to_tell(ratio: f64, limit: u32) -> Option<u32> {
    let ratio = if ratio < 1.0 { 1.0 / ratio } else { ratio };
    let fewest = 2;
    let told = |shots: u32| power(ratio, shots) >= POWER;
    if ratio.is_nan() || ratio <= 1.0 || limit < fewest || !told(limit) {
        return None;
    }
    let (mut low, mut high) = (fewest, limit);
    while low < high {
        let mid = low + (high - low) / 2;
        if told(mid) {
            high = mid;
        } else {
            low = mid + 1;
        }
    }
    Some(low)
}

/// The chance that the test tells sigmas in this ratio apart.
fn power(ratio: f64, shots: u32) -> f64 {
    let freedom = 2.0 * f64::from(shots) - 2.0;
    let f = spread_test(freedom, freedom);
    let critical = f.inverse_cdf(1.0 - TAIL);
    let variances = ratio * ratio;
    // With equal degrees of freedom the lower critical value is the inverse.
    f.sf(critical / variances) + f.cdf(1.0 / (critical * variances))
}

fn freedom(group: &Group) -> f64 {
    2.0 * group.count as f64 - 2.0
}

fn spread_test(over: f64, under: f64) -> FisherSnedecor {
    FisherSnedecor::new(over, under).expect("two impacts or more leave degrees of freedom")
}
