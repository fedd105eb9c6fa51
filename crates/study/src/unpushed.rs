//! A shot before its push.

use arrow::Built;
use launch::Shot;

use crate::Setup;

/// A shot without its departure.
pub(crate) struct Unpushed {
    pub(crate) setup: Setup,
    pub(crate) built: Built,
    /// Values of the slots.
    pub(crate) values: Vec<f64>,
    /// Which of the arrows it is.
    pub(crate) arrow: usize,
}

impl Unpushed {
    /// Whether another shot is pushed in the same way.
    pub(crate) fn is_pushed_as(&self, other: &Self) -> bool {
        self.setup.form == other.setup.form && self.setup.is_pushed_as(&other.setup)
    }

    pub(crate) fn shot(&self) -> Shot<'_> {
        let Setup { parts, bow, form, departure, index, .. } = &self.setup;
        Shot { bow, parts, built: &self.built, index: *index, form, given: departure }
    }
}

impl Setup {
    /// Whether another one is pushed in the same way, by an archer who aims and
    /// releases in the same way.
    pub(crate) fn is_pushed_as(&self, other: &Self) -> bool {
        self.form.speed == other.form.speed
            && self.faults == other.faults
            && self.index == other.index
            && self.parts == other.parts
            && self.bow == other.bow
            && self.departure == other.departure
    }
}
