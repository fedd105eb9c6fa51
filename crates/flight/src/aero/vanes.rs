//! Lift of a set of vanes on the shaft. Model card: `docs/model/vanes.md`.

use super::fins::FinSet;

/// The shortest vane the layer was worked out for, m. Below it the air gets
/// slower toward none at the shaft's surface, taken in proportion (chosen).
const SHORT: f64 = 5e-3;

/// What the slow air along the shaft takes off a set of vanes, as factors.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// On lift, b.
    pub lift: f64,
    /// On roll forcing, g0.
    pub forcing: f64,
    /// On roll damping, g1.
    pub damping: f64,
}

impl Layer {
    /// The layer over vanes of this span (m), the shaft's layer being turbulent
    /// to this share. Wash and force weighted with the local speed in a layer
    /// 2.0 mm (laminar) or 7 mm (turbulent) thick; \[own-lattice\], the weighting
    /// chosen.
    pub fn over(span: f64, turbulence: f64) -> Self {
        let thin = Self::of(|s| 1.0 - 1.95e-3 / s, span, 1.6, 0.9);
        let thick = Self::of(|s| 1.0 - 0.28 * (8e-3 / s).powf(0.7), span, 2.25, 1.2);
        let mix = |a: f64, b: f64| a + turbulence * (b - a);
        Self {
            lift: mix(thin.lift, thick.lift),
            forcing: mix(thin.forcing, thick.forcing),
            damping: mix(thin.damping, thick.damping),
        }
    }

    fn of(lift: impl Fn(f64) -> f64, span: f64, forcing: f64, damping: f64) -> Self {
        let least = span.max(SHORT);
        let share = span / least;
        let lift = lift(least);
        let loss = (1.0 - lift).powi(2);
        Self {
            lift: share * lift,
            forcing: share * (1.0 - forcing * loss),
            damping: share * (1.0 - damping * loss),
        }
    }
}

/// Normal-force area slope of a set of vanes with what the shaft carries, m2 per
/// rad, in even air: two to six vanes, within 2 % \[own-lattice\].
pub fn vane_slope(set: &FinSet) -> f64 {
    set.set_slope() * crowding(set)
}

/// What vanes of one set do to each other's lift, `c_N` \[own-lattice\].
fn crowding(set: &FinSet) -> f64 {
    match set.count {
        n if n < 2.5 => 1.0,
        n if n < 3.5 => 1.05,
        n if n < 4.5 => 1.0,
        n if n < 5.5 => 0.94,
        _ => 0.82 + 0.18 * set.body_share(),
    }
}

/// Centre of pressure of a set of vanes behind the front of the root, m; within
/// 0.015 of the root \[own-lattice\]. Rectangular vanes carry well ahead of the
/// quarter chord. For vanes taller than 0.6 of their mean chord nothing is moved
/// (chosen: none were worked out).
pub fn vane_centre(set: &FinSet) -> f64 {
    set.centre() - forward(set)
}

/// How far a blunt edge moves the centre of pressure forward, m.
pub(super) fn forward(set: &FinSet) -> f64 {
    (0.232 - 0.39 * set.span / set.chord()).max(0.0) * set.tip
}

/// Cross-flow drag area of a set of vanes: the lift of the vortices that roll
/// off their side edges, m2 \[own-lattice\], within 10 %. A swept edge sheds over
/// half its length (M, after the suction analogy \[polhamus\]).
pub fn vane_cross_flow(set: &FinSet) -> f64 {
    1.53 * set.count * set.span * (set.tip + 0.5 * set.sweep)
}
