use std::f64::consts::PI;

use units::{Angle, Role};

use super::range::range;
use crate::{ArrowError, Bend, Faults, Lean, Parts, Shift};

/// Largest angle of a fault, rad (10 degrees). Chosen: up to here the small
/// angles that the sums use are right to 1 %.
const STEEPEST: f64 = PI / 18.0;

pub(super) fn all(parts: &Parts, faults: &Faults) -> Result<(), ArrowError> {
    lean("error of the shaft's front end", &faults.point_end)?;
    lean("error of the insert's face", &faults.insert_face)?;
    lean("cant of the point", &faults.point_cant)?;
    lean("error of the shaft's rear end", &faults.nock_end)?;
    lean("cant of the nock", &faults.nock_cant)?;
    // Nothing sits further off centre than the shaft is thick.
    let outside = parts.shaft.outside.si();
    shift("offset of the point", &faults.point_offset, outside)?;
    shift("offset of the nock", &faults.nock_offset, outside)?;
    shift("offset of the groove", &faults.groove_offset, outside)?;
    shift("offset of the shaft's mass", &faults.wall_offset, outside)?;
    if let Some(bend) = &faults.bend {
        self::bend(bend, parts.shaft.length.si())?;
    }
    let vane = &faults.vane;
    range("angle error of the vane", Role::Angle, vane.angle.si(), -STEEPEST, STEEPEST)?;
    // A vane cannot pass its neighbour; without vanes nothing turns.
    let spacing = parts.vanes.map_or(PI, |vanes| 2.0 * PI / f64::from(vanes.count));
    range("turn of the vane round the shaft", Role::Angle, vane.around.si(), -spacing, spacing)?;
    range("move of the vane along the shaft", Role::Part, vane.forward.si(), -2.0, 2.0)
}

fn lean(what: &'static str, lean: &Lean) -> Result<(), ArrowError> {
    range(what, Role::Angle, lean.angle.si(), -STEEPEST, STEEPEST)?;
    clock(what, lean.clock)
}

fn shift(what: &'static str, shift: &Shift, most: f64) -> Result<(), ArrowError> {
    range(what, Role::Gauge, shift.offset.si(), -most, most)?;
    clock(what, shift.clock)
}

fn bend(bend: &Bend, length: f64) -> Result<(), ArrowError> {
    range("bow of the shaft", Role::Gauge, bend.bow.si(), -0.2, 0.2)?;
    range("span of the bow", Role::Part, bend.span.si(), 0.01, 2.0)?;
    clock("bend of the shaft", bend.clock)?;
    // Chosen: a tenth keeps the end slopes below 22 degrees and the parabola
    // near the arc.
    let (ratio, limit) = (length / bend.span.si(), length / 10.0);
    let bow = bend.bow.si().abs() * ratio * ratio;
    if bow > limit { Err(ArrowError::Bend { bow, limit }) } else { Ok(()) }
}

fn clock(what: &'static str, clock: Angle) -> Result<(), ArrowError> {
    let value = clock.si();
    if value.is_finite() { Ok(()) } else { Err(ArrowError::Clock { what, value }) }
}
