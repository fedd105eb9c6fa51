//! Counts the operations of one step with a number that counts.

use std::cell::Cell;
use std::ops::{Add, Div, Mul, Neg, Sub};

use clothyard_benches::Case;
use solve::{At, LANES_MAX, Number, TwoStep, sin_cos_short};

thread_local! {
    static DONE: Cell<u64> = const { Cell::new(0) };
}

/// A number that counts what is done with it: a fused operation as two, root
/// and quotient as one, a change of sign as none.
#[derive(Debug, Clone, Copy)]
struct Counted(f64);

fn counted(value: f64, operations: u64) -> Counted {
    DONE.set(DONE.get() + operations);
    Counted(value)
}

impl Add for Counted {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        counted(self.0 + other.0, 1)
    }
}
impl Sub for Counted {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        counted(self.0 - other.0, 1)
    }
}
impl Mul for Counted {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        counted(self.0 * other.0, 1)
    }
}
impl Div for Counted {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        counted(self.0 / other.0, 1)
    }
}
impl Neg for Counted {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}
impl Number for Counted {
    fn same(self, value: f64) -> Self {
        Self(value)
    }
    fn mul_add(self, factor: Self, term: Self) -> Self {
        counted(self.0.mul_add(factor.0, term.0), 2)
    }
    fn sqrt(self) -> Self {
        counted(self.0.sqrt(), 1)
    }
    fn ln(self) -> Self {
        counted(self.0.ln(), 1)
    }
    fn sin_cos(self) -> (Self, Self) {
        solve::sin_cos(self)
    }
    fn max(self, other: Self) -> Self {
        counted(self.0.max(other.0), 1)
    }
    fn abs(self) -> Self {
        Self(self.0.abs())
    }
    fn exp(self) -> Self {
        counted(self.0.exp(), 1)
    }
    fn if_above_zero(self, then: Self, other: Self) -> Self {
        if self.0 > 0.0 { then } else { other }
    }
    fn nearest_whole(self, last: usize) -> (Self, solve::Places) {
        let (value, places) = self.0.nearest_whole(last);
        (Self(value), places)
    }
    fn look_up(table: &[Self], places: &solve::Places, offset: usize) -> Self {
        let plain: Vec<f64> = table.iter().map(|one| one.0).collect();
        Self(f64::look_up(&plain, places, offset))
    }
}

/// Floating-point operations of one step of one flight.
pub(crate) fn step(case: &Case) -> u64 {
    let load = |values: &[f64; LANES_MAX]| Counted(values[0]);
    let model = flight::Model::side_by_side(&[&case.model; LANES_MAX], load);
    let (v, n) = (case.start.velocity, case.start.axis);
    let state = [0.0, 0.0, 0.0, v.x, v.y, v.z, n.x, n.y, n.z, 0.0, 0.1, 0.1, 0.0, 1.0];
    let rise = |_: At, s: &[Counted; 14]| model.rise(Counted(0.0), s, Counted(0.75), sin_cos_short);
    let mut track = TwoStep::first(rise, &state.map(Counted));
    DONE.set(0);
    track.step(rise);
    DONE.get()
}
