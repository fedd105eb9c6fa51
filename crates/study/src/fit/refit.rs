use units::{Length, Ratio, Speed};

use super::{Fitted, Sought};
use crate::{DrawnParameter, Recipe, Refused, Setup, Slot, UncertainParameter};

impl Sought {
    /// Puts a value, SI, into a setup.
    pub(crate) fn put(self, setup: &mut Setup, value: f64) {
        match self {
            Self::Speed => setup.departure.speed = Some(Speed::from_si(value)),
            Self::Drag => {
                setup.aero.given.drag = Some(Ratio::from_si(value));
                setup.aero.given.deceleration = None;
            }
            Self::Radius => setup.sight.radius = Length::from_si(value),
            Self::Height => setup.sight.height = Length::from_si(value),
        }
    }
}

/// A recipe with some values in place of its own.
pub struct Refit<'a> {
    recipe: &'a dyn Recipe,
    values: Vec<(Sought, f64)>,
}

impl<'a> Refit<'a> {
    /// A recipe with values, SI; later ones win.
    pub fn new(recipe: &'a dyn Recipe, values: Vec<(Sought, f64)>) -> Self {
        Self { recipe, values }
    }

    /// A recipe with what was fitted.
    pub fn of(recipe: &'a dyn Recipe, fitted: &Fitted) -> Self {
        Self::new(recipe, fitted.values.iter().map(|fit| (fit.what, fit.value)).collect())
    }
}

impl Recipe for Refit<'_> {
    fn draws(&self) -> &[DrawnParameter] {
        self.recipe.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        self.recipe.uncertain()
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        let mut setup = self.recipe.setup(changes)?;
        for &(what, value) in &self.values {
            what.put(&mut setup, value);
        }
        Ok(setup)
    }
}
