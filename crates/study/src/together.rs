//! All poorly known values at once: how often a comparison comes out one way.
//!
//! A band says how far a number may be off. Whether one of two numbers is the
//! larger it does not say, since what moves one moves the other. So every poorly
//! known value is drawn, evenly over its range, all of them together, and the
//! comparison is made anew for each draw.

use crate::band::inside;
use crate::sobol::HALF_CELL;
use crate::variant::Variant;
use crate::{Banded, DrawnParameter, Recipe, Refused, Setup, Slot, UncertainParameter};

/// Draws. Chosen: a share of a half is then known within 0.06, finer than the
/// words that are made of it.
pub(crate) const DRAWS: u32 = 64;
/// Draws where many values are looked at.
pub(crate) const FEW: u32 = 32;
/// Scrambles the points. Chosen: any will do.
const SEED: u32 = 13;
/// Ends of a range over the draws.
const RANGE: (f64, f64) = (0.05, 0.95);

/// A recipe with all its poorly known values held at one draw.
pub(crate) struct Together<'a> {
    recipe: &'a dyn Recipe,
    values: Vec<(Slot, f64)>,
}

impl<'a> Together<'a> {
    /// So many draws of a build.
    pub(crate) fn all(variant: &Variant<'a>, draws: u32) -> Vec<Self> {
        let uncertain: Vec<&UncertainParameter> = variant.uncertain().collect();
        // Where nothing is poorly known, every draw is the same.
        let draws = if uncertain.is_empty() { draws.min(1) } else { draws };
        let draw = |point: u32| {
            let value = |(dimension, doubt): (u32, &&UncertainParameter)| {
                let chance = f64::from(sobol_burley::sample(point, dimension, SEED));
                (doubt.slot, inside(doubt, chance + HALF_CELL))
            };
            Self { recipe: variant.recipe, values: (0..).zip(&uncertain).map(value).collect() }
        };
        (0..draws).map(draw).collect()
    }
}

impl Recipe for Together<'_> {
    fn draws(&self) -> &[DrawnParameter] {
        self.recipe.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        &[]
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        self.recipe.setup(&[&self.values, changes].concat())
    }
}

/// The share of what is known in which something holds; none where nothing is.
pub(crate) fn share(holds: impl Iterator<Item = bool>) -> Option<f64> {
    let (held, all) =
        holds.fold((0_u32, 0_u32), |(held, all), one| (held + u32::from(one), all + 1));
    (all > 0).then(|| f64::from(held) / f64::from(all))
}

/// A number with the middle nine tenths of its draws.
pub(crate) fn spread(value: f64, mut drawn: Vec<f64>) -> Banded {
    drawn.sort_by(f64::total_cmp);
    let at = |share: f64| {
        // A share of a count of draws.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let index = (share * drawn.len() as f64) as usize;
        drawn.get(index).copied().unwrap_or(value)
    };
    Banded { value, low: at(RANGE.0), high: at(RANGE.1) }
}
