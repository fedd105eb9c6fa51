use std::f64::consts::PI;

use arrow::{Built, Parts};
use units::Length;

use super::fins::FinSet;
use super::laminar::curvature_factor;
use super::{nose, sets::Sets};
use crate::{AeroChoice, Air};

/// Drag of a blunt leading edge square to the flow, on its frontal area
/// \[niskanen2013\].
const LEADING_EDGE: f64 = 0.85;
/// Base drag coefficient at low Mach number on the base area \[niskanen2013\].
const BASE: f64 = 0.12;

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

/// Where the drag comes from, m2 of drag area at the reference speed.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct DragParts {
    /// Skin friction of the shaft.
    pub shaft: f64,
    /// Pressure drag of the point.
    pub point: f64,
    /// Friction and edges of vanes.
    pub vanes: f64,
    /// Friction and edges of blades.
    pub blades: f64,
    /// Nock and rear end.
    pub nock: f64,
}

impl DragParts {
    /// All of it.
    pub fn total(&self) -> f64 {
        self.shaft + self.point + self.vanes + self.blades + self.nock
    }
}

/// The drag of an arrow that points where it goes.
pub(super) struct Drag<'a> {
    pub(super) parts: &'a Parts,
    pub(super) built: &'a Built,
    pub(super) choice: &'a AeroChoice,
    pub(super) air: &'a Air,
    pub(super) sets: &'a Sets,
    /// Share of turbulent friction.
    pub(super) turbulence: f64,
}

impl Drag<'_> {
    /// Where it comes from at a speed (m/s).
    pub(super) fn at(&self, speed: f64) -> DragParts {
        let area = frontal(self.parts);
        let diameter = self.parts.shaft.outside.si();
        let thickness = |t: Option<Length>| t.map_or(0.0, Length::si);
        let vanes = thickness(self.parts.vanes.map(|v| v.thickness));
        let blades = thickness(self.parts.point.blades.map(|b| b.thickness));
        let of = |set: &Option<FinSet>, thickness: f64, leading: f64| {
            set.as_ref().map_or(0.0, |set| {
                let edges = edges(set, thickness, leading) * set.span;
                set.count * (2.0 * set.area() * self.fin_friction(set, speed) + edges)
            })
        };
        DragParts {
            shaft: self.shaft_friction(speed) * PI * diameter * self.length(),
            point: nose::pressure_drag(self.parts.point.shape) * area,
            vanes: of(&self.sets.vanes, vanes, LEADING_EDGE),
            // Sharpened blades have no blunt leading edge.
            blades: of(&self.sets.blades, blades, 0.0),
            nock: self.choice.nock_drag.si() * area,
        }
    }

    /// Length of the shaft, m.
    pub(super) fn length(&self) -> f64 {
        self.built.layout.shaft_front.si() - self.built.layout.shaft_rear.si()
    }

    /// Friction coefficient of the shaft.
    pub(super) fn shaft_friction(&self, speed: f64) -> f64 {
        let radius = 0.5 * self.parts.shaft.outside.si();
        friction(self.length(), radius, speed, self.kinematic()).mixed(self.turbulence)
    }

    /// Friction coefficient of fins.
    pub(super) fn fin_friction(&self, set: &FinSet, speed: f64) -> f64 {
        let reynolds = speed * set.chord() / self.kinematic();
        let plate =
            Friction { laminar: laminar_plate(reynolds), turbulent: turbulent_plate(reynolds) };
        plate.mixed(self.turbulence)
    }

    fn kinematic(&self) -> f64 {
        self.air.viscosity / self.air.density
    }

    /// As a polynomial in speed that is right at this one, m/s.
    pub(super) fn polynomial(&self, speed: f64) -> [f64; 3] {
        parabola(speed, |v| self.at(v).total())
    }
}

/// Frontal area of the shaft, m2.
pub(super) fn frontal(parts: &Parts) -> f64 {
    let diameter = parts.shaft.outside.si();
    PI * diameter * diameter / 4.0
}

/// Drag area of the edges of blunt fins of this thickness by height, m.
pub(super) fn vane_edges(set: &FinSet, thickness: f64) -> f64 {
    edges(set, thickness, LEADING_EDGE)
}

fn edges(set: &FinSet, thickness: f64, leading: f64) -> f64 {
    let slant = set.span / set.span.hypot(set.sweep);
    (leading * slant * slant + BASE) * thickness
}

/// The parabola through `f` at 0.5, 0.75 and 1 times `top`, as a polynomial.
/// Arrows keep more than half their speed at any range they are shot at; the
/// fit to a laminar friction law is within 0.2 % over that span.
fn parabola(top: f64, f: impl Fn(f64) -> f64) -> [f64; 3] {
    let (low, middle) = (0.5 * top, 0.75 * top);
    let (at_low, at_middle, at_top) = (f(low), f(middle), f(top));
    let first = (at_middle - at_low) / (middle - low);
    let second = ((at_top - at_middle) / (top - middle) - first) / (top - low);
    [at_low - first * low + second * low * middle, first - second * (low + middle), second]
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
