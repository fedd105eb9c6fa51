use std::ops::{Add, Mul, Neg, Sub};

/// A small vector across the shaft, fixed to the shaft.
///
/// Components are along clock position zero (the index vane) and along clock
/// position 90 degrees (a quarter turn clockwise, seen from the nock). It holds
/// offsets in metres as well as small tilts in radians; a tilt's direction is
/// the one toward which the forward end leans.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Across {
    /// Component toward clock position zero.
    pub at0: f64,
    /// Component toward clock position 90 degrees.
    pub at90: f64,
}

impl Across {
    /// The zero vector.
    pub const ZERO: Self = Self { at0: 0.0, at90: 0.0 };

    /// A vector of this size at this clock position (rad).
    pub fn polar(size: f64, clock: f64) -> Self {
        let (sin, cos) = clock.sin_cos();
        Self { at0: size * cos, at90: size * sin }
    }

    /// The length of the vector.
    pub fn size(self) -> f64 {
        self.at0.hypot(self.at90)
    }

    /// The clock position, rad, in (-pi, pi]; zero for the zero vector.
    pub fn clock(self) -> f64 {
        self.at90.atan2(self.at0)
    }

    /// The same vector with its size limited to `limit`, its direction kept.
    #[must_use]
    pub fn limited(self, limit: f64) -> Self {
        let size = self.size();
        if size > limit { self * (limit / size) } else { self }
    }

    /// Components (left, up) in the range frame for a shaft rolled by `roll`
    /// (rad) and lying along x.
    pub fn left_up(self, roll: f64) -> (f64, f64) {
        let (sin, cos) = roll.sin_cos();
        (-(self.at0 * sin + self.at90 * cos), self.at0 * cos - self.at90 * sin)
    }
}

impl Add for Across {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { at0: self.at0 + other.at0, at90: self.at90 + other.at90 }
    }
}

impl Sub for Across {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Neg for Across {
    type Output = Self;
    fn neg(self) -> Self {
        self * -1.0
    }
}

impl Mul<f64> for Across {
    type Output = Self;
    fn mul(self, by: f64) -> Self {
        Self { at0: self.at0 * by, at90: self.at90 * by }
    }
}

#[cfg(test)]
mod tests {
    use std::f64::consts::FRAC_PI_2;

    use super::Across;

    #[test]
    fn exact_size_and_clock_come_back() {
        for clock in [-3.0, -1.0, 0.0, 0.5, 3.1] {
            let back = Across::polar(2.0, clock);
            assert!((back.size() - 2.0).abs() < 1e-15 && (back.clock() - clock).abs() < 1e-15);
        }
    }

    /// A roll turns the clock: as seen from the nock, position 0 of a shaft rolled
    /// a quarter turn lies where position 90 lay before.
    #[test]
    fn law_a_roll_adds_to_the_clock() {
        let (left, up) = Across::polar(1.0, 0.3).left_up(FRAC_PI_2);
        let (l, u) = Across::polar(1.0, 0.3 + FRAC_PI_2).left_up(0.0);
        assert!((left - l).abs() < 1e-15 && (up - u).abs() < 1e-15);
    }

    #[test]
    fn law_a_limit_keeps_the_direction() {
        let long = Across { at0: 3.0, at90: -4.0 };
        let short = long.limited(1.0);
        assert!((short.size() - 1.0).abs() < 1e-15 && (short.clock() - long.clock()).abs() < 1e-15);
        assert_eq!(long.limited(5.1), long);
    }
}
