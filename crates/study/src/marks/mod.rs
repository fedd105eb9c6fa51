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
use crate::unknown::joint_of;
use crate::variant::Variant;
use crate::{Quiet, Recipe, StudyError};

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
    let found_pins = bench.pins(&pins)?;
    let point_on = if plan.bare { Some(bench.point_on()?) } else { None };
    let rows = bench.rows(&found_pins, point_on.as_ref())?;
    let mut found = SightMarks {
        rows,
        arcs: bench.arcs()?,
        hills: bench.hills()?,
        changes: bench.changes()?,
        twigs: bench.twigs()?,
        uncertain: variant.uncertain().cloned().collect(),
        pins: found_pins,
        point_on,
        plan: plan.clone(),
        zero,
        built: bench.marker.built().clone(),
        departure: *bench.marker.departure(),
        sighting: bench.sighting.clone(),
        unknown: None,
    };
    // Nothing of a mark is drawn by chance but what is not known.
    let at = |recipe: &dyn Recipe| at_point(recipe, &found, &pins);
    let joint = joint_of(recipe, OUTER_SEED, &Quiet, &at)?;
    if let Some(joint) = joint {
        for (at, row) in found.rows.iter_mut().enumerate() {
            row.travel = joint.banded(row.travel.value, |of| Some(of.rows.get(at)?.travel.value));
        }
        found.unknown = Some(Box::new(joint));
    }
    Ok(found)
}

/// Seed of the outer points of marks, which have no seed of their own. Chosen:
/// any will do.
const OUTER_SEED: u64 = 1;

/// Rows and pins at an outer point, the sight set at the zero anew.
fn at_point(recipe: &dyn Recipe, own: &SightMarks, pins: &[f64]) -> Result<SightMarks, StudyError> {
    let plan = &own.plan;
    let marker = SightedArrow::new(recipe, &[], &plan.build)?;
    let zero = own.zero.si();
    let tables = MarkTables {
        variant: Variant::new(&plan.build, recipe),
        plan,
        zero,
        zero_launch: marker.launch(zero)?,
        shots: row::aimed(&marker, &checked(&plan.distances)?)?,
        places: Vec::new(),
        marker,
        sighting: own.sighting.clone(),
    };
    let pins = tables.pins(pins)?.into_iter().map(|pin| SightPin { twin: None, ..pin });
    let pins: Vec<SightPin> = pins.collect();
    Ok(SightMarks {
        rows: tables.rows(&pins, None)?,
        pins,
        built: tables.marker.built().clone(),
        departure: *tables.marker.departure(),
        point_on: None,
        arcs: Vec::new(),
        hills: Vec::new(),
        changes: Vec::new(),
        twigs: Vec::new(),
        uncertain: Vec::new(),
        unknown: None,
        plan: plan.clone(),
        sighting: own.sighting.clone(),
        zero: own.zero,
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
