//! What each measured thing says.

use units::Role;

use crate::Band;

/// Width of what a reading could have been, over its error, below which it says
/// nothing. Chosen: it then moves no band by more than a hundredth.
const SILENT: f64 = 0.2;

/// What was measured, and what it says.
#[derive(Debug, Clone, PartialEq)]
pub struct Told {
    /// Each thing, in the order given.
    pub found: Vec<Evident>,
    /// Sets of values at which all of it was computed.
    pub tried: usize,
}

/// What one thing says.
#[derive(Debug, Clone, PartialEq)]
pub struct Evident {
    /// Its name.
    pub name: String,
    /// Its numbers.
    pub readings: Vec<ReadingFound>,
    /// What became of it.
    pub said: Said,
}

/// One number of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadingFound {
    /// What it is called.
    pub what: &'static str,
    /// What it measures.
    pub role: Role,
    /// As measured, SI.
    pub value: f64,
    /// Its standard error, SI.
    pub error: f64,
    /// What could have been expected before anything was measured.
    pub before: Option<Band>,
    /// What the values left give.
    pub after: Option<Band>,
}

/// What became of a measured thing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Said {
    /// It counts.
    Counts,
    /// Whatever the poorly known values are, it would read much the same.
    Nothing,
    /// No possible value explains it; it was left out.
    Beyond,
    /// It counts, but no value explains it together with the rest.
    Apart,
}

impl ReadingFound {
    /// Whether it could hardly have been anything else.
    pub(super) fn is_silent(&self) -> bool {
        self.before.is_none_or(|Band { low, high }| high - low < SILENT * self.error)
    }
}
