use std::fmt::Debug;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// Most numbers side by side on any processor.
pub const LANES_MAX: usize = 8;

/// A number the equations can be written over: `f64`, or a lane of several.
///
/// Products are added up by [`Number::mul_add`], rounded once, in every kind of
/// number, so that results do not depend on the processor. Where the processor
/// cannot do that in one operation it is slow, not different.
pub trait Number:
    Copy
    + Debug
    + Add<Output = Self>
    + Sub<Output = Self>
    + Mul<Output = Self>
    + Div<Output = Self>
    + Neg<Output = Self>
    + Send
    + Sync
{
    /// A constant of the same kind of number.
    #[must_use]
    fn same(self, value: f64) -> Self;
    /// `self * factor + term`, rounded once.
    #[must_use]
    fn mul_add(self, factor: Self, term: Self) -> Self;
    /// Square root; not a number below zero.
    #[must_use]
    fn sqrt(self) -> Self;
    /// Natural logarithm; not a number below zero.
    #[must_use]
    fn ln(self) -> Self;
    /// Sine and cosine of an angle in rad.
    #[must_use]
    fn sin_cos(self) -> (Self, Self);
    /// The larger; not a number if either is not, so that a fault stays seen.
    #[must_use]
    fn max(self, other: Self) -> Self;
    /// Absolute value.
    #[must_use]
    fn abs(self) -> Self;
    /// Exponential.
    #[must_use]
    fn exp(self) -> Self;
    /// The smaller; not a number if either is not.
    #[must_use]
    #[inline(always)]
    fn min(self, other: Self) -> Self {
        -(-self).max(-other)
    }
    /// `then` where this is above zero, else `other`, also where this is not a
    /// number.
    #[must_use]
    fn if_above_zero(self, then: Self, other: Self) -> Self;
    /// The whole number nearest to this one, from zero to `last`, as a number and
    /// as an index. Not a number gives zero.
    #[must_use]
    fn nearest_whole(self, last: usize) -> (Self, Places);
    /// Row `places + offset` of a table, for each number by its own place.
    #[must_use]
    fn look_up(table: &[Self], places: &Places, offset: usize) -> Self;
}

/// Adding and taking away this number rounds to a whole one.
pub(crate) const ROUND: f64 = 6_755_399_441_055_744.0;

/// Where in a table numbers side by side look something up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Places {
    /// Whether all look at the same place, the first.
    pub(crate) same: bool,
    /// The place of each.
    pub(crate) each: [usize; LANES_MAX],
}

impl Places {
    /// Each place times a factor.
    #[must_use]
    #[inline(always)]
    pub fn times(mut self, factor: usize) -> Self {
        for place in &mut self.each {
            *place *= factor;
        }
        self
    }
}

/// A whole number from zero to `last` as an index.
#[inline(always)]
pub(crate) fn index(value: f64, last: usize) -> usize {
    // Capped from above here, and by the conversion from below.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let index = value as usize;
    index.min(last)
}
