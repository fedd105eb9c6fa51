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

/// The chance at which a value is its own.
const HALF: f64 = 0.5;

/// What is drawn at the outer level.
#[derive(Clone)]
pub(crate) struct OuterSample {
    /// Every poorly known value, each once, in the order of their slots.
    pub(crate) inputs: Vec<UncertainParameter>,
    /// Those that are a choice between models.
    pub(super) choices: Vec<Slot>,
    /// Pairs that are not independent, by place and correlation.
    pub(super) pairs: Vec<([usize; 2], f64)>,
    scores: Scores,
    seed: u32,
}

/// Outer points as drawn, before anything is computed at them.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Drawn {
    pub(crate) points: Vec<DrawnPoint>,
    /// The chances at which the answer itself is computed: a half each, the own
    /// values, where nothing was measured.
    pub(crate) centre: Vec<f64>,
}

/// One of them.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct DrawnPoint {
    pub(crate) chances: Vec<f64>,
    /// Its weight by all that is known.
    pub(crate) weight: f64,
    /// Its weight before anything was measured.
    pub(crate) before: f64,
}

impl OuterSample {
    /// Of everything that some of the recipes know poorly. Recipes that share
    /// a value share its chance, so it moves in all of them at once.
    pub(crate) fn new(recipes: &[&dyn Recipe], seed: u64) -> Result<Self, StudyError> {
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

    /// The chance of each input at a point, above 0 and below 1, each independent of
    /// the others. [burley-2020]
    pub(crate) fn chances(&self, point: usize) -> Vec<f64> {
        let chance = |input: usize| {
            f64::from(sobol_burley::sample(small(point), small(input), self.seed)) + HALF_CELL
        };
        (0..self.inputs.len()).map(chance).collect()
    }

    /// The same chances with the stated pairs correlated.
    pub(super) fn together(&self, chances: Vec<f64>) -> Vec<f64> {
        self.scores.correlate(chances)
    }

    /// The value of an input at its chance; its own at a half.
    pub(super) fn value(&self, of: &UncertainParameter, chance: f64) -> f64 {
        if !self.choices.contains(&of.slot) {
            of.at(chance)
        } else if chance.to_bits() == HALF.to_bits() {
            of.value
        } else {
            of.chosen(chance)
        }
    }

    /// So many points, none of them likelier than another.
    pub(crate) fn even(&self, points: usize) -> Drawn {
        let point = |at| DrawnPoint { chances: self.chances(at), weight: 1.0, before: 1.0 };
        Drawn { points: (0..points).map(point).collect(), centre: vec![HALF; self.inputs.len()] }
    }

    /// Where a slot stands among the inputs.
    pub(crate) fn place(&self, slot: Slot) -> Option<usize> {
        self.inputs.iter().position(|input| input.slot == slot)
    }
}
