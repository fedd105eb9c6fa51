//! How far the poorly known values move a number.

use crate::{Banded, Recipe, StudyError};

use super::lane::Lane;

/// Lanes with one doubt at the lower and at the upper end of its range; none
/// where the bow then makes no push.
pub(crate) type Ends = Vec<[Option<Lane>; 2]>;

/// A lane for both ends of every doubt that is not drawn anyway.
pub(crate) fn ends(recipe: &dyn Recipe, distances: &[f64]) -> Result<Ends, StudyError> {
    let drawn = |slot| recipe.draws().iter().any(|draw| draw.slot == slot);
    let mut ends = Vec::new();
    for doubt in recipe.doubts().iter().filter(|doubt| !drawn(doubt.slot)) {
        let mut pair = [None, None];
        for (lane, value) in pair.iter_mut().zip([doubt.low, doubt.high]) {
            *lane = match Lane::new(recipe, distances, Some((doubt.slot, value))) {
                Ok(lane) => Some(lane),
                Err(StudyError::Launch { .. } | StudyError::OutOfReach { .. }) => None,
                Err(error) => return Err(error),
            };
        }
        ends.push(pair);
    }
    Ok(ends)
}

/// Numbers with their bands: the same numbers read from each end's lane, the
/// changes of all doubts added as the root of the sum of squares.
pub(crate) fn bands(
    main: &[f64],
    ends: &Ends,
    read: &(dyn Fn(&Lane) -> Result<Vec<f64>, StudyError> + Sync),
) -> Result<Vec<Banded>, StudyError> {
    let (mut below, mut above) = (vec![0.0; main.len()], vec![0.0; main.len()]);
    for pair in ends {
        let (mut least, mut most) = (vec![0.0_f64; main.len()], vec![0.0_f64; main.len()]);
        for lane in pair.iter().flatten() {
            for (at, value) in read(lane)?.into_iter().enumerate() {
                least[at] = least[at].min(value - main[at]);
                most[at] = most[at].max(value - main[at]);
            }
        }
        for at in 0..main.len() {
            below[at] += least[at] * least[at];
            above[at] += most[at] * most[at];
        }
    }
    let one = |at: usize| Banded {
        value: main[at],
        // A size does not fall below zero.
        low: (main[at] - below[at].sqrt()).max(0.0),
        high: main[at] + above[at].sqrt(),
    };
    Ok((0..main.len()).map(one).collect())
}
