//! Whether two groups have one centre: Hotelling's two-sample test.

use statrs::distribution::{ContinuousCDF, FisherSnedecor, StudentsT};
use statrs::function::beta::beta_reg;
use statrs::function::gamma::ln_gamma;

use crate::power_test::fewest_that;
use crate::{Estimate, Group, Impact, PowerTest, TargetError};

/// What two groups say of their centres.
///
/// Card: `docs/model/power-test.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CentreVerdict {
    /// How far the second group's centre lies to the left of the first's, m, with
    /// the interval of the stated confidence for this axis alone.
    pub left: Estimate,
    /// How far it lies above.
    pub up: Estimate,
    /// Hotelling's T squared.
    pub t_squared: f64,
    /// The chance of centres at least so far apart, were they one.
    pub chance: f64,
    /// Whether the chance is below what the confidence leaves.
    pub told: bool,
    /// The squared distance of the centres in units of the pooled covariance.
    pub apart: f64,
}

/// Shots each beyond which none are looked for. Chosen: a year of shooting.
pub const MOST_FOR_CENTRES: u32 = 10_000;

/// Two groups as of one covariance.
struct Pooled {
    count: [f64; 2],
    /// The second centre from the first, left and up.
    shift: [f64; 2],
    /// Left with left, left with up, up with up.
    covariance: [f64; 3],
    apart: f64,
}

impl Pooled {
    fn of(first: &[Impact], second: &[Impact]) -> Result<Self, TargetError> {
        let (one, other) = (Group::of(first)?, Group::of(second)?);
        let (n, m) = (one.count as f64, other.count as f64);
        let within = n + m - 2.0;
        if within < 2.0 {
            let count = one.count + other.count;
            return Err(TargetError::TooFew { what: "shots", count, needed: 4 });
        }
        let sums = |group: &Group, impacts: &[Impact]| {
            impacts.iter().fold([0.0; 3], |[ll, lu, uu], i| {
                let (l, u) = (i.left - group.centre.left, i.up - group.centre.up);
                [ll + l * l, lu + l * u, uu + u * u]
            })
        };
        let (a, b) = (sums(&one, first), sums(&other, second));
        let covariance = [0, 1, 2].map(|at| (a[at] + b[at]) / within);
        let [ll, lu, uu] = covariance;
        let determinant = ll * uu - lu * lu;
        // A line to rounding has no inverse.
        if determinant <= f64::EPSILON * ll * uu {
            return Err(TargetError::NoSpread);
        }
        let (l, u) = (other.centre.left - one.centre.left, other.centre.up - one.centre.up);
        let apart = (uu * l * l - 2.0 * lu * l * u + ll * u * u) / determinant;
        Ok(Self { count: [n, m], shift: [l, u], covariance, apart })
    }
}

/// The squared distance of two groups' centres in units of their pooled covariance, as
/// [`PowerTest::shots_for_centres`] asks for.
///
/// # Errors
/// As for [`PowerTest::centres`].
pub fn centres_apart(first: &[Impact], second: &[Impact]) -> Result<f64, TargetError> {
    Ok(Pooled::of(first, second)?.apart)
}

impl PowerTest {
    /// Whether two groups have one centre. Their covariances are pooled, as for
    /// groups of one width and shape.
    ///
    /// # Errors
    /// As for [`Group::of`]; [`TargetError::TooFew`] below four shots together;
    /// [`TargetError::NoSpread`] where all shots of each lie on a line.
    pub fn centres(
        &self,
        first: &[Impact],
        second: &[Impact],
    ) -> Result<CentreVerdict, TargetError> {
        let Pooled { count: [n, m], shift: [l, u], covariance: [ll, _, uu], apart } =
            Pooled::of(first, second)?;
        let (within, over) = (n + m - 2.0, n + m - 3.0);
        let t_squared = n * m / (n + m) * apart;
        let f = t_squared * over / (2.0 * within);
        let chance = law(over).sf(f);
        let t = student(within).inverse_cdf(0.5 * (1.0 + self.confidence()));
        let axis = |value: f64, variance: f64| {
            let half = t * (variance * (1.0 / n + 1.0 / m)).sqrt();
            Estimate { value, low: value - half, high: value + half }
        };
        let told = chance < 1.0 - self.confidence();
        let (left, up) = (axis(l, ll), axis(u, uu));
        Ok(CentreVerdict { left, up, t_squared, chance, told, apart })
    }

    /// The chance that groups of `shots` each, at least two, tell centres apart whose
    /// squared distance is `apart` in units of the covariance.
    pub fn chance_to_tell_centres(&self, apart: f64, shots: u32) -> f64 {
        let n = f64::from(shots.max(2));
        let over = 2.0 * n - 3.0;
        let critical = law(over).inverse_cdf(self.confidence());
        1.0 - noncentral(critical, over, 0.5 * n * apart)
    }

    /// How many shots with each until centres so far apart are told; none beyond
    /// ten thousand.
    pub fn shots_for_centres(&self, apart: f64) -> Option<u32> {
        let told = |shots: u32| self.chance_to_tell_centres(apart, shots) >= self.power();
        // By doubling: the noncentral law of many shots far apart is a long sum.
        let (mut low, mut high) = (2, 2);
        while !told(high) {
            if high == MOST_FOR_CENTRES {
                return None;
            }
            (low, high) = (high, (2 * high).min(MOST_FOR_CENTRES));
        }
        Some(fewest_that(low, high, told))
    }
}

fn student(within: f64) -> StudentsT {
    StudentsT::new(0.0, 1.0, within).expect("four shots leave degrees of freedom")
}

fn law(over: f64) -> FisherSnedecor {
    FisherSnedecor::new(2.0, over).expect("four shots leave a degree of freedom")
}

/// The noncentral F distribution of two and `over` degrees of freedom: a Poisson
/// mixture of beta distributions.
fn noncentral(f: f64, over: f64, noncentrality: f64) -> f64 {
    let y = 2.0 * f / (2.0 * f + over);
    let half = 0.5 * noncentrality;
    // Ten standard deviations about the mean hold all but 1e-20 of the weights.
    let width = 10.0 * half.sqrt() + 20.0;
    let (mut sum, mut at) = (0.0, (half - width).floor().max(0.0));
    while at <= half + width {
        let weight = (at * half.max(f64::MIN_POSITIVE).ln() - half - ln_gamma(at + 1.0)).exp();
        sum += weight * beta_reg(1.0 + at, 0.5 * over, y);
        at += 1.0;
    }
    sum.min(1.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(places: &[(f64, f64)]) -> Vec<Impact> {
        places.iter().map(|&(left, up)| Impact { left, up }).collect()
    }

    fn groups() -> [Vec<Impact>; 2] {
        [
            at(&[(0.8, -1.2), (-0.5, 0.3), (1.4, 0.9), (-1.1, -0.4), (0.2, 1.6), (0.1, -0.9)]),
            at(&[(2.1, 0.4), (1.2, -1.5), (3.0, 1.1), (0.7, 0.2), (2.4, -0.6)]),
        ]
    }

    /// Values of numpy and scipy, `tests/reference/hotelling.py`. C
    #[test]
    fn published_hotelling_against_a_reference_library() -> Result<(), TargetError> {
        let [first, second] = groups();
        let test = PowerTest::default();
        let found = test.centres(&first, &second)?;
        for (got, want) in [
            (found.t_squared, 11.383_816_770_028_899),
            (found.chance, 0.038_003_886_338_981_96),
            (found.apart, 4.174_066_149_010_596),
        ] {
            assert!((got / want - 1.0).abs() < 1e-10, "{got} {want}");
        }
        assert!(found.told && found.left.value > 0.0);
        for (shots, power) in [
            (5, 0.192_262_715_537_060_23),
            (10, 0.432_507_826_967_097_5),
            (20, 0.780_850_891_412_609_1),
        ] {
            let got = test.chance_to_tell_centres(1.0, shots);
            assert!((got - power).abs() < 1e-9, "{shots} {got} {power}");
        }
        assert_eq!(test.shots_for_centres(1.0), Some(21));
        assert_eq!(test.shots_for_centres(found.apart), Some(7));
        assert_eq!(test.shots_for_centres(0.0), None);
        Ok(())
    }

    #[test]
    fn law_turning_and_stretching_both_groups_moves_no_verdict() -> Result<(), TargetError> {
        let [first, second] = groups();
        let turn = |group: &[Impact]| {
            let turned = |i: &Impact| Impact { left: 2.0 * i.left - i.up, up: i.left + 3.0 * i.up };
            group.iter().map(turned).collect::<Vec<_>>()
        };
        let test = PowerTest::default();
        let here = test.centres(&first, &second)?;
        let there = test.centres(&turn(&first), &turn(&second))?;
        assert!((here.t_squared / there.t_squared - 1.0).abs() < 1e-12);
        let back = test.centres(&second, &first)?;
        assert!((here.left.value + back.left.value).abs() < 1e-15);
        let line = at(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]);
        assert_eq!(test.centres(&line, &line), Err(TargetError::NoSpread));
        Ok(())
    }
}
