//! What was found for the worth of bench steps. SI.

use arrow::Built;
use target::Estimate;
use units::Length;

use crate::BenchStep;

/// A group at one distance after some steps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DoneMark {
    /// R50 before over `ratio`, m: the group keeps its shape.
    pub r50: Estimate,
    /// R50 before less `r50`, m; its interval is that of the ratio.
    pub gain: Estimate,
    /// Sigma before over sigma after; none where the arrows then all land in
    /// one point.
    pub ratio: Option<Estimate>,
    /// R50 as flown, m.
    pub flown: Estimate,
    /// R50 as flown before less `flown`, m: free of any shape, but known less
    /// closely.
    pub flown_gain: Estimate,
    /// Share of the group's arrows that hit.
    pub hit: f64,
    /// Drop of the nominal arrow after these steps, m.
    pub drop: f64,
    /// Its speed there, m/s.
    pub speed: f64,
}

/// Some steps done together.
#[derive(Debug, Clone, PartialEq)]
pub struct Done {
    /// Which, rising; none for the arrows as they are.
    pub steps: Vec<usize>,
    /// Time for a dozen arrows, s.
    pub time: f64,
    /// Cost for a dozen arrows.
    pub cost: f64,
    /// By distance.
    pub marks: Vec<DoneMark>,
}

impl Done {
    /// The group at the farthest distance.
    pub fn far(&self) -> &DoneMark {
        match self.marks.last() {
            Some(mark) => mark,
            None => unreachable!("every list of distances was checked to hold one"),
        }
    }

    /// Gain in R50 for each minute of work at the farthest distance, m; none
    /// where no gain is shown.
    pub fn gain_per_minute(&self) -> Option<f64> {
        let gain = self.far().gain;
        (gain.low > 0.0).then(|| gain.value * 60.0 / self.time)
    }
}

/// One more step of the way on which each step brings most for its time.
#[derive(Debug, Clone, PartialEq)]
pub struct GreedyStep {
    /// The step added.
    pub step: usize,
    /// What is done then, an index into [`WorthBuild::tried`].
    pub done: usize,
    /// R50 before this step less R50 after it, by distance, m.
    pub gain: Vec<Estimate>,
}

/// What the steps bring to one build.
#[derive(Debug, Clone, PartialEq)]
pub struct WorthBuild {
    /// Name.
    pub name: String,
    /// The nominal arrow before any step.
    pub built: Built,
    /// Flights of each group.
    pub flights: usize,
    /// Everything tried: first nothing, then each step alone, then the rest.
    pub tried: Vec<Done>,
    /// The same from a shooting machine: nothing, each step alone, all steps.
    pub machine: Vec<Done>,
    /// The way on which each step brings most for its time.
    pub chain: Vec<GreedyStep>,
    /// The sets that no other beats in both time and R50 at the farthest
    /// distance, indices into `tried`, by time; only those whose gain shows,
    /// and that add a hundredth of what all steps bring to the one before.
    pub front: Vec<usize>,
    /// The three steps (all, if there are fewer) that bring most at the
    /// farthest distance.
    pub best: usize,
    /// All steps.
    pub all: usize,
}

impl WorthBuild {
    /// Steps alone, indices into `tried`, the best for its time at the farthest
    /// distance first.
    pub fn by_rate(&self) -> Vec<usize> {
        self.alone(|done| done.far().gain.value / done.time)
    }

    /// The same, the largest gain first.
    pub fn by_gain(&self) -> Vec<usize> {
        self.alone(|done| done.far().gain.value)
    }

    fn alone(&self, worth: impl Fn(&Done) -> f64) -> Vec<usize> {
        let one = |at: &usize| self.tried[*at].steps.len() == 1;
        let mut order: Vec<usize> = (0..self.tried.len()).filter(one).collect();
        order.sort_by(|a, b| worth(&self.tried[*b]).total_cmp(&worth(&self.tried[*a])));
        order
    }

    /// A gain over what all steps bring at the farthest distance; none where
    /// all bring nothing.
    pub fn share_of_all(&self, gain: f64) -> Option<f64> {
        let all = self.tried[self.all].far().gain;
        (all.low > 0.0).then(|| gain / all.value)
    }
}

/// What bench steps bring.
#[derive(Debug, Clone, PartialEq)]
pub struct WorthOfSteps {
    /// Distances.
    pub distances: Vec<Length>,
    /// The steps.
    pub steps: Vec<BenchStep>,
    /// The builds.
    pub builds: Vec<WorthBuild>,
}
