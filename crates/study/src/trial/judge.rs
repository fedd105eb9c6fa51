//! What a trial says so far.

use target::{Impact, PowerTest, Spread, TargetError};

use super::plan::TrialPlan;
use crate::{Look, ShotGroup, TwoGroups};

/// One end that was shot.
#[derive(Debug, Clone, PartialEq)]
pub enum EndShot {
    /// Where the arrows of each build hit, from one point of aim.
    Places([Vec<Impact>; 2]),
    /// The widest distance between two arrows of each build, m.
    Spreads([f64; 2]),
}

/// A trial with the test of each look.
#[derive(Debug, Clone, PartialEq)]
pub struct Trial {
    plan: TrialPlan,
    tests: Vec<PowerTest>,
}

/// What to do now.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TrialNext {
    /// Shoot so many more ends, then look.
    GoOn {
        /// Ends to the next look.
        ends: u32,
    },
    /// It tells: stop.
    Stop,
    /// It was the last look and does not tell.
    Over,
}

/// A trial so far.
#[derive(Debug, Clone, PartialEq)]
pub struct JudgedTrial {
    /// Its plan.
    pub plan: TrialPlan,
    /// Ends shot.
    pub shot: u32,
    /// The last look that was due, with the ends shot until then; the first that tells
    /// if one does. None before the first.
    pub last: Option<TwoGroups>,
    /// What to do now.
    pub next: TrialNext,
}

impl Trial {
    /// # Errors
    /// [`TargetError::Look`] for more looks than there may be.
    pub fn new(plan: TrialPlan) -> Result<Self, TargetError> {
        let ask = &plan.ask;
        let at = |look| ask.test.at_look(ask.rule, look, ask.looks);
        let tests = (1..=ask.looks).map(at).collect::<Result<_, _>>()?;
        Ok(Self { plan, tests })
    }

    /// Judges the ends shot so far at each look that is due, with the ends before it
    /// and no others: a look between two would mislead.
    ///
    /// # Errors
    /// [`TargetError`] for shots that make no group.
    pub fn judge(&self, ends: &[EndShot]) -> Result<JudgedTrial, TargetError> {
        let shot = u32::try_from(ends.len()).unwrap_or(u32::MAX).min(self.plan.ends);
        let looks = self.plan.ask.looks;
        let mut last = None;
        for (look, test) in (1..=looks).zip(&self.tests) {
            let before = self.plan.ends_before(look);
            if before > shot {
                let next = TrialNext::GoOn { ends: before - shot };
                return Ok(JudgedTrial { plan: self.plan.clone(), shot, last, next });
            }
            let groups = self.groups(&ends[..before as usize])?;
            let judged = TwoGroups::of(groups, *test)?.at(Some(self.plan.ask.distance));
            let rule = self.plan.ask.rule;
            let judged = TwoGroups { look: Some(Look { at: look, of: looks, rule }), ..judged };
            let told = self.told(&judged);
            last = Some(judged);
            if told {
                let next = TrialNext::Stop;
                return Ok(JudgedTrial { plan: self.plan.clone(), shot, last, next });
            }
        }
        Ok(JudgedTrial { plan: self.plan.clone(), shot, last, next: TrialNext::Over })
    }

    /// Whether it shows what it was shot for.
    fn told(&self, judged: &TwoGroups) -> bool {
        if self.plan.ask.claim.of_width() {
            judged.verdict.told()
        } else {
            judged.centres.is_some_and(|centres| centres.told)
        }
    }

    fn groups(&self, ends: &[EndShot]) -> Result<[ShotGroup; 2], TargetError> {
        let one = |build: usize| {
            let name = &self.plan.ask.builds[build];
            let (mut places, mut spreads) = (Vec::new(), Vec::new());
            for end in ends {
                match end {
                    EndShot::Places(of) => places.extend_from_slice(&of[build]),
                    EndShot::Spreads(of) => {
                        spreads.push(Spread::of_extreme_spread(self.plan.ask.arrows, of[build])?);
                    }
                }
            }
            match Spread::pooled(&spreads) {
                Some(spread) => {
                    let shots = ends.len() * self.plan.ask.arrows as usize;
                    Ok(ShotGroup::of_spread(name, shots, spread))
                }
                None => ShotGroup::of(name, &places),
            }
        };
        Ok([one(0)?, one(1)?])
    }
}
