//! How many arrows a trial takes.

use target::{LookRule, MOST_FOR_CENTRES, PowerTest, Spread, TargetError};
use units::Length;

use crate::Shots;
use crate::seen::MOST_SHOTS;

/// Most arrows of both builds together that a sheet is made for. Chosen: ten rounds
/// of 72, some weeks of a club archer's practice; beyond it bow, archer and weather
/// change more than the builds.
pub const MOST_TRIAL_ARROWS: u32 = 720;
/// Rest after each end, minutes. Chosen: walking to the butt and back.
pub const REST: u32 = 3;
/// Rest after the ends before a look, minutes. Chosen: measuring and a drink.
pub const REST_AT_LOOK: u32 = 15;

/// The difference a trial is to show.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Claim {
    /// One build's groups are so many times as wide as the other's.
    Width {
        /// The ratio of sigmas.
        ratio: f64,
    },
    /// Their centres lie apart.
    Centre {
        /// By so many sigmas.
        sigmas: f64,
    },
}

/// How hits are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ReadBy {
    /// Left and up of each arrow.
    Places,
    /// The widest distance of each build's arrows in each end.
    Spreads,
}

/// What is asked of a trial.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialAsk {
    /// The builds.
    pub builds: [String; 2],
    /// How far away the target is.
    pub distance: Length,
    /// What it is to show.
    pub claim: Claim,
    /// How hits are read.
    pub by: ReadBy,
    /// Arrows of each build in each end.
    pub arrows: u32,
    /// Looks, evenly spaced.
    pub looks: u32,
    /// How strict the early ones are.
    pub rule: LookRule,
    /// How sure it must be, and how often a true difference must show.
    pub test: PowerTest,
    /// Seed of its order.
    pub seed: u64,
}

/// A trial ready to be shot.
#[derive(Debug, Clone, PartialEq)]
pub struct TrialPlan {
    /// What was asked.
    pub ask: TrialAsk,
    /// Ends; a whole number of them before each look.
    pub ends: u32,
}

/// How large a trial is.
#[derive(Debug, Clone, PartialEq)]
pub enum TrialSize {
    /// It can be shot.
    Sane(TrialPlan),
    /// No sane number of arrows shows it.
    Mad {
        /// Arrows of each build.
        each: Shots,
        /// The least difference that the most arrows show.
        shown: Claim,
    },
}

impl Claim {
    /// Whether it is of the width.
    pub fn of_width(self) -> bool {
        matches!(self, Self::Width { .. })
    }
}

impl TrialAsk {
    /// How many ends it takes, each build the same number of arrows in each.
    ///
    /// The number of one look is raised by what the rule costs.
    ///
    /// # Errors
    /// [`TargetError::TooFew`] for spreads of less than two arrows;
    /// [`TargetError::Look`] for more looks than there may be.
    pub fn size(&self) -> Result<TrialSize, TargetError> {
        // Refuses looks that are none.
        self.test.at_look(self.rule, 1, self.looks)?;
        let error = 1.0 - self.test.confidence();
        let raised = self.rule.inflation(self.looks, error, self.test.power());
        let (one_look, limit) = match self.claim {
            Claim::Width { ratio } => (self.test.shots(ratio, MOST_SHOTS), MOST_SHOTS),
            Claim::Centre { sigmas } => {
                (self.test.shots_for_centres(sigmas * sigmas), MOST_FOR_CENTRES)
            }
        };
        let per_end = self.freedom_of_an_end()?;
        let each_of = |shots: u32| {
            // As many degrees of freedom as so many places would give, and the two that
            // places lose to their centre.
            let freedom = raised * 2.0 * f64::from(shots);
            let ends = whole((freedom / per_end).ceil());
            ends.div_ceil(self.looks) * self.looks
        };
        let most = MOST_TRIAL_ARROWS / (2 * self.arrows);
        match one_look.map(each_of) {
            Some(ends) if ends <= most => {
                Ok(TrialSize::Sane(TrialPlan { ask: self.clone(), ends }))
            }
            ends => {
                let each = ends.map_or(Shots::MoreThan(limit), |ends| {
                    Shots::Each(ends.saturating_mul(self.arrows))
                });
                let shots = whole(f64::from(most) * per_end / raised / 2.0);
                Ok(TrialSize::Mad { each, shown: self.least(shots) })
            }
        }
    }

    /// Degrees of freedom that one end adds to the spread of each build.
    fn freedom_of_an_end(&self) -> Result<f64, TargetError> {
        match self.by {
            ReadBy::Places => Ok(2.0 * f64::from(self.arrows)),
            ReadBy::Spreads => Ok(Spread::of_extreme_spread(self.arrows, 1.0)?.freedom),
        }
    }

    /// The least difference that so many shots of each show at one look.
    fn least(&self, shots: u32) -> Claim {
        let shows = |claim: Claim| match claim {
            Claim::Width { ratio } => self.test.chance_to_tell(ratio, shots),
            Claim::Centre { sigmas } => self.test.chance_to_tell_centres(sigmas * sigmas, shots),
        };
        let of = |value: f64| match self.claim {
            Claim::Width { .. } => Claim::Width { ratio: 1.0 + value },
            Claim::Centre { .. } => Claim::Centre { sigmas: value },
        };
        // Chosen: to a millionth of ten.
        let (mut low, mut high) = (0.0, 10.0);
        for _ in 0..24 {
            let mid = 0.5 * (low + high);
            if shows(of(mid)) < self.test.power() {
                low = mid;
            } else {
                high = mid;
            }
        }
        of(high)
    }
}

impl TrialPlan {
    /// Ends before a look, from one.
    pub fn ends_before(&self, look: u32) -> u32 {
        self.ends / self.ask.looks * look
    }

    /// Arrows of each build in the whole trial.
    pub fn each(&self) -> u32 {
        self.ends * self.ask.arrows
    }
}

/// A number of shots, not negative and far below the largest.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "saturates")]
fn whole(value: f64) -> u32 {
    value as u32
}
