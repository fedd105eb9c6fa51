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
