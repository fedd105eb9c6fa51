use std::fmt::Debug;
use std::ops::{Add, Div, Mul, Neg, Sub};

/// A number the equations can be written over: `f64`, or a lane of several.
///
/// No fused multiply-add, so that results do not depend on the processor.
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
    /// A constant.
    #[must_use]
    fn of(value: f64) -> Self;
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
}

impl Number for f64 {
    fn of(value: f64) -> Self {
        value
    }
    fn sqrt(self) -> Self {
        self.sqrt()
    }
    fn ln(self) -> Self {
        self.ln()
    }
    fn sin_cos(self) -> (Self, Self) {
        self.sin_cos()
    }
    fn max(self, other: Self) -> Self {
        if other > self || other.is_nan() { other } else { self }
    }
    fn abs(self) -> Self {
        self.abs()
    }
}
