use std::f64::consts::PI;

use arrow::{Built, Parts, Vanes};
use body::Across;

use super::AeroError;
use super::coefficients::{Aero, TwoBlades};
use super::drag::{Drag, DragParts, frontal, vane_edges};
use super::fins::FinSet;
use super::head::{Wake, head_centre, head_slope, wake_share};
use super::nose;
use super::roll::{head_damping, profile_damping, shaft_damping, vane_roll};
use super::sets::Sets;
use super::vanes::{Layer, vane_centre, vane_cross_flow, vane_slope};
use crate::{AeroChoice, AeroFactors, Air, GivenAero};

/// Finite-length factor on the cross-flow drag of a long cylinder, at length
/// over diameter near 125 \[jorgensen1977\]; it changes by 0.02 between 80 and
/// 160.
pub const CROSS_FLOW_LENGTH_FACTOR: f64 = 0.90;

/// Adds up what the air does across the arrow and about its length.
#[derive(Default)]
struct Sum {
    slope: f64,
    slope_arm: f64,
    slope_arm2: f64,
    side: Across,
    side_arm: Across,
    roll_forcing: f64,
    roll_damping: f64,
    vane_flow: (f64, f64),
    wake: Wake,
    wake_side: Across,
    two_blades: Option<TwoBlades>,
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
    let area = frontal(parts);
    let sets = Sets::of(parts);
    let build_up = BuildUp { parts, built, factors: &choice.factors, sets: &sets };
    let turbulence = choice.turbulence.si();
    let drag = Drag { parts, built, choice, air, sets: &sets, turbulence };

    let mut sum = Sum::default();
    build_up.nose(&mut sum);
    build_up.bend(&mut sum);
    let vanes = build_up.vanes(&mut sum, &drag, speed);
    build_up.head(&mut sum, vanes.as_ref());
    sum.roll_damping +=
        shaft_damping(0.5 * parts.shaft.outside.si(), drag.length(), drag.shaft_friction(speed));

    let mut drag_parts = drag.at(speed);
    let mut polynomial = drag.polynomial(speed);
    let mut tripped = tripped(&drag, speed, polynomial);
    if let Some(fixed) = fixed_drag(&choice.given, area, built, air) {
        polynomial = [fixed, 0.0, 0.0];
        tripped = [0.0; 3];
        drag_parts = DragParts { shaft: fixed, ..DragParts::default() };
    }
    // Drag acts along the shaft's own line, which misses the balance point.
    sum.side_arm = sum.side_arm - built.effects.balance_offset * drag_parts.total();

    let balance = built.mass.balance().si();
    let layout = &built.layout;
    let diameter = parts.shaft.outside.si();
    let mut aero = Aero {
        area,
        diameter,
        drag: polynomial,
        drag_parts,
        tripped,
        trips_until: choice.trips_until.si(),
        slope: sum.slope,
        slope_arm: sum.slope_arm,
        slope_arm2: sum.slope_arm2,
        wake: sum.wake,
        two_blades: sum.two_blades,
        cross_flow: choice.cross_flow.si() * CROSS_FLOW_LENGTH_FACTOR * diameter,
        shaft_span: (layout.shaft_rear.si() - balance, layout.shaft_front.si() - balance),
        vane_flow: sum.vane_flow,
        roll_forcing: sum.roll_forcing,
        roll_damping: sum.roll_damping,
        side: sum.side,
        side_arm: sum.side_arm,
        wake_side: sum.wake_side,
    };
    aero.take(&choice.given, balance);
    aero.checked()
}

/// A set of vanes as a head's wake meets it.
struct Behind {
    set: FinSet,
    slope: f64,
    arm: f64,
}

/// What the build-up reads.
struct BuildUp<'a> {
    parts: &'a Parts,
    built: &'a Built,
    factors: &'a AeroFactors,
    sets: &'a Sets,
}

impl BuildUp<'_> {
    /// Arm of a station ahead of the balance point, m.
    fn arm(&self, station: f64) -> f64 {
        station - self.built.mass.balance().si()
    }

    fn nose(&self, sum: &mut Sum) {
        let point = &self.parts.point;
        let back = nose::centre_share(point.shape) * point.length.si();
        let arm = self.arm(self.built.layout.tip.si() - back);
        sum.lift(nose::SLOPE * frontal(self.parts), arm, self.built.effects.point_tilt);
    }

    /// A bent shaft lifts of itself. By slender-body theory a round body of
    /// area A whose slope to the flow is y' carries `2 A dy'/dx` by length, so
    /// an even curvature carries twice the area times curvature and length, in
    /// the middle of the shaft. What its two ends add stands in the tilts of
    /// point and vanes.
    fn bend(&self, sum: &mut Sum) {
        let layout = &self.built.layout;
        let length = layout.shaft_front.si() - layout.shaft_rear.si();
        let lift = 2.0 * frontal(self.parts) * length * self.factors.bend_lift.si();
        let middle = f64::midpoint(layout.shaft_front.si(), layout.shaft_rear.si());
        sum.force(self.built.effects.curvature * lift, self.arm(middle));
    }

    fn vanes(&self, sum: &mut Sum, drag: &Drag<'_>, speed: f64) -> Option<Behind> {
        let (set, vanes) = (self.sets.vanes?, self.parts.vanes.as_ref()?);
        let (factors, effects) = (self.factors, &self.built.effects);
        let layer = Layer::over(set.span, drag.turbulence);
        let level = layer.lift * factors.vane_slope.si();
        let front = self.built.layout.vane_front.si();
        let arm = self.arm(front - vane_centre(&set));
        let slope = vane_slope(&set) * level;
        sum.lift(slope, arm, effects.shaft_tilt);

        let [forcing, damping] = vane_roll(&set, &layer);
        let forcing = forcing * factors.roll_level.si() * factors.spin_ratio.si();
        // The moment is linear in the angles, so each vane makes its share.
        let angles = vanes.angle.si() + effects.vane.angle / set.count;
        sum.roll_forcing += forcing * angles;
        let friction = drag.fin_friction(&set, speed);
        let profile = profile_damping(&set, friction, vane_edges(&set, vanes.thickness.si()));
        sum.roll_damping += damping * factors.roll_level.si() + profile;
        odd_vane(sum, set.lone_slope() * level, vanes, &effects.vane, arm);

        let flow = vane_cross_flow(&set) * factors.vane_cross_flow.si();
        sum.vane_flow = (flow, self.arm(front - set.centroid()));
        Some(Behind { set, slope, arm })
    }

    fn head(&self, sum: &mut Sum, vanes: Option<&Behind>) {
        let (Some(set), Some(blades)) = (self.sets.blades, &self.parts.point.blades) else {
            return;
        };
        let slope = head_slope(&set) * self.factors.head_slope.si();
        let arm = self.arm(self.built.layout.blade_front.si() - head_centre(&set));
        let mut tilt = self.built.effects.point_tilt;
        if blades.count == 2 {
            let clock = blades.clock.si();
            sum.two_blades = Some(TwoBlades { slope, arm, clock });
            // The tilt counts across the blades only, and there twice the mean.
            let normal = Across::polar(1.0, clock + PI / 2.0);
            let across = 2.0 * (tilt.at0 * normal.at0 + tilt.at90 * normal.at90);
            sum.force(normal * (across * slope) - tilt * slope, arm);
            tilt = normal * across;
        }
        sum.lift(slope, arm, self.built.effects.point_tilt);
        sum.roll_damping += head_damping(&set, vanes.map(|v| &v.set));
        if let Some(Behind { set: behind, slope: vane_slope, arm: vane_arm }) = vanes {
            let share = wake_share(slope, &set, behind) * self.factors.wake.si();
            sum.wake = Wake::new(share * vane_slope, set.edge(), arm, *vane_arm);
            sum.wake_side = tilt * sum.wake.slope;
        }
    }
}

/// The extra forces of a vane that is out of place, one vane turned against the
/// shaft carrying `slope`, m2.
fn odd_vane(sum: &mut Sum, slope: f64, vanes: &Vanes, odd: &arrow::VaneError, arm: f64) {
    const QUARTER: f64 = PI / 2.0;
    let angle = vanes.angle.si();
    let right = Across::polar(slope * (angle + odd.angle), QUARTER + odd.around);
    let meant = Across::polar(slope * angle, QUARTER);
    sum.force(right, arm + odd.forward);
    sum.force(-meant, arm);
}

/// What a layer that is turbulent throughout adds to the drag area.
fn tripped(drag: &Drag<'_>, speed: f64, settled: [f64; 3]) -> [f64; 3] {
    if drag.choice.trips_until.si() > 0.0 {
        let turbulent = Drag { turbulence: 1.0, ..*drag }.polynomial(speed);
        std::array::from_fn(|i| turbulent[i] - settled[i])
    } else {
        [0.0; 3]
    }
}

/// A drag area that the user fixes, m2.
fn fixed_drag(given: &GivenAero, area: f64, built: &Built, air: &Air) -> Option<f64> {
    let by_deceleration =
        given.deceleration.map(|k| 2.0 * k.si() * built.mass.mass().si() / air.density);
    by_deceleration.or_else(|| given.drag.map(|cd| cd.si() * area))
}
