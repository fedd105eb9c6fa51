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
use crate::alone::alone;
use crate::sightin::checked;
use crate::variant::Variant;
use crate::{OUTER_POINTS, QUICK_POINTS, Quiet, Recipe, StudyError};

/// Computes the marks of a build and every table asked for.
///
/// # Errors
/// [`StudyError`]: distances that do not rise or lie outside [`NEAREST`] to
/// [`FARTHEST`], and flights that fail or fall short.
pub fn marks(recipe: &dyn Recipe, plan: &MarksPlan) -> Result<SightMarks, StudyError> {
    // Nothing of a mark is drawn by chance but what is not known.
    let (mut found, joint) = alone(
        recipe,
        (OUTER_SEED, OUTER_POINTS),
        &Quiet,
        |recipe| at_values(recipe, plan, true),
        |_, point| at_values(&point.of(recipe), plan, point.is_first(QUICK_POINTS)),
    )?;
    if let Some(joint) = &joint {
        for (at, row) in found.rows.iter_mut().enumerate() {
            row.travel = joint.banded(row.travel.value, |of| Some(of.rows.get(at)?.travel.value));
        }
    }
    found.unknown = joint;
    Ok(found)
}

/// Seed of the outer points of marks, which have no seed of their own. Chosen:
/// any will do.
const OUTER_SEED: u64 = 1;

/// The marks with the poorly known values as the recipe has them, the sight set at
/// the zero; without `whole` rows and pins alone, of which every outer point tells.
/// The other tables take as long as all rows together, so the first points must do
/// for them.
fn at_values(recipe: &dyn Recipe, plan: &MarksPlan, whole: bool) -> Result<SightMarks, StudyError> {
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
    let found_pins = bench.pins(&pins)?;
    let point_on = if plan.bare && whole { Some(bench.point_on()?) } else { None };
    Ok(SightMarks {
        rows: bench.rows(&found_pins, point_on.as_ref())?,
        arcs: if whole { bench.arcs()? } else { Vec::new() },
        hills: if whole { bench.hills()? } else { Vec::new() },
        changes: if whole { bench.changes()? } else { Vec::new() },
        twigs: if whole { bench.twigs()? } else { Vec::new() },
        uncertain: variant.uncertain().cloned().collect(),
        pins: found_pins,
        point_on,
        plan: plan.clone(),
        zero,
        built: bench.marker.built().clone(),
        departure: *bench.marker.departure(),
        sighting: bench.sighting.clone(),
        unknown: None,
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
