//! Which outer points go with what was measured, and more of them where it counts.
//!
//! Chances are taken as standard normal numbers: what is likely before anything is
//! measured is then the same bell in every direction, whatever the values' own laws.
//! The points are weighed by their likelihood; where that leaves too few, they are
//! led there in steps (a tempered population: weighed by a power of the likelihood
//! that rises to 1, picked anew, and moved by steps that leave what is likely as it
//! is). [del-moral-2006] [cotter-2013]

use rayon::prelude::*;

use super::best::best;
use super::moves::Moves;
use super::tried::{Residuals, Trial, Tried};
use crate::first::all_or_first;
use crate::unknown::{Drawn, DrawnPoint};
use crate::{RandomStream, StudyError, Watch, normal_quantile};

/// Points of the population over outer points, or over poorly known values. Chosen:
/// enough to tell how the values go together.
const CROWD: usize = 4;
/// Points tried over those of the population, at most.
const MOST: usize = 16;
/// Least share of points that the weights must be worth. Chosen: a half, as is usual.
const WORTH: f64 = 0.5;
/// Errors beyond which a reading is out of a point's reach. Chosen: two readings in a
/// thousand are farther by chance.
pub(super) const REACH: f64 = 3.0;
/// Tries of every point to move, after a step. Chosen: four, of which one should do.
const TRIES: usize = 4;
/// Width of the first move over the population's own. Chosen: it adapts.
const WIDTH: f64 = 0.6;
/// The stream of picks and moves.
const STREAM: &str = "question.evidence";

/// How far off every number is at a point that gives shots, and the point's weight.
pub(super) type Off = Vec<(Vec<f64>, f64)>;

/// The points drawn, and what they say of each number.
#[derive(Debug, Clone)]
pub(super) struct Weighed {
    pub(super) drawn: Drawn,
    /// Points at which what was measured was computed.
    pub(super) tried: usize,
    /// Whether a thing is beyond every possible value, and so was left out.
    pub(super) beyond: Vec<bool>,
    /// At the points tried first.
    pub(super) before: Off,
    /// At the points left.
    pub(super) after: Off,
}

/// What a search needs.
pub(super) struct Weigher<'a> {
    /// The chances of a point before anything was measured.
    pub(super) prior: &'a (dyn Fn(usize) -> Vec<f64> + Sync),
    /// Poorly known values.
    pub(super) values: usize,
    /// Outer points wanted.
    pub(super) points: usize,
    pub(super) seed: u64,
    /// To which thing each number belongs, counted from zero.
    pub(super) things: &'a [usize],
    pub(super) residuals: &'a Residuals<'a>,
    pub(super) watch: &'a dyn Watch,
}

impl Weigher<'_> {
    /// Points that go with what was measured.
    pub(super) fn weighed(&self) -> Result<Weighed, StudyError> {
        let count = self.things.iter().max().map_or(0, |most| most + 1);
        let Self { residuals, things, watch, .. } = *self;
        let mut trial = Trial { residuals, things, beyond: vec![false; count], watch };
        let mut crowd = self.first(&trial, 0..self.points)?;
        let weights = weights_of(&crowd, 1.0);
        if worth(&weights) >= WORTH * self.points as f64 {
            let point = |(one, weight): (&Tried, &f64)| drawn(one, *weight, 1.0);
            let points = crowd.iter().zip(&weights).map(point).collect();
            return self.found(&trial, (&crowd, &weights), points, off(&crowd, None), crowd.len());
        }
        crowd.extend(self.first(&trial, self.points..CROWD * self.points.max(self.values))?);
        leave_out(&mut trial, &mut crowd);
        let before: Vec<DrawnPoint> =
            crowd.iter().take(self.points).map(|one| drawn(one, 0.0, 1.0)).collect();
        let expected = off(&crowd, None);
        let (crowd, weights, tried) = self.led(&trial, crowd)?;
        let start = RandomStream::new(self.seed, STREAM).chance(0);
        let counts = picked(&weights, self.points, start);
        let kept = crowd.iter().zip(counts).filter(|(_, count)| *count > 0);
        let after = kept.map(|(one, count)| drawn(one, count as f64, 0.0));
        let points = before.into_iter().chain(after).collect();
        self.found(&trial, (&crowd, &weights), points, expected, tried)
    }

    fn found(
        &self,
        trial: &Trial,
        (crowd, weights): (&[Tried], &[f64]),
        points: Vec<DrawnPoint>,
        before: Off,
        tried: usize,
    ) -> Result<Weighed, StudyError> {
        let (centre, more) = best(trial, self.values, crowd)?;
        let (drawn, beyond) = (Drawn { points, centre }, trial.beyond.clone());
        let after = off(crowd, Some(weights));
        Ok(Weighed { drawn, tried: tried + more, beyond, before, after })
    }

    fn first(
        &self,
        trial: &Trial,
        range: std::ops::Range<usize>,
    ) -> Result<Vec<Tried>, StudyError> {
        all_or_first(range.into_par_iter().map(|at| trial.tried((self.prior)(at))))
    }

    /// The crowd led to where what was measured is likely, its weights, and how many
    /// points were tried.
    fn led(
        &self,
        trial: &Trial,
        mut crowd: Vec<Tried>,
    ) -> Result<(Vec<Tried>, Vec<f64>, usize), StudyError> {
        let size = crowd.len();
        let (mut power, mut width, mut passes) = (0.0, WIDTH, 0);
        loop {
            let rest = 1.0 - power;
            let tried = (1 + passes) * size;
            let enough = |step: f64| worth(&weights_of(&crowd, step)) >= WORTH * size as f64;
            if enough(rest) || tried >= MOST * size || !crowd.iter().any(Tried::gives) {
                let last = weights_of(&crowd, rest);
                return Ok((crowd, last, tried));
            }
            let step = largest(rest, enough);
            power += step;
            let start = RandomStream::new(self.seed, STREAM).chance(1 + passes as u64);
            let counts = picked(&weights_of(&crowd, step), size, start);
            let copies = crowd.into_iter().zip(counts);
            crowd = copies.flat_map(|(one, count)| std::iter::repeat_n(one, count)).collect();
            let (moves, mut moved) = (Moves::of(&crowd), 0.0);
            for _ in 0..TRIES {
                passes += 1;
                let share = self.pass(trial, &mut crowd, &moves, (power, width), passes)?;
                moved += share;
                width = match share {
                    share if share < 0.2 => 0.6 * width,
                    share if share > 0.5 => (1.4 * width).min(1.0),
                    _ => width,
                };
                // Each has moved once, or as good as.
                if moved >= 1.0 || passes >= MOST {
                    break;
                }
            }
        }
    }

    /// Every point tries to move once; the share of those that did.
    fn pass(
        &self,
        trial: &Trial,
        crowd: &mut [Tried],
        moves: &Moves,
        (power, width): (f64, f64),
        passes: usize,
    ) -> Result<f64, StudyError> {
        // Chances of its own for every pass and point; those before serve the picks.
        let each = self.values + 1;
        let first = passes * crowd.len().max(MOST + 2) * each;
        let one = |(at, old): (usize, &Tried)| -> Result<Option<Tried>, StudyError> {
            let mut stream = RandomStream::new(self.seed, STREAM);
            let mut next = (first + at * each) as u64..;
            let mut chance = || next.next().map_or(0.5, |at| stream.chance(at));
            let noise: Vec<f64> = (0..self.values).map(|_| normal_quantile(chance())).collect();
            let new = trial.tried_at(&moves.step(&old.chances, &noise, width))?;
            let gain = power * (old.loss - new.loss) + moves.balance(&old.chances, &new.chances);
            Ok((new.gives() && chance().ln() < gain).then_some(new))
        };
        let found = all_or_first(crowd.par_iter().enumerate().map(one))?;
        let mut moved = 0.0;
        for (old, new) in crowd.iter_mut().zip(found) {
            if let Some(new) = new {
                *old = new;
                moved += 1.0;
            }
        }
        Ok(moved / crowd.len() as f64)
    }
}

fn drawn(one: &Tried, weight: f64, before: f64) -> DrawnPoint {
    DrawnPoint { chances: one.chances.clone(), weight, before }
}

fn off(crowd: &[Tried], weights: Option<&[f64]>) -> Off {
    let weight = |at: usize| weights.map_or(1.0, |weights| weights[at]);
    let all = crowd.iter().enumerate();
    all.filter_map(|(at, one)| Some((one.residuals.clone()?, weight(at)))).collect()
}

/// Leaves out what lies beyond every point of the first crowd: all on one side, and
/// the nearest farther than chance brings it.
fn leave_out(trial: &mut Trial, crowd: &mut [Tried]) {
    for (at, thing) in trial.things.iter().enumerate() {
        let mut all = crowd.iter().filter_map(|one| Some(one.residuals.as_ref()?[at]));
        let first = all.next().unwrap_or_default().signum();
        let nearest = crowd.iter().filter_map(|one| Some(first * one.residuals.as_ref()?[at]));
        if nearest.fold(f64::INFINITY, f64::min) > REACH {
            trial.beyond[*thing] = true;
        }
    }
    for one in crowd {
        trial.judge(one);
    }
}

/// The largest step of the power that leaves enough; by halving, since the more of
/// the likelihood counts, the fewer are left.
fn largest(rest: f64, enough: impl Fn(f64) -> bool) -> f64 {
    let (mut low, mut high) = (0.0, rest);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if enough(middle) { low = middle } else { high = middle }
    }
    // Where points without a shot alone leave too few, a small step drops them.
    low.max(1e-9 * rest)
}

/// Weights by a power of the likelihood, the greatest 1.
fn weights_of(crowd: &[Tried], power: f64) -> Vec<f64> {
    let least = crowd.iter().map(|one| one.loss).fold(f64::INFINITY, f64::min);
    let weight = |one: &Tried| if one.gives() { (-power * (one.loss - least)).exp() } else { 0.0 };
    crowd.iter().map(weight).collect()
}

/// How many equally weighing points weights are worth.
fn worth(weights: &[f64]) -> f64 {
    let sum: f64 = weights.iter().sum();
    let squares: f64 = weights.iter().map(|weight| weight * weight).sum();
    if squares > 0.0 { sum * sum / squares } else { 0.0 }
}

/// How often each is picked: evenly spaced picks over the weights laid end to end.
fn picked(weights: &[f64], picks: usize, start: f64) -> Vec<usize> {
    let whole: f64 = weights.iter().sum();
    let mut counts = vec![0; weights.len()];
    let (mut at, mut upto) = (0, weights.first().copied().unwrap_or(0.0));
    for pick in 0..picks {
        let place = (pick as f64 + start) / picks as f64 * whole;
        while upto < place && at + 1 < weights.len() {
            at += 1;
            upto += weights[at];
        }
        counts[at] += 1;
    }
    counts
}
