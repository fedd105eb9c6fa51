//! One arrow's flight as a table, CSV or JSON.

use body::{Attitude, State};
use serde_json::Value;
use units::{Mass, Role, Style};

use crate::ReportError;
use crate::csv::Sheet;
use crate::show::plain_number;
use crate::table::{Cell, Column, Table};
use crate::tree::Node;

/// What is shown of a state: name, key, role, SI unit, value.
type Field = (&'static str, &'static str, Role, &'static str, fn(&State, Mass) -> f64);

/// Angles and places are in the line frame; see [`body`] for signs.
const FIELDS: [Field; 12] = [
    ("distance", "distance", Role::Range, "m", |s, _| s.position.x),
    ("time", "time", Role::Time, "s", |s, _| s.time),
    ("left", "left", Role::Impact, "m", |s, _| s.position.y),
    ("up", "up", Role::Impact, "m", |s, _| s.position.z),
    ("speed", "speed", Role::Speed, "m/s", |s, _| s.velocity.norm()),
    ("energy", "energy", Role::Energy, "J", |s, m| 0.5 * m.si() * s.velocity.norm_squared()),
    ("momentum", "momentum", Role::Momentum, "kg m/s", |s, m| m.si() * s.velocity.norm()),
    ("path pitch", "path_pitch", Role::Angle, "rad", |s, _| Attitude::of(&s.velocity).pitch),
    ("yaw", "yaw", Role::Angle, "rad", |s, _| s.attitude().yaw),
    ("pitch", "pitch", Role::Angle, "rad", |s, _| s.attitude().pitch),
    ("angle to path", "angle_to_path", Role::Angle, "rad", |s, _| angle_to_path(s)),
    ("spin", "spin", Role::Spin, "rad/s", |s, _| s.spin),
];

/// The flight as a table for a terminal of `width` characters.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn flight_table(
    states: &[State],
    mass: Mass,
    style: Style,
    width: usize,
) -> Result<String, ReportError> {
    tree(states, mass).write()?;
    let columns = FIELDS.iter().map(|(name, _, role, _, _)| Column::of(*name, *role, style));
    let row = |state: &State| {
        FIELDS.iter().map(|(_, _, role, _, read)| cell(*role, read(state, mass), style)).collect()
    };
    let table = Table { columns: columns.collect(), rows: states.iter().map(row).collect() };
    Ok(table.lines(width))
}

/// A cell; distances keep their decimals.
fn cell(role: Role, si: f64, style: Style) -> Cell {
    match role {
        Role::Range => Cell::text(plain_number(role, si, style)),
        _ => Cell::number(role, si, style),
    }
}

/// The flight as CSV, numbers unrounded.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn flight_csv(states: &[State], mass: Mass, style: Style) -> Result<String, ReportError> {
    tree(states, mass).write()?;
    let mut sheet = Sheet::new(style);
    for (name, _, role, _, _) in FIELDS {
        sheet.head(name, role);
    }
    sheet.end();
    for state in states {
        for (_, _, role, _, read) in FIELDS {
            sheet.number(role, read(state, mass));
        }
        sheet.end();
    }
    Ok(sheet.finish())
}

/// The flight as JSON in SI, a list of states.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn flight_json(states: &[State], mass: Mass) -> Result<Value, ReportError> {
    tree(states, mass).write()
}

fn tree(states: &[State], mass: Mass) -> Node {
    let state = |state: &State| {
        let entry = |(_, key, _, unit, read): &Field| (*key, Node::Number(read(state, mass), unit));
        Node::Map(FIELDS.iter().map(entry).collect())
    };
    Node::Map(vec![("states", Node::list(states, state))])
}

/// Angle between the principal axis and the velocity over the ground, rad.
fn angle_to_path(state: &State) -> f64 {
    // The cross product keeps small angles that an arc cosine would lose.
    state.axis.cross(&state.velocity).norm().atan2(state.axis.dot(&state.velocity))
}
