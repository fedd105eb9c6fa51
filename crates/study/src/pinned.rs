use units::Length;

use crate::Banded;

/// One measured shift of impact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured {
    /// At which distance.
    pub distance: Length,
    /// The shift, left and up, m.
    pub shift: [f64; 2],
    /// What was done.
    pub how: Moved,
}

/// What moved the impact.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Moved {
    /// The same arrow, its nock turned by this much, rad, clockwise seen from
    /// the nock; the shift is of the turned one.
    NockTurn(f64),
    /// Its vanes taken off; the shift is of the bare one.
    Bare,
}

/// What a measured shift says of the string's restraint.
#[derive(Debug, Clone, PartialEq)]
pub enum Pinned {
    /// A restraint explains it.
    Found {
        /// Restraint over its simple value, with the range that the other
        /// doubts leave.
        restraint: Banded,
        /// Whether some value of a doubt leaves no restraint at all.
        open: bool,
        /// How far the computed shift lies to the side of the measured one,
        /// m; positive clockwise of it, seen from the archer.
        side: f64,
        /// Every restraint that explains it, rising; the one above lies
        /// nearest the measured direction.
        all: Vec<f64>,
    },
    /// No restraint explains it.
    Unexplained {
        /// The one that comes nearest.
        restraint: f64,
        /// The shift it makes, left and up, m.
        shift: [f64; 2],
        /// The part of that along the measured shift, less the measured one,
        /// m.
        lack: f64,
    },
    /// With no restraint does the arrow get there at all.
    Lost,
}
