use units::{BendingStiffness, Force, Length, LinearDensity, STANDARD_GRAVITY};

/// A static spine test: a shaft on two supports, a weight in the middle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpineTester {
    /// Distance between the supports.
    pub span: Length,
    /// Force in the middle.
    pub force: Force,
}

impl SpineTester {
    /// Defined by [astm-f2031]: 28 in span, 880 g (1.94 lb) under standard
    /// gravity.
    pub const STANDARD: Self =
        Self { span: Length::from_si(0.7112), force: Force::from_si(0.880 * STANDARD_GRAVITY) };

    /// The older test: 26 in span, 2 lb. Common practice, no source.
    pub const OLDER: Self =
        Self { span: Length::from_si(0.6604), force: Force::from_si(2.0 * POUND_FORCE) };

    /// Bending stiffness of a shaft that this test bends by `deflection`:
    /// EI = P L^3 / (48 d), the slender beam on two supports. The deflection
    /// is not zero.
    pub fn stiffness(self, deflection: Length) -> BendingStiffness {
        BendingStiffness::from_si(self.per_deflection() / deflection.si())
    }

    /// How far this test bends a shaft; the inverse of
    /// [`stiffness`](Self::stiffness). The stiffness is not zero.
    pub fn deflection(self, stiffness: BendingStiffness) -> Length {
        Length::from_si(self.per_deflection() / stiffness.si())
    }

    /// How far a shaft sags on this tester under its own weight:
    /// 5 w L^4 / (384 EI). A tester is zeroed with the shaft on it, so the sag
    /// is not part of the reading.
    pub fn own_weight_sag(self, density: LinearDensity, stiffness: BendingStiffness) -> Length {
        let weight = density.si() * STANDARD_GRAVITY;
        Length::from_si(5.0 * weight * self.span.si().powi(4) / (384.0 * stiffness.si()))
    }

    /// The older way to label spine: the draw weight in pounds that is the
    /// span over the deflection of the older test, both in inches.
    pub fn draw_weight_label(deflection: Length) -> Force {
        Force::from_si(Self::OLDER.span.si() / deflection.si() * POUND_FORCE)
    }

    fn per_deflection(self) -> f64 {
        self.force.si() * self.span.si().powi(3) / 48.0
    }
}

/// One pound-force, N. Defined.
const POUND_FORCE: f64 = 0.453_592_37 * STANDARD_GRAVITY;

/// Bending stiffness from static spine as the trade's standard defines it
/// [astm-f2031]. The spine is not zero.
pub fn stiffness_from_spine(spine: Length) -> BendingStiffness {
    SpineTester::STANDARD.stiffness(spine)
}

#[cfg(test)]
mod tests {
    use units::{Length, LinearDensity};

    use super::SpineTester;

    /// The slender beam on two supports: P L^3 / (48 EI) in the middle.
    #[test]
    fn exact_a_tester_reads_back_the_spine_it_was_given() {
        let spine = Length::from_si(8.9e-3);
        let stiffness = SpineTester::STANDARD.stiffness(spine);
        assert!((SpineTester::STANDARD.deflection(stiffness).si() - spine.si()).abs() < 1e-15);
        // By hand: 0.880 kg x 9.80665 m/s2 x (0.7112 m)^3 / 48 / 8.9 mm.
        assert!((stiffness.si() - 7.267).abs() < 1e-3, "{}", stiffness.si());
    }

    /// Its own weight w L bends a shaft 5/8 as far as that weight in the middle.
    #[test]
    fn exact_own_weight_bends_five_eighths_of_the_same_weight_in_the_middle() {
        let (tester, density) = (SpineTester::OLDER, LinearDensity::from_si(0.02));
        let stiffness = tester.stiffness(Length::from_si(0.01));
        let weight = density.si() * units::STANDARD_GRAVITY * tester.span.si();
        let middle = 0.01 * weight / tester.force.si();
        let sag = tester.own_weight_sag(density, stiffness).si();
        assert!((sag / middle - 0.625).abs() < 1e-12, "{}", sag / middle);
    }
}
