//! A step of the sideways motion, told.

use crate::elastic::MOTIONS;

/// Work on the sideways motion so far, J.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Work {
    /// By the thrust along the shaft.
    pub thrust: f64,
    /// By the string's hold.
    pub string: f64,
    /// By the rest.
    pub rest: f64,
    /// By the shaft's own damping; negative.
    pub damping: f64,
    /// By the arrow's weight.
    pub weight: f64,
}

/// Where the arrow is in its sideways motion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Time since release, s.
    pub time: f64,
    /// Way of the nock over the power stroke: 1 at brace, more past it.
    pub travelled: f64,
    /// Speed along the push, m/s.
    pub speed: f64,
    /// Push on the nock, N.
    pub push: f64,
    /// Force of the string on the nock, left and up, N.
    pub string: [f64; 2],
    /// Force of the rest on the shaft, left and up, N.
    pub rest: [f64; 2],
    /// Motions, left and up: place (m), angle (rad), modes (m sqrt(kg)).
    pub(crate) motion: [[f64; MOTIONS]; 2],
    /// Their rates, per second.
    pub(crate) rate: [[f64; MOTIONS]; 2],
    /// Work done so far.
    pub work: Work,
}

impl Frame {
    /// Place of the balance point, left and up, m.
    pub fn place(&self) -> [f64; 2] {
        self.motion.map(|m| m[0])
    }

    /// Angle of the principal axis, left and up, rad.
    pub fn angle(&self) -> [f64; 2] {
        self.motion.map(|m| m[1])
    }

    /// Velocity of the balance point, left and up, m/s.
    pub fn velocity(&self) -> [f64; 2] {
        self.rate.map(|m| m[0])
    }

    /// Rate of the principal axis, left and up, rad/s.
    pub fn turning(&self) -> [f64; 2] {
        self.rate.map(|m| m[1])
    }

    /// Amplitudes of the bending modes, left and up, m sqrt(kg).
    pub fn bending(&self) -> [Vec<f64>; 2] {
        self.motion.map(|m| m[2..].to_vec())
    }
}
