//! Where the moving parts of a bow are, and what moves with its string.

/// A bowstring.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Twine {
    /// Half its length, m.
    pub half: f64,
    /// Mass of all of it, kg.
    pub mass: f64,
    /// Mass fixed to it at the nock, kg.
    pub nocking: f64,
    /// Stiffness: force over strain, N.
    pub stiffness: f64,
}

impl Twine {
    /// What moves with the nock: each half as a straight bar gives a third of
    /// its mass.
    pub(crate) fn at_nock(&self) -> f64 {
        self.mass / 3.0 + self.nocking
    }
}

/// Where the parts of a bow are and how fast they move: nock behind hinges or
/// axles (m), limb or cam (rad), limb tip of a compound (m).
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pose {
    pub(crate) place: [f64; 3],
    pub(crate) rate: [f64; 3],
}

/// What a bow does in a pose.
pub(crate) struct StringPush {
    pub(crate) acceleration: [f64; 3],
    /// Tension of the string, N.
    pub(crate) tension: f64,
}
