use std::f64::consts::PI;

use arrow::{Blades, Built, Parts, Vanes};
use body::Across;

use super::drag::{Friction, friction, laminar_plate, turbulent_plate};
use super::fins::FinSet;
use super::nose;
use crate::{AeroChoice, Air, GivenAero};

/// Finite-length factor on the cross-flow drag of a long cylinder, at length
/// over diameter near 125 \[jorgensen1977\]; it changes by 0.02 between 80 and
/// 160.
pub const CROSS_FLOW_LENGTH_FACTOR: f64 = 0.90;

/// Drag of a blunt leading edge square to the flow, on its frontal area
/// \[niskanen2013\].
const LEADING_EDGE: f64 = 0.85;
/// Base drag coefficient at low Mach number on the base area \[niskanen2013\].
const BASE: f64 = 0.12;

/// Why coefficients cannot be built up.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum AeroError {
    /// The reference speed for drag is not above zero.
    #[error("the departure speed is {speed} m/s; drag needs a speed above zero")]
    Speed {
        /// The speed, m/s.
        speed: f64,
    },
    /// A built-up or given coefficient is not finite.
    #[error("the {what} comes out as {value}; check the sizes it is made from")]
    NotFinite {
        /// Which coefficient.
        what: &'static str,
        /// Its value.
        value: f64,
    },
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

/// Aerodynamics of one arrow as areas and their moments about the balance
/// point, SI. Times dynamic pressure they are forces and moments.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aero {
    /// Frontal area of the shaft, m2.
    pub area: f64,
    /// Shaft diameter, m.
    pub diameter: f64,
    /// Drag area as a polynomial in speed, m2, m2/(m/s), m2/(m/s)2.
    pub drag: [f64; 3],
    /// Where the drag comes from.
    pub drag_parts: DragParts,
    /// Sum of normal-force area slopes, m2 per rad.
    pub slope: f64,
    /// Sum of slope times arm ahead of the balance point, m3 per rad.
    pub slope_arm: f64,
    /// Sum of slope times arm squared, m4 per rad.
    pub slope_arm2: f64,
    /// Cross-flow drag per length of shaft, m.
    pub cross_flow: f64,
    /// Rear and front end of the shaft from the balance point, m.
    pub shaft_span: (f64, f64),
    /// Roll moment area, m3, clockwise positive.
    pub roll_forcing: f64,
    /// Roll damping, m4.
    pub roll_damping: f64,
    /// Side force area turning with the arrow, m2.
    pub side: Across,
    /// Its moment about the balance point (force toward the clock position at
    /// a forward arm), m3.
    pub side_arm: Across,
}

/// Adds lifting surfaces up.
#[derive(Default)]
struct Sum {
    slope: f64,
    slope_arm: f64,
    slope_arm2: f64,
    side: Across,
    side_arm: Across,
}

impl Sum {
    fn lift(&mut self, slope: f64, arm: f64, tilt: Across) {
        self.slope += slope;
        self.slope_arm += slope * arm;
        self.slope_arm2 += slope * arm * arm;
        self.force(tilt * slope, arm);
    }

    fn force(&mut self, side: Across, arm: f64) {
        self.side = self.side + side;
        self.side_arm = self.side_arm + side * arm;
    }
}

/// Builds up the aerodynamics of an arrow, or takes what is given.
///
/// # Errors
/// [`AeroError`] when the speed is not positive or a coefficient is not finite.
pub fn aero(
    parts: &Parts,
    built: &Built,
    choice: &AeroChoice,
    air: &Air,
    speed: f64,
) -> Result<Aero, AeroError> {
    if !(speed.is_finite() && speed > 0.0) {
        return Err(AeroError::Speed { speed });
    }
    let diameter = parts.shaft.outside.si();
    let area = PI * diameter * diameter / 4.0;
    let balance = built.mass.balance().si();
    let layout = &built.layout;
    let effects = &built.effects;
    let vanes = parts.vanes.as_ref().map(|v| vane_set(v, diameter));
    let blades = parts.point.blades.as_ref().map(|b| blade_set(b, parts.point.diameter.si()));

    let mut sum = Sum::default();
    let tip = layout.tip.si();
    let nose_at = tip - nose::centre_share(parts.point.shape) * parts.point.length.si();
    sum.lift(nose::SLOPE * area, nose_at - balance, effects.point_tilt);
    let mut forcing = 0.0;
    let mut damping = 0.0;
    if let Some(set) = &blades {
        let at = layout.blade_front.si() - set.centre() - balance;
        sum.lift(set.set_slope(), at, effects.point_tilt);
        damping += set.roll_damping();
    }
    if let (Some(set), Some(vanes)) = (&vanes, &parts.vanes) {
        let at = layout.vane_front.si() - set.centre() - balance;
        sum.lift(set.set_slope(), at, effects.shaft_tilt);
        damping += set.roll_damping();
        forcing = set.roll_forcing() * vanes.angle.si();
        forcing += odd_vane(&mut sum, set, vanes, &effects.vane, at);
    }

    let drag_at =
        |v: f64| drag_parts(parts, built, choice, air, vanes.as_ref(), blades.as_ref(), v);
    let mut drag_parts = drag_at(speed);
    let mut drag = parabola(speed, |v| drag_at(v).total());
    if let Some(fixed) = fixed_drag(&choice.given, area, built, air) {
        drag = [fixed, 0.0, 0.0];
        drag_parts = DragParts { shaft: fixed, ..DragParts::default() };
    }
    // Drag acts along the shaft's own line, which misses the balance point.
    sum.side_arm = sum.side_arm - effects.balance_offset * drag_parts.total();

    let mut aero = Aero {
        area,
        diameter,
        drag,
        drag_parts,
        slope: sum.slope,
        slope_arm: sum.slope_arm,
        slope_arm2: sum.slope_arm2,
        cross_flow: choice.cross_flow.si() * CROSS_FLOW_LENGTH_FACTOR * diameter,
        shaft_span: (layout.shaft_rear.si() - balance, layout.shaft_front.si() - balance),
        roll_forcing: forcing,
        roll_damping: damping,
        side: sum.side,
        side_arm: sum.side_arm,
    };
    aero.take(&choice.given, balance);
    aero.checked()
}

impl Aero {
    /// Replaces built-up coefficients by given ones.
    fn take(&mut self, given: &GivenAero, balance: f64) {
        let (area, d) = (self.area, self.diameter);
        if given.normal_slope.is_some() || given.centre_of_pressure.is_some() {
            let slope = given.normal_slope.map_or(self.slope, |s| s.si() * area);
            let arm =
                given.centre_of_pressure.map_or(self.slope_arm / self.slope, |x| x.si() - balance);
            self.slope = slope;
            self.slope_arm = slope * arm;
        }
        if let Some(damping) = given.pitch_damping {
            self.slope_arm2 = -0.5 * damping.si() * area * d * d;
        }
        if let Some(forcing) = given.roll_forcing {
            self.roll_forcing = forcing.si() * area * d;
        }
        if let Some(damping) = given.roll_damping {
            self.roll_damping = -0.5 * damping.si() * area * d * d;
        }
    }

    fn checked(self) -> Result<Self, AeroError> {
        for (what, value) in [
            ("drag area", self.drag.iter().sum()),
            ("normal force slope", self.slope),
            ("pitching moment slope", self.slope_arm),
            ("pitch damping", self.slope_arm2),
            ("cross-flow drag", self.cross_flow),
            ("roll forcing", self.roll_forcing),
            ("roll damping", self.roll_damping),
            ("side force", self.side.size() + self.side_arm.size()),
        ] {
            if !value.is_finite() {
                return Err(AeroError::NotFinite { what, value });
            }
        }
        Ok(self)
    }

    /// Drag coefficient on the frontal area at a speed (m/s).
    pub fn drag_coefficient(&self, speed: f64) -> f64 {
        (self.drag[0] + speed * (self.drag[1] + speed * self.drag[2])) / self.area
    }
}

fn vane_set(vanes: &Vanes, diameter: f64) -> FinSet {
    FinSet {
        count: f64::from(vanes.count),
        span: vanes.span.si(),
        root: vanes.root.si(),
        tip: vanes.tip.si(),
        sweep: vanes.sweep.si(),
        radius: 0.5 * diameter,
    }
}

fn blade_set(blades: &Blades, diameter: f64) -> FinSet {
    FinSet {
        count: f64::from(blades.count),
        span: blades.span.si(),
        root: blades.root.si(),
        tip: blades.tip.si(),
        sweep: blades.sweep.si(),
        radius: 0.5 * diameter,
    }
}

/// The extra forces of a vane that is out of place; returns its extra roll
/// forcing, m3.
fn odd_vane(sum: &mut Sum, set: &FinSet, vanes: &Vanes, odd: &arrow::VaneError, arm: f64) -> f64 {
    const QUARTER: f64 = PI / 2.0;
    let slope = set.one_slope() * set.interference();
    let angle = vanes.angle.si();
    let right = Across::polar(slope * (angle + odd.angle), QUARTER + odd.around);
    let meant = Across::polar(slope * angle, QUARTER);
    sum.force(right, arm + odd.forward);
    sum.force(-meant, arm);
    set.roll_forcing() / set.count * odd.angle
}

/// A drag area that the user fixes, m2.
fn fixed_drag(given: &GivenAero, area: f64, built: &Built, air: &Air) -> Option<f64> {
    let by_deceleration =
        given.deceleration.map(|k| 2.0 * k.si() * built.mass.mass().si() / air.density);
    by_deceleration.or_else(|| given.drag.map(|cd| cd.si() * area))
}

fn drag_parts(
    parts: &Parts,
    built: &Built,
    choice: &AeroChoice,
    air: &Air,
    vanes: Option<&FinSet>,
    blades: Option<&FinSet>,
    speed: f64,
) -> DragParts {
    let kinematic = air.viscosity / air.density;
    let diameter = parts.shaft.outside.si();
    let area = PI * diameter * diameter / 4.0;
    let turbulence = choice.turbulence.si();
    let length = built.layout.shaft_front.si() - built.layout.shaft_rear.si();
    let shaft = friction(length, 0.5 * diameter, speed, kinematic).mixed(turbulence);
    let fins = |set: &FinSet, thickness: f64, leading: f64| {
        let reynolds = speed * set.chord() / kinematic;
        let plate =
            Friction { laminar: laminar_plate(reynolds), turbulent: turbulent_plate(reynolds) };
        let slant = set.span / set.span.hypot(set.sweep);
        let edges = (leading * slant * slant + BASE) * thickness * set.span;
        set.count * (2.0 * set.area() * plate.mixed(turbulence) + edges)
    };
    let thickness = |t: Option<units::Length>| t.map_or(0.0, units::Length::si);
    DragParts {
        shaft: shaft * PI * diameter * length,
        point: nose::pressure_drag(parts.point.shape) * area,
        vanes: vanes
            .map_or(0.0, |s| fins(s, thickness(parts.vanes.map(|v| v.thickness)), LEADING_EDGE)),
        // Sharpened blades have no blunt leading edge.
        blades: blades
            .map_or(0.0, |s| fins(s, thickness(parts.point.blades.map(|b| b.thickness)), 0.0)),
        nock: choice.nock_drag.si() * area,
    }
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
