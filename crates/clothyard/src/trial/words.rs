//! What both halves of a trial name.

use crate::failure::Failure;

/// Files of a trial's folder.
pub(super) const PLAN: &str = "plan.csv";
pub(super) const KEY: &str = "key.csv";
pub(super) const SHOTS: &str = "shots.csv";
pub(super) const SPREADS: &str = "spreads.csv";

/// A quantity of an option.
pub(super) fn quantity<Q: units::Quantity>(option: &'static str, text: &str) -> Result<Q, Failure> {
    units::parse(text.trim()).map_err(|cause| Failure::Size {
        option,
        text: text.to_owned(),
        cause,
    })
}
