//! One arrow's flight.

use body::{Attitude, State};
use units::{Mass, Role, Style};

use crate::ReportError;
use crate::document::{Document, Part, table_of};

/// One arrow at each of its marks. Angles and places are in the line frame;
/// see [`body`] for signs.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn flight(states: &[State], mass: Mass, style: Style) -> Result<Document, ReportError> {
    let table = table_of("states", states)
        .quantity("distance", Role::Range, |s| s.position.x)
        .quantity("time", Role::Time, |s| s.time)
        .quantity("left", Role::Impact, |s| s.position.y)
        .quantity("up", Role::Impact, |s| s.position.z)
        .quantity("speed", Role::Speed, |s| s.velocity.norm())
        .quantity("energy", Role::Energy, |s| 0.5 * mass.si() * s.velocity.norm_squared())
        .quantity("momentum", Role::Momentum, |s| mass.si() * s.velocity.norm())
        .quantity("path pitch", Role::Angle, |s| Attitude::of(&s.velocity).pitch)
        .quantity("yaw", Role::Angle, |s| s.attitude().yaw)
        .quantity("pitch", Role::Angle, |s| s.attitude().pitch)
        .quantity("angle to path", Role::Angle, |s| angle_to_path(s))
        .quantity("spin", Role::Spin, |s| s.spin)
        .done();
    Document::new("flight", "", "", vec![Part::Table(table)], style)
}

/// Angle between the principal axis and the velocity over the ground, rad.
fn angle_to_path(state: &State) -> f64 {
    // The cross product keeps small angles that an arc cosine would lose.
    state.axis.cross(&state.velocity).norm().atan2(state.axis.dot(&state.velocity))
}
