//! Sight marks and the tables that go with them. See `docs/model/sight.md`.

mod answer;
mod change;
mod row;
mod sighted;
mod slope;
mod tables;
mod way;

pub use answer::{
    Arc, ChangeValue, MarkChange, MarkRow, MarksPlan, Obstacle, ObstacleClearance, Passing,
    PointOn, SightMarks, SightPin, Slope, SlopeShot,
};
pub use sighted::{FARTHEST, NEAREST, SightedArrow};

use self::tables::MarkTables;
use crate::sightin::checked;
use crate::variant::Variant;
use crate::{Recipe, StudyError};

/// Computes the marks of a build and every table asked for.
///
/// # Errors
/// [`StudyError`]: distances that do not rise or lie outside [`NEAREST`] to
/// [`FARTHEST`], and flights that fail or fall short.
pub fn marks(recipe: &dyn Recipe, plan: &MarksPlan) -> Result<SightMarks, StudyError> {
    let variant = Variant::new(&plan.build, recipe);
    let marker = SightedArrow::new(recipe, &[], &plan.build)?;
    let zero = marker.setup().sight.zero;
    let distances = inside(&plan.distances)?;
    let places = inside(&plan.places)?;
    let pins = if plan.pins.is_empty() { Vec::new() } else { inside(&plan.pins)? };
    inside(&[zero])?;
    let all = [&distances, &places, &pins].into_iter().flatten().copied();
    let sighting = marker.sighting(all.fold(zero.si(), f64::max))?;
    let bench = MarkTables {
        variant,
        plan,
        zero: zero.si(),
        zero_launch: marker.launch(zero.si())?,
        shots: row::aimed(&marker, &distances)?,
        places: row::aimed(&marker, &places)?,
        marker,
        sighting,
    };
    let pins = bench.pins(&pins)?;
    let point_on = if plan.bare { Some(bench.point_on()?) } else { None };
    Ok(SightMarks {
        rows: bench.rows(&pins, point_on.as_ref())?,
        arcs: bench.arcs()?,
        hills: bench.hills()?,
        changes: bench.changes()?,
        twigs: bench.twigs()?,
        uncertain: variant.uncertain().cloned().collect(),
        pins,
        point_on,
        plan: plan.clone(),
        zero,
        built: bench.marker.noted(),
        departure: *bench.marker.departure(),
        sighting: bench.sighting,
    })
}

/// The distances in m, checked.
fn inside(distances: &[units::Length]) -> Result<Vec<f64>, StudyError> {
    let distances = checked(distances)?;
    match distances.iter().find(|d| !(NEAREST..=FARTHEST).contains(*d)) {
        Some(&value) => {
            Err(StudyError::MarkDistance { value, nearest: NEAREST, farthest: FARTHEST })
        }
        None => Ok(distances),
    }
}
