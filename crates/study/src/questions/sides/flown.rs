//! A build whose groups were flown.

use target::Round;
use units::Length;

use super::bare::Bare;
use crate::group_cache::Columns;

/// One build, its groups flown.
pub(super) struct Flown {
    pub(super) full: Columns,
    pub(super) machine: Columns,
    pub(super) shaft: Length,
    pub(super) bare: Bare,
    /// On a face: the total of a round at each distance.
    pub(super) rounds: Vec<Round>,
}
