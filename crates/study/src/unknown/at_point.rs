//! A recipe with its poorly known values held.

use std::ops::Deref;

use crate::{Correlated, DrawnParameter, Recipe, Refused, Setup, Slot, UncertainParameter};

/// A recipe at one outer point: nothing of it is poorly known any more, unless it is
/// only moved there. What is drawn, swept or otherwise changed wins over a held value.
pub(crate) struct AtPoint<R> {
    recipe: R,
    values: Vec<(Slot, f64)>,
    held: bool,
}

impl<R> AtPoint<R> {
    pub(crate) fn new(recipe: R, values: Vec<(Slot, f64)>) -> Self {
        Self { recipe, values, held: true }
    }

    /// The recipe moved to values that are known no better.
    pub(crate) fn centred(recipe: R, values: Vec<(Slot, f64)>) -> Self {
        Self { recipe, values, held: false }
    }
}

impl<R> Recipe for AtPoint<R>
where
    R: Deref<Target: Recipe> + Sync + Send,
{
    fn draws(&self) -> &[DrawnParameter] {
        self.recipe.draws()
    }

    fn uncertain(&self) -> &[UncertainParameter] {
        if self.held { &[] } else { self.recipe.uncertain() }
    }

    fn choices(&self) -> &[Slot] {
        self.recipe.choices()
    }

    fn correlated(&self) -> &[Correlated] {
        self.recipe.correlated()
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        self.recipe.setup(&[&self.values, changes].concat())
    }

    fn after(&self, steps: &[usize]) -> Option<Box<dyn Recipe>> {
        let after = self.recipe.after(steps)?;
        let Self { values, held, .. } = self;
        Some(Box::new(AtPoint { recipe: after, values: values.clone(), held: *held }))
    }
}
