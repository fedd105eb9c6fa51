use super::laminar::curvature_factor;

/// Skin friction of the shaft at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Friction {
    /// Mean friction coefficient on the wetted area, laminar.
    pub laminar: f64,
    /// Mean friction coefficient on the wetted area, turbulent.
    pub turbulent: f64,
}

impl Friction {
    /// The mix for a share of turbulence, 0 to 1.
    pub fn mixed(&self, turbulence: f64) -> f64 {
        (1.0 - turbulence) * self.laminar + turbulence * self.turbulent
    }
}

/// Friction along a cylinder of this length and radius (m) at this speed
/// (m/s) in air of this kinematic viscosity (m2/s).
///
/// Laminar: Blasius with transverse curvature (see [`super::laminar`]).
/// Turbulent: smooth flat plate \[niskanen2013\], no curvature correction.
pub fn friction(length: f64, radius: f64, speed: f64, kinematic: f64) -> Friction {
    let reynolds = speed * length / kinematic;
    let layer = 2.0 * (kinematic * length / speed).sqrt() / radius;
    Friction {
        laminar: laminar_plate(reynolds) * curvature_factor(layer),
        turbulent: turbulent_plate(reynolds),
    }
}

/// Mean friction coefficient of a laminar plate, Blasius (1908).
pub fn laminar_plate(reynolds: f64) -> f64 {
    1.328 / reynolds.sqrt()
}

/// Mean friction coefficient of a smooth turbulent plate \[niskanen2013\];
/// it meets the laminar one near Re 1e4 and is used above.
pub fn turbulent_plate(reynolds: f64) -> f64 {
    (1.5 * reynolds.ln() - 5.6).powi(-2)
}

#[cfg(test)]
mod tests {
    use super::{Friction, friction, laminar_plate, turbulent_plate};

    #[test]
    fn exact_plates_at_round_reynolds_numbers() {
        assert!((laminar_plate(1e6) - 1.328e-3).abs() < 1e-15);
        assert!((turbulent_plate(1e6) - (1.5 * 6.0 * 10.0_f64.ln() - 5.6).powi(-2)).abs() < 1e-15);
    }

    /// A thin cylinder drags more than a plate: its layer is spread over less
    /// surface. A thick one is a plate.
    #[test]
    fn law_a_thick_cylinder_is_a_plate() {
        let of = |radius: f64| friction(0.7, radius, 80.0, 1.5e-5);
        let plate = laminar_plate(80.0 * 0.7 / 1.5e-5);
        assert!(of(0.003).laminar > 1.05 * plate);
        assert!((of(100.0).laminar / plate - 1.0).abs() < 1e-3);
    }

    #[test]
    fn exact_half_turbulent_is_the_middle() {
        let both = Friction { laminar: 1.0, turbulent: 3.0 };
        assert!((both.mixed(0.5) - 2.0).abs() < 1e-15);
    }
}
