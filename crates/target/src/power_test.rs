//! Whether two spreads can be told apart, after how many shots, and how often
//! the verdict is wrong.

use statrs::distribution::{ContinuousCDF, FisherSnedecor, Normal};

use crate::{Estimate, Spread, TargetError};

/// How sure a verdict must be.
///
/// Card: `docs/model/power_test.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PowerTest {
    confidence: f64,
    power: f64,
}

impl Default for PowerTest {
    /// Chosen: 95 % confidence and 80 % power, the usual convention.
    fn default() -> Self {
        Self { confidence: 0.95, power: 0.8 }
    }
}

/// How often a comparison of two groups of the same size goes wrong, when one
/// build truly spreads more.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Odds {
    /// Chance that the build that truly spreads more shows the smaller group,
    /// so that going by the smaller group picks the wrong build.
    pub wrong: f64,
    /// Chance that the test of the two groups shows no difference.
    pub missed: f64,
    /// Chance that the test calls the wrong build the tighter.
    pub reversed: f64,
}

/// What two groups that were shot say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Verdict {
    /// Sigma of the first over that of the second, with the interval of the
    /// stated confidence.
    pub ratio: Estimate,
    /// The chance of groups at least this unlike, were the builds alike.
    pub chance: f64,
    /// The least ratio, above 1, that groups of these sizes show with the
    /// stated power.
    pub least: f64,
}

impl Verdict {
    /// Whether the interval of the ratio excludes 1.
    pub fn told(&self) -> bool {
        self.ratio.low > 1.0 || self.ratio.high < 1.0
    }
}

impl PowerTest {
    /// A two-sided test at this confidence that shows a true difference with
    /// this power; both are shares.
    ///
    /// # Errors
    /// [`TargetError::Share`] unless both lie between 0 and 1.
    pub fn new(confidence: f64, power: f64) -> Result<Self, TargetError> {
        for (what, value) in [("the confidence", confidence), ("the power", power)] {
            if !(value > 0.0 && value < 1.0) {
                return Err(TargetError::Share { what, value });
            }
        }
        Ok(Self { confidence, power })
    }

    /// The confidence, a share.
    pub fn confidence(&self) -> f64 {
        self.confidence
    }

    /// The power, a share.
    pub fn power(&self) -> f64 {
        self.power
    }

    /// The least difference between two shares of hits near `share` that so many shots with
    /// each tell: two-sided, by the normal law of a share.
    ///
    /// Card: `docs/model/power-test.md`.
    pub fn least_hits_apart(&self, share: f64, shots: u32) -> f64 {
        let errors = normal_above(self.tail()) + normal_above(1.0 - self.power());
        errors * (2.0 * share * (1.0 - share) / f64::from(shots)).sqrt()
    }

    fn tail(&self) -> f64 {
        0.5 * (1.0 - self.confidence)
    }

    /// How many times the smaller the larger of two sigmas must be, of groups of
    /// `shots` each, at least two, to show a difference.
    pub fn limit(&self, shots: u32) -> f64 {
        Tested::alike(shots.max(2), self.tail()).high.sqrt()
    }

    /// The chance that groups of `shots` each, at least two, tell sigmas in
    /// this ratio apart.
    pub fn chance_to_tell(&self, ratio: f64, shots: u32) -> f64 {
        Tested::alike(shots.max(2), self.tail()).chance(ratio)
    }

    /// How many shots with each of two builds until their group sizes differ
    /// beyond chance: an F test on the pooled variances, two-sided.
    ///
    /// `ratio` is one true sigma over the other; below 1, its inverse is taken.
    /// None when more than `limit` shots are needed, as always at a ratio of 1,
    /// and for a ratio that is negative or not a number. A ratio of zero or
    /// infinity, where one build has no spread, takes the fewest, 2.
    pub fn shots(&self, ratio: f64, limit: u32) -> Option<u32> {
        let ratio = if ratio < 1.0 { 1.0 / ratio } else { ratio };
        let fewest = 2;
        let told = |shots: u32| self.chance_to_tell(ratio, shots) >= self.power;
        if ratio.is_nan() || ratio <= 1.0 || limit < fewest || !told(limit) {
            return None;
        }
        Some(fewest_that(fewest, limit, told))
    }

    /// How often groups of `shots` each, at least two, mislead, when the true
    /// sigmas stand in this ratio; below 1, its inverse is taken.
    pub fn odds(&self, ratio: f64, shots: u32) -> Odds {
        let ratio = if ratio < 1.0 { 1.0 / ratio } else { ratio };
        let variances = ratio * ratio;
        let test = Tested::alike(shots.max(2), self.tail());
        let reversed = test.law.cdf(test.low / variances);
        Odds {
            wrong: test.law.cdf(1.0 / variances),
            missed: 1.0 - test.law.sf(test.high / variances) - reversed,
            reversed,
        }
    }

    /// What two spreads say.
    ///
    /// # Errors
    /// [`TargetError::NoSpread`] when the impacts of either share one point.
    pub fn verdict(&self, first: &Spread, second: &Spread) -> Result<Verdict, TargetError> {
        let value = first.sigma / second.sigma;
        if !(value.is_finite() && value > 0.0) {
            return Err(TargetError::NoSpread);
        }
        let test = Tested::of(first.freedom, second.freedom, self.tail());
        let variances = value * value;
        let beyond = test.law.sf(variances).min(test.law.cdf(variances));
        Ok(Verdict {
            ratio: Estimate { value, low: value / test.high.sqrt(), high: value / test.low.sqrt() },
            chance: (2.0 * beyond).min(1.0),
            least: self.least(test),
        })
    }

    /// The least ratio above 1 that a test shows with the power asked for.
    fn least(&self, test: Tested) -> f64 {
        // Doubling, then halving in the logarithm to the last bit but a few.
        let mut high = 2.0_f64;
        while test.chance(high) < self.power && high < LARGEST_RATIO {
            high *= 2.0;
        }
        let mut low = 1.0_f64;
        for _ in 0..HALVINGS {
            let mid = (low * high).sqrt();
            if test.chance(mid) < self.power {
                low = mid;
            } else {
                high = mid;
            }
        }
        high
    }
}

/// Where the search for the least ratio ends. Chosen: no test of two groups of
/// two shots needs more at any confidence a user can state.
const LARGEST_RATIO: f64 = 1e12;
/// Halvings of that search. Chosen: a factor of 1e12 comes down to rounding.
const HALVINGS: u32 = 60;

/// A two-sided F test: the law of the ratio of variances of equal builds, and
/// its critical values.
#[derive(Clone, Copy)]
struct Tested {
    law: FisherSnedecor,
    low: f64,
    high: f64,
}

impl Tested {
    /// For groups of the same number of shots: the lower critical value is the
    /// inverse of the upper.
    fn alike(shots: u32, tail: f64) -> Self {
        let freedom = 2.0 * f64::from(shots) - 2.0;
        let law = spread_law(freedom, freedom);
        let high = law.inverse_cdf(1.0 - tail);
        Self { law, low: 1.0 / high, high }
    }

    fn of(over: f64, under: f64, tail: f64) -> Self {
        let law = spread_law(over, under);
        let high = law.inverse_cdf(1.0 - tail);
        let low = 1.0 / spread_law(under, over).inverse_cdf(1.0 - tail);
        Self { law, low, high }
    }

    /// The chance that the test tells sigmas in this ratio apart.
    fn chance(&self, ratio: f64) -> f64 {
        let variances = ratio * ratio;
        self.law.sf(self.high / variances) + self.law.cdf(self.low / variances)
    }
}

/// The normal score that this chance lies above.
fn normal_above(chance: f64) -> f64 {
    Normal::standard().inverse_cdf(1.0 - chance)
}

fn spread_law(over: f64, under: f64) -> FisherSnedecor {
    FisherSnedecor::new(over, under).expect("two impacts or more leave degrees of freedom")
}

/// The smallest of `low` to `high` that serves, where every larger one does and `high`
/// does.
pub(crate) fn fewest_that(low: u32, high: u32, serves: impl Fn(u32) -> bool) -> u32 {
    let (mut low, mut high) = (low, high);
    while low < high {
        let mid = low + (high - low) / 2;
        if serves(mid) {
            high = mid;
        } else {
            low = mid + 1;
        }
    }
    low
}
