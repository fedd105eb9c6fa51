//! Whose doing a value is, how often it is drawn, and where its centre lies.

use std::f64::consts::{PI, TAU};

use study::{Law, Owner, Per};

use crate::entry::Value;
use crate::schema::{Id, inside, limits};

/// How often a value is drawn unless the file says.
pub(crate) fn default_per(id: Id) -> Per {
    let path = id.path();
    if ["archer", "bow.release", "wind", "air"].iter().any(|table| inside(path, table)) {
        Per::Shot
    } else {
        Per::Arrow
    }
}

/// The law of a clock position that may be anywhere.
pub(crate) const ANY: Law = Law::Uniform { low: 0.0, high: TAU };

/// A clock position that may be anywhere.
pub(crate) fn any_clock(id: Id) -> Value {
    Value::Drawn { law: ANY, per: default_per(id) }
}

/// Whose doing a value is.
pub(crate) fn owner(id: Id) -> Owner {
    use Owner::{Archer, Bow, FrontEnd, NockEnd, Shaft, Vanes, Weather, Weights};
    const OWNERS: &[(&str, Owner)] = &[
        ("arrow.index", NockEnd),
        ("arrow.shaft.density", Weights),
        ("arrow.shaft", Shaft),
        ("arrow.point.mass", Weights),
        ("arrow.point", FrontEnd),
        ("arrow.insert.mass", Weights),
        ("arrow.insert", FrontEnd),
        ("arrow.outsert.mass", Weights),
        ("arrow.outsert", FrontEnd),
        ("arrow.collar.mass", Weights),
        ("arrow.collar", FrontEnd),
        ("arrow.nock.mass", Weights),
        ("arrow.nock", NockEnd),
        ("arrow.vanes.mass", Weights),
        ("arrow.vanes", Vanes),
        ("arrow.wrap", Weights),
        ("arrow.given", Weights),
        ("faults.point_end", FrontEnd),
        ("faults.insert_face", FrontEnd),
        ("faults.point_cant", FrontEnd),
        ("faults.tip_runout", FrontEnd),
        ("faults.point_offset", FrontEnd),
        ("faults.nock_end", NockEnd),
        ("faults.nock_cant", NockEnd),
        ("faults.nock_offset", NockEnd),
        ("faults.groove_offset", NockEnd),
        ("faults.wall_offset", Shaft),
        ("faults.bend", Shaft),
        ("faults.vane", Vanes),
        ("archer", Archer),
        ("sight", Archer),
        ("range.shot_angle", Archer),
        ("range.release_height", Archer),
        ("bow.release", Archer),
        ("bow", Bow),
        ("departure", Bow),
    ];
    let path = id.path();
    let found = OWNERS.iter().find(|(table, _)| inside(path, table));
    found.map_or(Weather, |(_, owner)| *owner)
}

/// The centre of a law.
pub(crate) fn centre(law: &Law) -> f64 {
    match *law {
        Law::Normal { mean, .. } | Law::NormalWithin { mean, .. } => mean,
        Law::Uniform { low, high } => f64::midpoint(low, high),
        Law::RayleighUpTo { .. } => law.at(0.5),
        // The mean of a Rayleigh law.
        Law::Rayleigh { scale } => scale * (PI / 2.0).sqrt(),
    }
}

/// A drawn value's own when its cause is switched off: zero for what the
/// archer or a fault adds.
pub(crate) fn off(id: Id, law: &Law) -> f64 {
    let added = inside(id.path(), "faults") || inside(id.path(), "archer");
    let (low, high) = limits(id);
    if added && (low..=high).contains(&0.0) { 0.0 } else { centre(law) }
}
