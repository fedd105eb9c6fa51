//! What the shares of a spread are.

use arrow::Built;
use target::{Estimate, Group};
use units::Length;

use crate::Owner;

/// Along which axis a spread is shared out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Axis {
    /// Left and up together: the sum of both variances.
    Both,
    /// Sideways.
    Left,
    /// Up and down.
    Up,
    /// The distance from the group's centre.
    Radius,
}

impl Axis {
    /// Every axis, in the order of [`MarkShares::axes`].
    pub const ALL: [Self; 4] = [Self::Both, Self::Left, Self::Up, Self::Radius];
}

/// One cause of spread: drawn values that are one thing, such as the size of a
/// fault and its clock position.
#[derive(Debug, Clone, PartialEq)]
pub struct Faulty {
    /// Dotted key, or the table that its keys share.
    pub name: String,
    /// Whose doing it is.
    pub owner: Owner,
}

/// What one cause, or one owner's causes together, have of a variance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// On its own: the first-order index.
    pub alone: Estimate,
    /// With everything it has a part in: the total index.
    pub total: Estimate,
}

/// The shares of a spread along one axis.
#[derive(Debug, Clone, PartialEq)]
pub struct SharesOf {
    /// Standard deviation along the axis, m; of both, the root of the summed
    /// variances.
    pub sigma: f64,
    /// By cause.
    pub causes: Vec<Share>,
    /// By owner.
    pub owners: Vec<Share>,
    /// Sum of the causes' first-order shares.
    pub sum: Estimate,
    /// Share of causes that work together: half of what their total shares
    /// are above their first-order shares; exact where they work in pairs.
    pub together: Estimate,
    /// What is left: sampling, and causes that work by threes and more.
    pub unexplained: Estimate,
}

/// The shares at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct MarkShares {
    /// Distance.
    pub distance: Length,
    /// The group.
    pub group: Group,
    /// By axis, as in [`Axis::ALL`]; none where nothing spreads.
    pub axes: [Option<SharesOf>; 4],
}

/// One group and who owns its spread.
#[derive(Debug, Clone, PartialEq)]
pub struct Spread {
    /// The causes.
    pub causes: Vec<Faulty>,
    /// The owners that have a cause.
    pub owners: Vec<Owner>,
    /// Flights flown.
    pub flights: usize,
    /// Widest half-width of any share's interval.
    pub widest: f64,
    /// By distance.
    pub marks: Vec<MarkShares>,
}

/// The shares of one build.
#[derive(Debug, Clone, PartialEq)]
pub struct MattersBuild {
    /// Name.
    pub name: String,
    /// The nominal arrow.
    pub built: Built,
    /// Archer and arrows together.
    pub full: Spread,
    /// The same from a machine without form error; none where the archer
    /// makes no part of the spread, or all of it.
    pub machine: Option<Spread>,
}

impl MattersBuild {
    /// The group of the archer and that of the machine, as far as it is there.
    pub fn spreads(&self) -> impl Iterator<Item = &Spread> {
        std::iter::once(&self.full).chain(&self.machine)
    }
}

/// Whose share of the spread is how large.
#[derive(Debug, Clone, PartialEq)]
pub struct Matters {
    /// Half-width asked for.
    pub within: f64,
    /// The builds.
    pub builds: Vec<MattersBuild>,
}
