//! Answers that rest on one recipe alone: marks, and what is done at the bench.

use crate::evidence::{self, Known};
use crate::unknown::{AtPoint, Point, joint};
use crate::{Joint, Recipe, StudyError, Watch};

/// An answer, and the same at every outer point.
pub(crate) type Alone<T> = (T, Option<Box<Joint<T>>>);

/// An answer and what is not known of it: the `whole` of it at the recipe's own values,
/// or at those that go best with what was measured, and `at` every outer point, with
/// the choices that the whole has made.
pub(crate) fn alone<T: Send + Sync>(
    recipe: &dyn Recipe,
    (seed, points): (u64, usize),
    watch: &dyn Watch,
    whole: impl FnOnce(&dyn Recipe) -> Result<T, StudyError>,
    at: impl Fn(&T, &Point) -> Result<T, StudyError> + Sync,
) -> Result<Alone<T>, StudyError> {
    let known = evidence::known(&[recipe], recipe.evidence(), (seed, points), watch)?;
    let Known { sample, drawn, told } = known;
    let centre = Point { sample: &sample, chances: &drawn.centre, number: None };
    let main = if told.is_some() {
        whole(&AtPoint::centred(recipe, centre.values(recipe)))?
    } else {
        whole(recipe)?
    };
    let joint = joint(&sample, &drawn, watch, &|point| at(&main, point))?;
    Ok((main, joint.map(|joint| Box::new(Joint { told, ..joint }))))
}
