use units::Length;

use crate::Banded;

/// One thing measured: a shift of impact, or a push on the nock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasuredShift {
    /// At which distance; of no account for a push on the nock.
    pub distance: Length,
    /// The shift of impact, or how far the nock gave way, left and up, m.
    pub shift: [f64; 2],
    /// What was done.
    pub how: Moved,
    /// Standard error of each direction of the shift, m; none where it is not
    /// stated: a push then counts as exact, an impact as known to 0.1 mm.
    pub error: Option<f64>,
}

impl MeasuredShift {
    /// The size of the shift, m.
    pub fn size(&self) -> f64 {
        self.shift[0].hypot(self.shift[1])
    }
}

/// What moved impact or nock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moved {
    /// The same arrow, its nock turned by this much, rad, clockwise seen from
    /// the nock; the shift is of the turned one.
    NockTurn(f64),
    /// Its vanes taken off; the shift is of the bare one.
    Bare,
    /// A known force, N, on the nock of the bow at brace, once to the left and
    /// once up; each shift is in its own direction.
    Pushed(f64),
}

/// What was measured says of the string's hold, sideways and up and down.
///
/// The two are found together from all directions of all shifts: an arrow that
/// spins in flight mixes them.
#[derive(Debug, Clone, PartialEq)]
pub struct Pinned {
    /// Of the hold sideways.
    pub left: Held,
    /// Of the hold up and down.
    pub up: Held,
}

/// What was measured says of one hold.
#[derive(Debug, Clone, PartialEq)]
pub enum Held {
    /// A restraint explains it.
    Found {
        /// Restraint over its simple value, with the range that the stated
        /// errors and the other doubts leave.
        restraint: Banded,
        /// Whether some value of a doubt leaves no restraint at all.
        open: bool,
        /// Every restraint that explains it, rising; the one above belongs to
        /// the pair that is nearest to 1.
        all: Vec<f64>,
    },
    /// No restraint explains it.
    Unexplained {
        /// The one that comes nearest.
        restraint: f64,
        /// The shift it makes in this direction, m.
        shift: f64,
        /// That less the measured one, m.
        lack: f64,
    },
    /// Hardly a shift follows from any restraint in this direction, so nothing
    /// is said of it.
    Unfelt,
    /// With no restraint does the arrow get there at all.
    Lost,
}
