//! The pictures of every answer, filled as plain data.

mod causes;
mod drop;
mod face;
mod faces;
mod groups;
mod hits;
mod power;
mod sweep;
pub(crate) mod workbench;

use draw::{Axis, Ends};
use units::{Role, Style};

use crate::show;

pub(crate) use causes::draw as causes;
pub(crate) use drop::draw as drop;
pub(crate) use face::{draw as face, scale as face_scale};
pub(crate) use faces::draw as faces;
pub(crate) use groups::draw as groups;
pub(crate) use hits::draw as hits;
pub(crate) use power::draw as power;
pub(crate) use sweep::draw as sweep;

/// The axis of distances, with a label at each.
pub(crate) fn distances(of: impl IntoIterator<Item = f64>, ends: Ends, style: Style) -> Axis {
    let place = |si| Role::Range.value(si, style);
    let labels = of.into_iter().map(|si| (place(si), show::significant(place(si)))).collect();
    Axis::new(format!("distance, {}", Role::Range.symbol(style)), ends).at(labels)
}

/// The title of an axis: what it shows, and the unit of its role.
pub(crate) fn title(what: &str, role: Role, style: Style) -> String {
    format!("{what}, {}", role.symbol(style))
}
