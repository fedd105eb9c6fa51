//! When a test that is looked at several times may stop: group-sequential
//! boundaries.

use statrs::distribution::{ContinuousCDF, Normal};

use crate::{PowerTest, TargetError};

/// How strict the early looks are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LookRule {
    /// Strict at first, at the last look nearly as one look would be: the boundary
    /// falls as the root of the share of the shots.
    OBrienFleming,
    /// As strict at every look.
    Pocock,
}

/// Most looks. Chosen: more would stop no earlier.
pub const MOST_LOOKS: u32 = 10;

/// Points of a Simpson sum over the scores that have not stopped. Chosen: boundaries
/// then hold to 1e-6.
const POINTS: usize = 201;
/// Halvings of the bracket of a boundary. Chosen: to 1e-9.
const HALVINGS: u32 = 32;

impl LookRule {
    /// The boundary of the standard normal score at look `k` of `looks`, over that of
    /// the last look.
    fn shape(self, k: u32, looks: u32) -> f64 {
        match self {
            Self::OBrienFleming => (f64::from(looks) / f64::from(k)).sqrt(),
            Self::Pocock => 1.0,
        }
    }

    /// The boundaries of the score at each of up to [`MOST_LOOKS`] looks, evenly spaced, of a
    /// two-sided test that is wrong with the chance `error` over all looks together.
    pub fn boundaries(self, looks: u32, error: f64) -> Vec<f64> {
        let looks = looks.clamp(1, MOST_LOOKS);
        let all =
            |last: f64| -> Vec<f64> { (1..=looks).map(|k| last * self.shape(k, looks)).collect() };
        let one = Normal::standard().inverse_cdf(1.0 - 0.5 * error);
        // As strict as one look, and as if all looks were independent.
        let bonferroni = Normal::standard().inverse_cdf(1.0 - 0.5 * error / f64::from(looks));
        let (mut low, mut high) = (one, bonferroni);
        for _ in 0..HALVINGS {
            let mid = 0.5 * (low + high);
            if crossing(&all(mid), 0.0) > error {
                low = mid;
            } else {
                high = mid;
            }
        }
        all(high)
    }

    /// How many times the shots of a test with one look it takes, if all looks are
    /// made, to keep its power: the square of the drift of the score that crosses some
    /// boundary that often, over the same of one look.
    pub fn inflation(self, looks: u32, error: f64, power: f64) -> f64 {
        let drift = |looks: u32| {
            let bounds = self.boundaries(looks, error);
            // A drift of 20 crosses anything.
            let (mut low, mut high) = (0.0, 20.0);
            for _ in 0..HALVINGS {
                let mid = 0.5 * (low + high);
                if crossing(&bounds, mid) < power {
                    low = mid;
                } else {
                    high = mid;
                }
            }
            high
        };
        (drift(looks) / drift(1)).powi(2)
    }
}

impl PowerTest {
    /// The test to make at look `k` of `looks`: with a confidence such that all looks
    /// together are wrong no more often than this test is.
    ///
    /// The level of the normal score is taken for that of the test, as is usual; the card
    /// says how far that holds for few shots.
    ///
    /// # Errors
    /// [`TargetError::Look`] for a look that is none of them.
    pub fn at_look(&self, rule: LookRule, k: u32, looks: u32) -> Result<Self, TargetError> {
        if k < 1 || k > looks || looks > MOST_LOOKS {
            return Err(TargetError::Look { look: k, looks, most: MOST_LOOKS });
        }
        let bounds = rule.boundaries(looks, 1.0 - self.confidence());
        let at = bounds[k as usize - 1];
        Self::new(1.0 - 2.0 * Normal::standard().sf(at), self.power())
    }
}

/// The chance that a score crosses its boundary, on either side, at some look, where
/// its mean at the last look is `drift`: the score's distribution among those not
/// stopped is carried from look to look.
fn crossing(bounds: &[f64], drift: f64) -> f64 {
    // What each look adds to the sum of unit increments.
    let step = drift / (bounds.len() as f64).sqrt();
    let density = |x: f64| (-0.5 * x * x).exp() / (2.0 * std::f64::consts::PI).sqrt();
    let grid = |half: f64| -> Vec<f64> {
        (0..POINTS).map(|at| half * (2.0 * at as f64 / (POINTS - 1) as f64 - 1.0)).collect()
    };
    let simpson = |half: f64, at: usize| {
        let third = 2.0 * half / (POINTS - 1) as f64 / 3.0;
        third
            * match at {
                0 => 1.0,
                at if at == POINTS - 1 => 1.0,
                at if at % 2 == 1 => 4.0,
                _ => 2.0,
            }
    };
    let (mut places, mut weighed): (Vec<f64>, Vec<f64>) = (vec![0.0], vec![1.0]);
    for (look, bound) in bounds.iter().enumerate() {
        // The sum of so many unit increments, where the score is that over its root.
        let half = bound * ((look + 1) as f64).sqrt();
        let next = grid(half);
        let on = |x: f64| -> f64 {
            places
                .iter()
                .zip(&weighed)
                .map(|(from, weight)| weight * density(x - from - step))
                .sum()
        };
        weighed = next.iter().enumerate().map(|(at, x)| simpson(half, at) * on(*x)).collect();
        places = next;
    }
    1.0 - weighed.iter().sum::<f64>()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Jennison and Turnbull, Group Sequential Methods, 2000, tables 2.1 and 2.3, two-sided
    /// 5 % (values M); the same by `tests/reference/sequential.py`. C
    #[test]
    fn published_boundaries_of_pocock_and_of_o_brien_and_fleming() {
        for (looks, pocock, last) in [
            (1, 1.960, 1.960),
            (2, 2.178, 1.977),
            (3, 2.289, 2.004),
            (4, 2.361, 2.024),
            (5, 2.413, 2.040),
        ] {
            let of = |rule: LookRule| rule.boundaries(looks, 0.05);
            let got = (of(LookRule::Pocock)[0], of(LookRule::OBrienFleming)[looks as usize - 1]);
            assert!((got.0 - pocock).abs() < 6e-4 && (got.1 - last).abs() < 6e-4, "{got:?}");
        }
        let first = LookRule::OBrienFleming.boundaries(3, 0.05)[0];
        assert!((first - 2.004 * 3.0_f64.sqrt()).abs() < 1e-3);
    }

    /// The same book, tables 2.2 and 2.4, two-sided 5 %, power 80 %: shots of all looks
    /// over those of one. Values M.
    #[test]
    fn published_most_shots_of_a_test_with_looks() {
        for (looks, pocock, strict) in [(2, 1.110, 1.008), (3, 1.166, 1.017), (5, 1.229, 1.028)] {
            for (rule, want) in [(LookRule::Pocock, pocock), (LookRule::OBrienFleming, strict)] {
                let got = rule.inflation(looks, 0.05, 0.8);
                assert!((got - want).abs() < 1.5e-3, "{rule:?} {looks} {got} {want}");
            }
        }
    }

    #[test]
    fn law_looks_share_the_error_between_them() -> Result<(), TargetError> {
        let test = PowerTest::default();
        let one = test.at_look(LookRule::Pocock, 1, 1)?;
        assert!((one.confidence() - 0.95).abs() < 1e-8);
        for rule in [LookRule::Pocock, LookRule::OBrienFleming] {
            let mut before = 1.0;
            for k in 1..=4 {
                let now = test.at_look(rule, k, 4)?.confidence();
                assert!(now > 0.95 && now <= before + 1e-12, "{rule:?} {k}");
                before = now;
            }
        }
        assert!(test.at_look(LookRule::Pocock, 4, 3).is_err());
        assert!(test.at_look(LookRule::Pocock, 0, 3).is_err());
        Ok(())
    }
}
