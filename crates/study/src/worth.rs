//! What bench steps bring.

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

/// One more step of the way on which each step brings most for its time.
#[derive(Debug, Clone, PartialEq)]
pub struct Link {
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
    pub chain: Vec<Link>,
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

/// What bench steps bring.
#[derive(Debug, Clone, PartialEq)]
pub struct Bench {
    /// Distances.
    pub distances: Vec<Length>,
    /// The steps.
    pub steps: Vec<BenchStep>,
    /// The builds.
    pub builds: Vec<WorthBuild>,
}
