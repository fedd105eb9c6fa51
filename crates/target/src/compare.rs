use statrs::distribution::{ContinuousCDF, FisherSnedecor};

use crate::interval::TAIL;
use crate::{Estimate, Group, PowerTest, TargetError};

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

/// [`PowerTest::shots`] at the usual convention, 95 % confidence and 80 % power.
pub fn shots_to_tell(ratio: f64, limit: u32) -> Option<u32> {
    PowerTest::default().shots(ratio, limit)
}

fn freedom(group: &Group) -> f64 {
    2.0 * group.count as f64 - 2.0
}

fn spread_test(over: f64, under: f64) -> FisherSnedecor {
    FisherSnedecor::new(over, under).expect("two impacts or more leave degrees of freedom")
}
