//! The outer sample: points that fill the ranges of all poorly known values.

use super::scores::Scores;
use crate::sobol::{HALF_CELL, bits, small};
use crate::{Recipe, Slot, StudyError, UncertainParameter};

/// Outer points of an answer. Chosen: a power of two, so that the points fill
/// halves, quarters and so on evenly; three lie beyond each end of a band.
pub const OUTER_POINTS: usize = 64;
/// Outer points of a quick answer. Chosen: the least of which one lies beyond
/// each end of a band.
pub const QUICK_POINTS: usize = 16;
/// The stream that scrambles the points.
const STREAM: &str = "question.unknown";

/// What is drawn at the outer level.
pub(super) struct OuterSample {
    /// Every poorly known value, each once, in the order of their slots.
    pub(super) inputs: Vec<UncertainParameter>,
    /// Those that are a choice between models.
    pub(super) choices: Vec<Slot>,
    /// Pairs that are not independent, by place and correlation.
    pub(super) pairs: Vec<([usize; 2], f64)>,
    scores: Scores,
    seed: u32,
}

/// The chance of an input at a point that fills the space of chances evenly, above 0
/// and below 1. [burley-2020]
pub(crate) fn filling(point: usize, input: usize, seed: u32) -> f64 {
    f64::from(sobol_burley::sample(small(point), small(input), seed)) + HALF_CELL
}

impl OuterSample {
    /// Of everything that some of the recipes know poorly. Recipes that share
    /// a value share its chance, so it moves in all of them at once.
    pub(super) fn new(recipes: &[&dyn Recipe], seed: u64) -> Result<Self, StudyError> {
        let mut inputs: Vec<UncertainParameter> = Vec::new();
        for of in recipes.iter().flat_map(|recipe| recipe.uncertain()) {
            if !inputs.iter().any(|known| known.slot == of.slot) {
                inputs.push(of.clone());
            }
        }
        inputs.sort_by_key(|input| input.slot);
        let most = sobol_burley::NUM_DIMENSIONS as usize;
        if inputs.len() > most {
            return Err(StudyError::ManyUnknown { values: inputs.len(), most });
        }
        let mut choices: Vec<Slot> =
            recipes.iter().flat_map(|recipe| recipe.choices()).copied().collect();
        choices.sort_unstable();
        choices.dedup();
        let place = |slot: Slot| inputs.iter().position(|input| input.slot == slot);
        let mut pairs: Vec<([usize; 2], f64)> = Vec::new();
        for of in recipes.iter().flat_map(|recipe| recipe.correlated()) {
            let [Some(one), Some(other)] = of.slots.map(place) else { continue };
            let both = [one.min(other), one.max(other)];
            pairs.retain(|pair| pair.0 != both);
            pairs.push((both, of.by));
        }
        let scores = Scores::new(inputs.len(), &pairs)
            .ok_or(StudyError::Correlations { pairs: pairs.len() })?;
        let chance = crate::RandomStream::new(seed, STREAM).chance(0);
        Ok(Self { inputs, choices, pairs, scores, seed: bits(chance) })
    }

    /// The chance of each input at a point, above 0 and below 1.
    pub(super) fn chances(&self, point: usize) -> Vec<f64> {
        let chance = |input: usize| filling(point, input, self.seed);
        self.scores.correlate((0..self.inputs.len()).map(chance).collect())
    }

    /// The value of an input at its chance.
    pub(super) fn value(&self, of: &UncertainParameter, chance: f64) -> f64 {
        if self.choices.contains(&of.slot) { of.chosen(chance) } else { of.at(chance) }
    }

    /// Where a slot stands among the inputs.
    pub(super) fn place(&self, slot: Slot) -> Option<usize> {
        self.inputs.iter().position(|input| input.slot == slot)
    }
}
