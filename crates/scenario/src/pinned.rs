//! A part file with one value in it: the string's restraint, pinned down.

use std::fmt::Write as _;

use crate::schema::{Id, limits};
use crate::text::{neat, range, unit_of};

/// A part file for `[bow]` that says the restraint of the string and the range
/// left; `how` tells in a line where it comes from.
///
/// A range that reaches beyond what a scenario may say ends there, and the file
/// says so.
pub fn restraint_part(how: &str, restraint: f64, left: (f64, f64)) -> String {
    let id = Id::BowRestraint;
    let name = id.path().rsplit('.').next().unwrap_or_default();
    let (least, most) = limits(id);
    let (low, high) = (left.0.max(least), left.1.min(most));
    let mut out = format!("# {how}\n");
    if (low, high) != left {
        let allowed = range(id, unit_of(units::Dimension::Ratio, "0"));
        let _ = writeln!(out, "# The range left is wider; a scenario may say {allowed}.");
    }
    // A range without width is no doubt.
    let (value, low, high) = (neat(restraint), neat(low), neat(high));
    let _ = if low == high {
        writeln!(out, "{name} = {value}")
    } else {
        writeln!(out, "{name} = {{ value = {value}, low = {low}, high = {high} }}")
    };
    out
}
