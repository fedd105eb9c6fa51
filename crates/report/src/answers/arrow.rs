//! One built arrow.

use study::OneFlight;
use units::{Role, Style};

use crate::ReportError;
use crate::document::{Cell, Document, Part, facts, note};

/// What the arrow weighs and measures, what its faults do, and any caution.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn arrow(arrow: &OneFlight, style: Style) -> Result<Document, ReportError> {
    let (built, mass) = (&arrow.built, &arrow.built.mass);
    let effects = &built.effects;
    let shaft = built.layout.shaft_front.si() - built.layout.shaft_rear.si();
    let rows = [
        ("mass", Role::Mass, mass.mass().si()),
        ("arrow, groove to end", Role::Part, built.length.si()),
        ("shaft, end to end", Role::Part, shaft),
        ("balance point from groove", Role::Part, mass.balance().si()),
        ("front of centre (FOC)", Role::Percent, built.foc.si()),
        ("inertia across the shaft", Role::Inertia, mass.transverse().si()),
        ("inertia about the shaft", Role::Inertia, mass.axial().si()),
        ("bending stiffness", Role::BendingStiffness, built.stiffness.si()),
        ("tip from groove", Role::Part, built.layout.tip.si()),
        ("departure speed", Role::Speed, arrow.departure.speed),
        ("groove off the principal axis", Role::Gauge, effects.groove_offset.size()),
        ("balance off the shaft's line", Role::Gauge, effects.balance_offset.size()),
        ("shaft to the principal axis", Role::Angle, effects.shaft_tilt.size()),
        ("point to the principal axis", Role::Angle, effects.point_tilt.size()),
        ("tip off the principal axis", Role::Gauge, effects.tip_offset.size()),
    ];
    let rows = rows.map(|(name, role, si)| (name, Cell::Quantity(role, si)));
    let table = facts("arrow", ["arrow", "as built"], rows);
    let mut parts = vec![Part::Table(table)];
    parts.extend(built.notes.iter().map(|of| note(format!("Note: {}.", of.text(style)))));
    Document::new("arrow", "", "", parts, style)
}
