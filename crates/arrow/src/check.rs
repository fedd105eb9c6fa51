//! What is refused, and why. Every range here is chosen: wide enough for any
//! arrow, narrow enough to catch a slip of the unit.

mod fault;
mod parts;

use units::Role;

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

/// Refuses a value outside its range, and anything that is not a number.
pub(crate) fn range(
    what: &'static str,
    role: Role,
    value: f64,
    low: f64,
    high: f64,
) -> Result<(), ArrowError> {
    if (low..=high).contains(&value) {
        Ok(())
    } else {
        Err(ArrowError::OutOfRange { what, role, value, low, high })
    }
}
