//! What was found for square ends alone. SI.

use target::Estimate;

use crate::{Seen, Shots};

/// What the ends do on their own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// The front end of the base build.
    pub front: Lever,
    /// Its nock end.
    pub nock: Lever,
    /// The base against the first other build; none where there is no other.
    pub alone: Option<EndsAlone>,
}

/// Two builds whose arrows have no faults but those of their ends, at the
/// farthest distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndsAlone {
    /// R50 of the base from a machine, m.
    pub base_r50: Estimate,
    /// R50 of the other from a machine, m.
    pub other_r50: Estimate,
    /// Sigma of the base over sigma of the other, from a machine; none when
    /// only the other's group is a point.
    pub machine_ratio: Option<Estimate>,
    /// The same from the archer, the variance of form added to that of the
    /// ends.
    pub archer_ratio: Option<Estimate>,
    /// Shots with each build until a machine can tell.
    pub machine_shots: Shots,
    /// Shots with each build until the archer can tell.
    pub archer_shots: Shots,
    /// The verdict.
    pub seen: Seen,
}

/// What the drawn faults of one end do to an arrow before it is shot, each the
/// median over the arrows, and how far its fit lets it go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lever {
    /// Groove, where the string pushes, off the principal axis, m.
    pub groove_offset: f64,
    /// Balance point off the shaft's line, m.
    pub balance_offset: f64,
    /// Rear shaft tilted to the principal axis, rad.
    pub shaft_tilt: f64,
    /// Point tilted to the principal axis, rad.
    pub point_tilt: f64,
    /// How far the fit lets the part in that end of the shaft lean, rad; none
    /// where nothing limits it.
    pub lean_limit: Option<f64>,
}
