//! What is refused, and why. Every range here is chosen: wide enough for any
//! arrow, narrow enough to catch a slip of the unit.

mod fault;
mod parts;
pub(crate) mod range;

use crate::{ArrowError, Faults, Layout, Parts};

/// Checks everything that the build relies on.
pub(crate) fn all(parts: &Parts, faults: &Faults, layout: &Layout) -> Result<(), ArrowError> {
    parts::shaft(&parts.shaft)?;
    parts::point(&parts.point)?;
    parts::front(parts)?;
    parts::nock(parts)?;
    parts::tail(parts, faults, layout)?;
    parts::given(parts, layout)?;
    fault::all(parts, faults)
}
