use units::Role;

use crate::ArrowError;

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
