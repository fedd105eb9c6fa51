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
    fn exp(self) -> Self {
        self.exp()
    }
    #[inline(always)]
    fn if_above_zero(self, then: Self, other: Self) -> Self {
        if self > 0.0 { then } else { other }
    }
    #[inline(always)]
    fn nearest_whole(self, last: usize) -> (Self, Places) {
        let place = index((self + ROUND) - ROUND, last);
        (place as f64, Places { same: true, each: [place; LANES_MAX] })
    }
    #[inline(always)]
    fn look_up(table: &[Self], places: &Places, offset: usize) -> Self {
        table[places.each[0] + offset]
    }
}

/// Sine and cosine by the same operations for every kind of number.
///
/// The angle is brought to within half a turn (good to 1e-15 up to some 1e4
/// turns), halved, and put through the Taylor series to the terms that matter
/// in double precision; the doubling formulas undo the halving.
#[inline(always)]
pub fn sin_cos<N: Number>(angle: N) -> (N, N) {
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
