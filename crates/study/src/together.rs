//! All poorly known values at once: how often a comparison comes out one way.
//!
//! A band says how far a number may be off. Whether one of two numbers is the
//! larger it does not say, since what moves one moves the other. So the outer
//! sample is drawn, and the comparison is made anew at each of its points.

use crate::unknown::{AtPoint, drawn};
use crate::variant::Variant;
use crate::{Band, Banded, Recipe, StudyError};

/// Points. Chosen: a share of a half is then known within 0.06, finer than the
/// words that are made of it.
pub(crate) const DRAWS: usize = 64;
/// Points where many values are looked at.
pub(crate) const FEW: usize = 32;
/// Seed of the points. Chosen: any will do.
const SEED: u64 = 13;

/// A recipe with all its poorly known values held at one point.
pub(crate) type Together<'a> = AtPoint<&'a dyn Recipe>;

/// A build at so many points; at one where nothing is poorly known.
pub(crate) fn together<'a>(
    variant: &Variant<'a>,
    points: usize,
) -> Result<Vec<Together<'a>>, StudyError> {
    let points = if variant.recipe.uncertain().is_empty() { points.min(1) } else { points };
    drawn(variant.recipe, (SEED, points))
}

/// The share of what is known in which something holds; none where nothing is.
pub(crate) fn share(holds: impl Iterator<Item = bool>) -> Option<f64> {
    let (held, all) =
        holds.fold((0_u32, 0_u32), |(held, all), one| (held + u32::from(one), all + 1));
    (all > 0).then(|| f64::from(held) / f64::from(all))
}

/// A number with its band over the points.
pub(crate) fn spread(value: f64, drawn: &[f64]) -> Banded {
    let all: Vec<(f64, f64)> = drawn.iter().map(|of| (*of, 1.0)).collect();
    let band = Band::of(&all).map(|band| band.about(value));
    let Band { low, high } = band.unwrap_or(Band { low: value, high: value });
    Banded { value, low, high }
}
