//! What a bench step holds besides what it changes.

use units::Dimension;

use super::Column;
use super::make::column;

/// A key of `[[step]]`.
pub(crate) struct StepKey {
    pub(crate) column: Column,
    /// Its default, as it would be written.
    pub(crate) usual: &'static str,
    pub(crate) source: &'static str,
    pub(crate) doc: &'static str,
}

/// The key of a step's name.
pub(crate) const STEP_NAME: &str = "name";

/// How long it takes.
pub(crate) static STEP_TIME: StepKey = StepKey {
    column: column("time", Dimension::Time, "0.5 min", "6000 min"),
    usual: "20 min",
    source: "chosen: under two minutes an arrow",
    doc: "How long it takes for a dozen arrows.",
};

/// What it costs.
pub(crate) static STEP_COST: StepKey = StepKey {
    column: column("cost", Dimension::Ratio, "0", "1000000"),
    usual: "0",
    source: "chosen: nothing but time",
    doc: "What it costs for a dozen arrows, in your own money.",
};
