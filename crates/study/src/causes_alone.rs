//! Where a cause is flown alone.

/// Where groups with one cause alone are flown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum CausesAlone {
    /// At the outer points too.
    #[default]
    Everywhere,
    /// At the usual values alone: for an answer that prints no band of them.
    AtUsualValues,
    /// Nowhere.
    Nowhere,
}

impl CausesAlone {
    /// The same at an outer point.
    pub(crate) fn at_point(self) -> Self {
        if self == Self::AtUsualValues { Self::Nowhere } else { self }
    }
}
