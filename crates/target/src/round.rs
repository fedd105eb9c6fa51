//! The total of a round of many arrows.

use units::Length;

use crate::error::not_negative;
use crate::{Face, TargetError};

/// Scores of one arrow, from a miss to a ten.
const VALUES: usize = 11;

/// Chances of each score of one arrow, from a miss to a ten.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scores([f64; VALUES]);

impl Scores {
    /// The shares of scores that were counted, each of 0 to 10.
    ///
    /// # Errors
    /// [`TargetError::TooFew`] without a score, [`TargetError::Score`] for one
    /// above 10.
    pub fn counted(scores: &[u8]) -> Result<Self, TargetError> {
        if scores.is_empty() {
            return Err(TargetError::TooFew { what: "scores", count: 0, needed: 1 });
        }
        let mut counts = [0_usize; VALUES];
        for (index, &score) in scores.iter().enumerate() {
            let count = counts.get_mut(usize::from(score));
            *count.ok_or(TargetError::Score { index, score })? += 1;
        }
        Ok(Self(counts.map(|count| count as f64 / scores.len() as f64)))
    }

    /// The chances on a face for a circular normal group of standard deviation
    /// `sigma` per axis, m, about its centre.
    ///
    /// # Errors
    /// [`TargetError::Negative`] for a sigma or shaft diameter below zero or
    /// not finite.
    pub fn of(sigma: f64, face: &Face, shaft: Length) -> Result<Self, TargetError> {
        let sigma = not_negative("sigma", sigma)?;
        let reach = not_negative("the diameter of the shaft", shaft.si())? / 2.0;
        let touched = |radius: f64| -(-0.5 * (radius / sigma).powi(2)).exp_m1();
        let mut shares = [0.0; VALUES];
        let mut outside = 1.0;
        // From the outermost ring, which scores 1, inward.
        for (at, ring) in face.rings().iter().enumerate() {
            let inside = touched(ring.radius.si() + reach);
            shares[at] = outside - inside;
            outside = inside;
        }
        shares[VALUES - 1] = outside;
        Ok(Self(shares))
    }

    /// The chances.
    pub fn shares(&self) -> &[f64; VALUES] {
        &self.0
    }

    /// The total of a round of this many arrows, each scored as the others and
    /// independent of them: the exact distribution, by convolution.
    pub fn round(&self, arrows: u32) -> Round {
        let mut totals = vec![1.0];
        for _ in 0..arrows {
            let mut next = vec![0.0; totals.len() + VALUES - 1];
            for (at, chance) in totals.iter().enumerate() {
                for (score, share) in self.0.iter().enumerate() {
                    next[at + score] += chance * share;
                }
            }
            totals = next;
        }
        Round { arrows, totals }
    }
}

/// The distribution of a round's total.
///
/// Card: `docs/model/scoring.md`.
#[derive(Debug, Clone, PartialEq)]
pub struct Round {
    arrows: u32,
    /// Chance of each total from zero.
    totals: Vec<f64>,
}

/// Two archers, or one with two builds, each shooting a round.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Duel {
    /// Chance that the first scores more.
    pub first: f64,
    /// Chance of the same score.
    pub tie: f64,
    /// Chance that the second scores more.
    pub second: f64,
}

impl Round {
    /// Number of arrows.
    pub fn arrows(&self) -> u32 {
        self.arrows
    }

    /// Expected total.
    pub fn mean(&self) -> f64 {
        self.totals.iter().enumerate().map(|(total, chance)| total as f64 * chance).sum()
    }

    /// Standard deviation of the total.
    pub fn deviation(&self) -> f64 {
        let mean = self.mean();
        let square = |(total, chance): (usize, &f64)| (total as f64 - mean).powi(2) * chance;
        self.totals.iter().enumerate().map(square).sum::<f64>().sqrt()
    }

    /// The least total that a share of all rounds, above 0 and below 1, does
    /// not exceed.
    pub fn quantile(&self, share: f64) -> u32 {
        let mut below = 0.0;
        let at = self.totals.iter().position(|chance| {
            below += chance;
            below >= share
        });
        let top = self.totals.len() - 1;
        u32::try_from(at.unwrap_or(top)).unwrap_or(u32::MAX)
    }

    /// This round against another, each shot on its own.
    pub fn against(&self, other: &Self) -> Duel {
        // Each side by the same sum, so that changing sides changes nothing.
        let more = |a: &[f64], b: &[f64]| {
            let mut below = 0.0;
            let mut sum = 0.0;
            for (at, chance) in a.iter().enumerate() {
                sum += chance * below;
                below += b.get(at).copied().unwrap_or(0.0);
            }
            sum
        };
        let tie = self.totals.iter().zip(&other.totals).map(|(a, b)| a * b).sum();
        Duel {
            first: more(&self.totals, &other.totals),
            tie,
            second: more(&other.totals, &self.totals),
        }
    }
}
