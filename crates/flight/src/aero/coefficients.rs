use body::Across;

use super::AeroError;
use super::drag::DragParts;
use super::head::Wake;
use crate::GivenAero;

/// A head of two blades: it lifts across their plane only.
///
/// Its slope is `slope` times `1 + cos 2 phi`, `phi` the angle between the flow
/// across and the normal of the blades' plane. The mean stands in the sums of
/// [`Aero`], the rest here.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoBlades {
    /// Mean slope of the head, m2.
    pub slope: f64,
    /// Its arm ahead of the balance point, m.
    pub arm: f64,
    /// Clock position of the blades, rad.
    pub clock: f64,
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
    /// What a layer tripped at departure adds to the drag area, as a polynomial
    /// in speed.
    pub tripped: [f64; 3],
    /// For how far, m; 0 if it stays as it is.
    pub trips_until: f64,
    /// Sum of normal-force area slopes, m2 per rad, before the wake.
    pub slope: f64,
    /// Sum of slope times arm ahead of the balance point, m3 per rad, before the
    /// wake.
    pub slope_arm: f64,
    /// Sum of slope times arm squared, m4 per rad, before the wake.
    pub slope_arm2: f64,
    /// What the wake of blades takes off the vanes.
    pub wake: Wake,
    /// A head of two blades.
    pub two_blades: Option<TwoBlades>,
    /// Cross-flow drag per length of shaft, m.
    pub cross_flow: f64,
    /// Rear and front end of the shaft from the balance point, m.
    pub shaft_span: (f64, f64),
    /// Cross-flow drag area of the vanes, m2, and their arm, m.
    pub vane_flow: (f64, f64),
    /// Roll moment area, m3, clockwise positive.
    pub roll_forcing: f64,
    /// Roll damping, m4.
    pub roll_damping: f64,
    /// Side force area turning with the arrow, m2.
    pub side: Across,
    /// Its moment about the balance point (force toward the clock position at
    /// a forward arm), m3.
    pub side_arm: Across,
    /// Side force area of the head's tilt that its wake takes off the vanes,
    /// m2, one lag later; at the arm of the wake.
    pub wake_side: Across,
}

/// Sums over nose, blades and vanes at one incidence, the wake taken off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slopes {
    /// Force by the flow across, S0, m2.
    pub force: f64,
    /// Force by the rate of the axis, S1F, m3.
    pub force_by_rate: f64,
    /// Moment by the flow across, S1M, m3.
    pub moment: f64,
    /// Moment by the rate of the axis, S2, m4.
    pub moment_by_rate: f64,
}

impl Aero {
    /// The sums at an incidence (rad), as the force model has them. Without
    /// blades the two first moments are one.
    pub fn slopes(&self, incidence: f64) -> Slopes {
        let taken = self.wake.slope * self.wake.left_at(incidence);
        let Wake { arm, lead, .. } = self.wake;
        Slopes {
            force: self.slope - taken,
            force_by_rate: self.slope_arm - taken * lead,
            moment: self.slope_arm - taken * arm,
            moment_by_rate: self.slope_arm2 - taken * arm * lead,
        }
    }

    /// Replaces built-up coefficients by given ones.
    pub(super) fn take(&mut self, given: &GivenAero, balance: f64) {
        let (area, d) = (self.area, self.diameter);
        let whole = [given.normal_slope, given.pitch_damping].iter().any(Option::is_some)
            || given.centre_of_pressure.is_some();
        if whole {
            // They are the whole arrow's, wake and all; what is left to build up
            // is taken at small incidence.
            let small = self.slopes(0.0);
            self.slope = small.force;
            self.slope_arm = small.moment;
            self.slope_arm2 = small.moment_by_rate;
            self.side_arm = self.side_arm - self.wake_side * self.wake.arm;
            self.side = self.side - self.wake_side;
            self.wake_side = Across::ZERO;
            self.wake = Wake::default();
            self.two_blades = None;
        }
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

    pub(super) fn checked(self) -> Result<Self, AeroError> {
        let two = self.two_blades.map_or(0.0, |t| t.slope * t.arm);
        for (what, value) in [
            ("drag area", self.drag.iter().chain(&self.tripped).sum()),
            ("normal force slope", self.slope),
            ("pitching moment slope", self.slope_arm),
            ("pitch damping", self.slope_arm2),
            ("wake of the blades", self.wake.slope + self.wake.lead + self.wake.drift + two),
            ("cross-flow drag", self.cross_flow + self.vane_flow.0),
            ("roll forcing", self.roll_forcing),
            ("roll damping", self.roll_damping),
            ("side force", self.side.size() + self.side_arm.size() + self.wake_side.size()),
        ] {
            if !value.is_finite() {
                return Err(AeroError::NotFinite { what, value });
            }
        }
        Ok(self)
    }

    /// Drag coefficient on the frontal area at a speed (m/s), the layer as it is
    /// far from the bow.
    pub fn drag_coefficient(&self, speed: f64) -> f64 {
        (self.drag[0] + speed * (self.drag[1] + speed * self.drag[2])) / self.area
    }
}
