//! A number by itself.

use crate::Number;
use crate::number::{LANES_MAX, Places, ROUND, index};
use crate::sine::sin_cos;

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
