//! A build without chance: everything drawn at its median.

use study::{DrawnParameter, Recipe, Refused, Setup, Slot, UncertainParameter};

use crate::draw::ANY;
use crate::{Scenario, ScenarioError};

/// A recipe that draws nothing.
struct Typical {
    recipe: Box<dyn Recipe>,
    held: Vec<(Slot, f64)>,
}

impl Scenario {
    /// The recipe of a build, or of the first, with every drawn value held at
    /// the median of its law. A clock position that may be anywhere has no
    /// middle, and stays where it is with chance switched off.
    ///
    /// # Errors
    /// [`ScenarioError::UnknownBuild`] when there is no such build.
    pub fn typical(&self, build: Option<&str>) -> Result<Box<dyn Recipe>, ScenarioError> {
        let recipe = self.recipe(build)?;
        let held = recipe.draws().iter().map(|draw| (draw.slot, held(draw))).collect();
        Ok(Box::new(Typical { recipe, held }))
    }
}

fn held(draw: &DrawnParameter) -> f64 {
    if draw.law == ANY { draw.off } else { draw.law.median() }
}

impl Recipe for Typical {
    fn draws(&self) -> &[DrawnParameter] {
        &[]
    }
    fn uncertain(&self) -> &[UncertainParameter] {
        &[]
    }
    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        self.recipe.setup(&[&self.held, changes].concat())
    }
}
