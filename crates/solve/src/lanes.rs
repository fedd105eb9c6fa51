//! Several flights side by side: a vector of numbers, as wide as the processor
//! offers, found at run time.

use std::fmt::{self, Debug};
use std::ops::{Add, Div, Mul, Neg, Sub};

use pulp::Simd;

use crate::Number;
use crate::number::{LANES_MAX, Places, ROUND, index};
use crate::sine::sin_cos;

/// Numbers side by side. Each lane goes through the same operations, in the
/// same order, as a lone `f64` would, so its bits are the same.
#[derive(Clone, Copy)]
pub struct Lanes<S: Simd> {
    simd: S,
    values: S::f64s,
}

impl<S: Simd> Lanes<S> {
    /// How many numbers there are side by side.
    pub const COUNT: usize = S::F64_LANES;

    /// From one number for each lane; those beyond [`Lanes::COUNT`] are not
    /// used.
    #[inline(always)]
    pub fn load(simd: S, values: &[f64; LANES_MAX]) -> Self {
        let (whole, _) = S::as_simd_f64s(&values[..S::F64_LANES]);
        Self { simd, values: whole[0] }
    }

    /// The number of each lane; zero beyond [`Lanes::COUNT`].
    #[inline(always)]
    pub fn store(self) -> [f64; LANES_MAX] {
        let mut values = [0.0; LANES_MAX];
        let (whole, _) = S::as_mut_simd_f64s(&mut values[..S::F64_LANES]);
        whole[0] = self.values;
        values
    }
}

impl<S: Simd> Debug for Lanes<S> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.store()[..S::F64_LANES].fmt(f)
    }
}

macro_rules! operator {
    ($name:ident, $method:ident, $simd:ident) => {
        impl<S: Simd> $name for Lanes<S> {
            type Output = Self;
            #[inline(always)]
            fn $method(self, other: Self) -> Self {
                Self { simd: self.simd, values: self.simd.$simd(self.values, other.values) }
            }
        }
    };
}

operator!(Add, add, add_f64s);
operator!(Sub, sub, sub_f64s);
operator!(Mul, mul, mul_f64s);
operator!(Div, div, div_f64s);

impl<S: Simd> Neg for Lanes<S> {
    type Output = Self;
    #[inline(always)]
    fn neg(self) -> Self {
        Self { simd: self.simd, values: self.simd.neg_f64s(self.values) }
    }
}

impl<S: Simd> Number for Lanes<S> {
    #[inline(always)]
    fn same(self, value: f64) -> Self {
        Self { simd: self.simd, values: self.simd.splat_f64s(value) }
    }
    #[inline(always)]
    fn mul_add(self, factor: Self, term: Self) -> Self {
        let values = self.simd.mul_add_f64s(self.values, factor.values, term.values);
        Self { simd: self.simd, values }
    }
    #[inline(always)]
    fn sqrt(self) -> Self {
        Self { simd: self.simd, values: self.simd.sqrt_f64s(self.values) }
    }
    /// Lane by lane: only a wind that grows with height asks for it.
    #[inline(always)]
    fn ln(self) -> Self {
        let mut values = self.store();
        for value in &mut values {
            *value = value.ln();
        }
        Self::load(self.simd, &values)
    }
    #[inline(always)]
    fn sin_cos(self) -> (Self, Self) {
        sin_cos(self)
    }
    #[inline(always)]
    fn max(self, other: Self) -> Self {
        let simd = self.simd;
        let keep = simd.greater_than_or_equal_f64s(self.values, other.values);
        // Where `other` is not a number it must win, and where `self` is not, it.
        let sum = simd.add_f64s(self.values, other.values);
        let larger = simd.select_f64s(keep, self.values, other.values);
        let ordered = simd.equal_f64s(sum, sum);
        Self { simd, values: simd.select_f64s(ordered, larger, sum) }
    }
    #[inline(always)]
    fn abs(self) -> Self {
        Self { simd: self.simd, values: self.simd.abs_f64s(self.values) }
    }
    /// Lane by lane: asked for once in a push.
    #[inline(always)]
    fn exp(self) -> Self {
        let mut values = self.store();
        for value in &mut values {
            *value = value.exp();
        }
        Self::load(self.simd, &values)
    }
    #[inline(always)]
    fn if_above_zero(self, then: Self, other: Self) -> Self {
        let simd = self.simd;
        let above = simd.greater_than_f64s(self.values, simd.splat_f64s(0.0));
        Self { simd, values: simd.select_f64s(above, then.values, other.values) }
    }
    #[inline(always)]
    fn nearest_whole(self, last: usize) -> (Self, Places) {
        let rounded = (self + self.same(ROUND)) - self.same(ROUND);
        let mut wholes = rounded.store();
        let mut each = [0; LANES_MAX];
        let first = index(wholes[0], last);
        let mut same = true;
        for lane in 0..Self::COUNT {
            each[lane] = index(wholes[lane], last);
            same &= each[lane] == first;
            wholes[lane] = each[lane] as f64;
        }
        (Self::load(self.simd, &wholes), Places { same, each })
    }
    #[inline(always)]
    fn look_up(table: &[Self], places: &Places, offset: usize) -> Self {
        if places.same {
            return table[places.each[0] + offset];
        }
        let mut values = [0.0; LANES_MAX];
        for lane in 0..Self::COUNT {
            values[lane] = table[places.each[lane] + offset].store()[lane];
        }
        Self::load(table[0].simd, &values)
    }
}
