//! What the tables of marks share.

use sight::Sighting;

use super::{MarksPlan, SightedArrow};
use crate::variant::Variant;

/// What every table starts from.
pub(super) struct MarkTables<'a> {
    pub(super) variant: Variant<'a>,
    pub(super) plan: &'a MarksPlan,
    pub(super) marker: SightedArrow,
    pub(super) sighting: Sighting,
    /// The zero, m, and the launch angle for it, rad.
    pub(super) zero: f64,
    pub(super) zero_launch: f64,
    /// Distances of the marks, m, and launch angles, rad.
    pub(super) shots: Vec<(f64, f64)>,
    /// The same for the fewer distances.
    pub(super) places: Vec<(f64, f64)>,
}
