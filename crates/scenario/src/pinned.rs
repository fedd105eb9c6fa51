//! A part file: the string's restraints, pinned down.

use std::fmt::Write as _;

use crate::schema::{Id, limits};
use crate::text::{neat, range, unit_of};

/// A part file for `[bow]` that says what was found of the string's restraints,
/// sideways and up, and the range left; `how` tells in a line where it comes
/// from.
///
/// A range that reaches beyond what a scenario may say ends there, and the file
/// says so.
pub fn restraint_part(how: &str, found: [Option<Restrained>; 2]) -> String {
    let mut out = format!("# {how}\n[restraint]\n");
    for (id, found) in [Id::RestraintLeft, Id::RestraintUp].into_iter().zip(found) {
        let Some(Restrained { value, low: left, high: right }) = found else { continue };
        let name = id.path().rsplit('.').next().unwrap_or_default();
        let (least, most) = limits(id);
        let (low, high) = (left.max(least), right.min(most));
        if (low, high) != (left, right) {
            let allowed = range(id, unit_of(units::Dimension::Ratio, "0"));
            let _ = writeln!(out, "# The range left is wider; a scenario may say {allowed}.");
        }
        // A range without width is no doubt.
        let (value, low, high) = (neat(value), neat(low), neat(high));
        let _ = if low == high {
            writeln!(out, "{name} = {value}")
        } else {
            writeln!(out, "{name} = {{ value = {value}, low = {low}, high = {high} }}")
        };
    }
    out
}

/// A restraint and the range left of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Restrained {
    /// The value.
    pub value: f64,
    /// Low end of the range.
    pub low: f64,
    /// High end.
    pub high: f64,
}
