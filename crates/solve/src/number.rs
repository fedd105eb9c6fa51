use std::fmt::Debug;
use std::ops::{Add, Div, Mul, Neg, Sub};

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
}

impl Number for f64 {
    #[inline(always)]
    fn same(self, value: f64) -> Self {
        value
    }
    #[inline(always)]
    fn mul_add(self, factor: Self, term: Self) -> Self {
        self.mul_add(factor, term)
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        self.sqrt()
    }
    fn ln(self) -> Self {
        self.ln()
    }
    #[inline(always)]
    fn sin_cos(self) -> (Self, Self) {
        sin_cos(self)
    }
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        if other > self || other.is_nan() { other } else { self }
    }
    #[inline(always)]
    fn abs(self) -> Self {
        self.abs()
    }
}

/// Sine and cosine by the same operations for every kind of number.
///
/// The angle is brought to within half a turn (good to 1e-15 up to some 1e4
/// turns), halved, and put through the Taylor series to the terms that matter
/// in double precision; the doubling formulas undo the halving.
#[inline(always)]
pub fn sin_cos<N: Number>(angle: N) -> (N, N) {
    /// Adding and taking away this number rounds to a whole one.
    const ROUND: f64 = 6_755_399_441_055_744.0;
    /// A turn, and what its double leaves out.
    const TURN: (f64, f64) = (std::f64::consts::TAU, 2.449_293_598_294_706_4e-16);
    let turns = angle * angle.same(1.0 / std::f64::consts::TAU);
    let whole = angle.same(ROUND) - (turns + angle.same(ROUND));
    let rest = whole.mul_add(angle.same(TURN.1), whole.mul_add(angle.same(TURN.0), angle));
    let x = rest * angle.same(0.5);
    let x2 = x * x;
    let series = |coefficients: &[f64]| {
        let mut sum = x.same(coefficients[0]);
        for c in &coefficients[1..] {
            sum = sum.mul_add(x2, x.same(*c));
        }
        sum
    };
    let sin = x * series(&SINE);
    let cos = series(&COSINE);
    let twice = sin + sin;
    (twice * cos, (-twice).mul_add(sin, x.same(1.0)))
}

/// Taylor coefficients of sin(x)/x in x^2, highest first. Defined.
const SINE: [f64; 10] = [
    -1.0 / 121_645_100_408_832_000.0,
    1.0 / 355_687_428_096_000.0,
    -1.0 / 1_307_674_368_000.0,
    1.0 / 6_227_020_800.0,
    -1.0 / 39_916_800.0,
    1.0 / 362_880.0,
    -1.0 / 5_040.0,
    1.0 / 120.0,
    -1.0 / 6.0,
    1.0,
];
/// Taylor coefficients of cos(x) in x^2, highest first. Defined.
const COSINE: [f64; 11] = [
    1.0 / 2_432_902_008_176_640_000.0,
    -1.0 / 6_402_373_705_728_000.0,
    1.0 / 20_922_789_888_000.0,
    -1.0 / 87_178_291_200.0,
    1.0 / 479_001_600.0,
    -1.0 / 3_628_800.0,
    1.0 / 40_320.0,
    -1.0 / 720.0,
    1.0 / 24.0,
    -0.5,
    1.0,
];
