//! Bow and arrow of a kind, and what differs between shots of it.

use arrow::{Built, Parts};
use units::Angle;

use crate::Bow;

/// An arrow on its bow, without its faults.
#[derive(Debug, Clone, PartialEq)]
pub struct BowAndArrow {
    /// The bow.
    pub bow: Bow,
    /// The arrow's parts.
    pub parts: Parts,
    /// The arrow as built; its faults do not count.
    pub built: Built,
    /// Roll of the index vane; counts where the shaft has a stiff side.
    pub index: Angle,
}

/// Range of a value that differs from shot to shot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range {
    /// Least.
    pub low: f64,
    /// Greatest.
    pub high: f64,
}

impl Range {
    /// One value alone.
    pub fn only(value: f64) -> Self {
        Self { low: value, high: value }
    }

    /// Whether a value lies inside.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Its middle.
    pub fn middle(&self) -> f64 {
        self.at(0.0)
    }

    /// A value as its place from -1 to 1.
    pub(crate) fn place(&self, value: f64) -> f64 {
        (2.0 * value - self.low - self.high) / (self.high - self.low)
    }

    pub(crate) fn at(&self, place: f64) -> f64 {
        0.5 * (self.low + self.high) + 0.5 * place * (self.high - self.low)
    }
}
