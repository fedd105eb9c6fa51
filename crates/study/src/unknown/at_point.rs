//! A recipe with its poorly known values held.

use std::ops::Deref;

use crate::{DrawnParameter, Recipe, Refused, Setup, Slot, UncertainParameter};

/// A recipe at one outer point: nothing of it is poorly known any more. What is
/// drawn, swept or otherwise changed wins over a held value.
pub(crate) struct AtPoint<R> {
    recipe: R,
    values: Vec<(Slot, f64)>,
}

impl<R> AtPoint<R> {
    pub(crate) fn new(recipe: R, values: Vec<(Slot, f64)>) -> Self {
        Self { recipe, values }
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
        &[]
    }

    fn setup(&self, changes: &[(Slot, f64)]) -> Result<Setup, Refused> {
        self.recipe.setup(&[&self.values, changes].concat())
    }

    fn after(&self, steps: &[usize]) -> Option<Box<dyn Recipe>> {
        let after = self.recipe.after(steps)?;
        Some(Box::new(AtPoint::new(after, self.values.clone())))
    }
}
