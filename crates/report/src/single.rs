//! One built arrow, for the command that shows it.

use serde_json::Value;
use study::OneFlight;
use units::{Role, Style};

use crate::ReportError;
use crate::table::{Cell, Column, Table, wrap};
use crate::tree::Node;

/// What is shown: name, key, role, SI unit, value.
type Field = (&'static str, &'static str, Role, &'static str, fn(&OneFlight) -> f64);

const FIELDS: [Field; 14] = [
    ("mass", "mass", Role::Mass, "kg", |o| o.built.mass.mass().si()),
    ("arrow length", "length", Role::Part, "m", |o| o.built.length.si()),
    ("balance point from groove", "balance", Role::Part, "m", |o| o.built.mass.balance().si()),
    ("front of centre (FOC)", "foc", Role::Percent, "1", |o| o.built.foc.si()),
    ("inertia across the shaft", "inertia_transverse", Role::Inertia, "kg m2", |o| {
        o.built.mass.transverse().si()
    }),
    ("inertia about the shaft", "inertia_axial", Role::Inertia, "kg m2", |o| {
        o.built.mass.axial().si()
    }),
    ("bending stiffness", "stiffness", Role::BendingStiffness, "N m2", |o| o.built.stiffness.si()),
    ("tip from groove", "tip", Role::Part, "m", |o| o.built.layout.tip.si()),
    ("departure speed", "departure_speed", Role::Speed, "m/s", |o| o.departure.speed),
    ("groove off the principal axis", "groove_offset", Role::Gauge, "m", |o| {
        o.built.effects.groove_offset.size()
    }),
    ("balance off the shaft's line", "balance_offset", Role::Gauge, "m", |o| {
        o.built.effects.balance_offset.size()
    }),
    ("shaft to the principal axis", "shaft_tilt", Role::Angle, "rad", |o| {
        o.built.effects.shaft_tilt.size()
    }),
    ("point to the principal axis", "point_tilt", Role::Angle, "rad", |o| {
        o.built.effects.point_tilt.size()
    }),
    ("tip off the principal axis", "tip_offset", Role::Gauge, "m", |o| {
        o.built.effects.tip_offset.size()
    }),
];

/// The built arrow as text for a terminal of `width` characters: what it
/// weighs and measures, what its faults do, and any caution.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn arrow_text(arrow: &OneFlight, style: Style, width: usize) -> Result<String, ReportError> {
    tree(arrow).write()?;
    let row = |(name, _, role, _, read): &Field| {
        vec![Cell::text(*name), Cell::text(role.text(read(arrow), style))]
    };
    let table = Table {
        columns: vec![Column::new("arrow", ""), Column::new("as built", "")],
        rows: FIELDS.iter().map(row).collect(),
    };
    let mut text = table.lines(width);
    for note in &arrow.built.notes {
        text.push('\n');
        for line in wrap(&format!("Note: {}.", note.text(style)), width) {
            text.push_str(&line);
            text.push('\n');
        }
    }
    Ok(text)
}

/// The built arrow as JSON in SI.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn arrow_json(arrow: &OneFlight) -> Result<Value, ReportError> {
    tree(arrow).write()
}

fn tree(arrow: &OneFlight) -> Node {
    let mut nodes: Vec<_> = FIELDS
        .iter()
        .map(|(_, key, _, unit, read)| (*key, Node::Number(read(arrow), unit)))
        .collect();
    let notes = &arrow.built.notes;
    nodes.push(("notes", Node::list(notes, |note| Node::Text(note.text(Style::default())))));
    Node::Map(nodes)
}
