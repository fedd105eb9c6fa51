//! What can be measured of an arrow.

use workbench::{Measured, Spun};

/// What was measured of an arrow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Trait {
    /// Mass.
    Mass,
    /// Balance point.
    Balance,
    /// Static spine.
    Spine,
    /// Stiff side.
    Stiff,
    /// Length.
    Length,
    /// Run-out of the shaft.
    RunOut,
    /// Wobble of the tip.
    Tip,
    /// Wobble of the nock.
    Groove,
}

/// All of them.
pub(crate) const TRAITS: [Trait; 8] = [
    Trait::Mass,
    Trait::Balance,
    Trait::Spine,
    Trait::Stiff,
    Trait::Length,
    Trait::RunOut,
    Trait::Tip,
    Trait::Groove,
];
/// Those that lie at a clock position.
pub(crate) const FAULTS: [Trait; 3] = [Trait::RunOut, Trait::Tip, Trait::Groove];

pub(crate) fn spun(arrow: &Measured, of: Trait) -> Option<Spun> {
    match of {
        Trait::RunOut => arrow.run_out,
        Trait::Tip => arrow.tip,
        Trait::Groove => arrow.groove,
        _ => None,
    }
}

/// Whether an arrow has this reading.
pub(crate) fn has(arrow: &Measured, of: Trait) -> bool {
    match of {
        Trait::Mass => arrow.mass.is_some(),
        Trait::Balance => arrow.balance.is_some(),
        Trait::Spine => arrow.spine.is_some(),
        Trait::Stiff => arrow.stiff.is_some(),
        Trait::Length => arrow.length.is_some(),
        Trait::RunOut | Trait::Tip | Trait::Groove => spun(arrow, of).is_some(),
    }
}
