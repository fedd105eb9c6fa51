//! Roll of vanes and blades. Model card: `docs/model/vanes.md`.

use std::f64::consts::PI;

use super::fins::FinSet;
use super::vanes::Layer;

/// Share of the strip sum, intercept and slope by body radius over edge.
type Share = (f64, f64);

/// Forcing and damping of a set over its strip sum, f0 and f1. All fins are
/// loaded the same way round, so the air joins round the body and slips through:
/// the strip sum is twice too strong in both. \[own-lattice\], body radius over
/// edge .15 to .37, within 3 %.
struct Row {
    rectangular: [Share; 2],
    tapered: [Share; 2],
}

const THREE: Row = Row {
    rectangular: [(0.327, 0.842), (0.281, 0.808)],
    tapered: [(0.407, 0.805), (0.403, 0.772)],
};
const FOUR: Row = Row {
    rectangular: [(0.270, 0.795), (0.246, 0.736)],
    tapered: [(0.338, 0.770), (0.353, 0.707)],
};
const SIX: Row = Row {
    rectangular: [(0.209, 0.659), (0.205, 0.592)],
    tapered: [(0.262, 0.642), (0.294, 0.565)],
};
/// Two fins over three: planar and three-finned slender stars damp as
/// pi/4 to 1.344 pi/4, that is 1/2 to 0.448 for each fin \[own-lattice\]; taken
/// for forcing too (chosen).
const TWO_OVER_THREE: f64 = 0.5 / 0.448;
/// Tip over root of the tapered rows.
const TAPER: f64 = 0.35;

impl Row {
    fn at(&self, set: &FinSet) -> [f64; 2] {
        // Between the two shapes; beyond them the nearer one holds (chosen).
        let square = ((set.tip / set.root - TAPER) / (1.0 - TAPER)).clamp(0.0, 1.0);
        let x = set.body_share();
        std::array::from_fn(|i| {
            let of = |(level, slope): Share| level + slope * x;
            let (tapered, rectangular) = (of(self.tapered[i]), of(self.rectangular[i]));
            tapered + square * (rectangular - tapered)
        })
    }
}

/// Forcing and damping of a set of two to six vanes over its strip sum, in even
/// air. Five are the mean of four and six.
pub fn roll_shares(set: &FinSet) -> [f64; 2] {
    match set.count {
        n if n < 2.5 => THREE.at(set).map(|f| f * TWO_OVER_THREE),
        n if n < 3.5 => THREE.at(set),
        n if n < 4.5 => FOUR.at(set),
        n if n < 5.5 => {
            let (four, six) = (FOUR.at(set), SIX.at(set));
            [f64::midpoint(four[0], six[0]), f64::midpoint(four[1], six[1])]
        }
        _ => SIX.at(set),
    }
}

/// Roll moment area per rad of common vane angle, m3, and its damping by lift,
/// m4.
pub(super) fn vane_roll(set: &FinSet, layer: &Layer) -> [f64; 2] {
    let [f0, f1] = roll_shares(set);
    [set.strip_forcing() * f0 * layer.forcing, set.strip_damping() * f1 * layer.damping]
}

/// Roll damping by drag along the helix, m4: friction on both faces of the
/// vanes, and the drag area of their edges by height (m).
pub(super) fn profile_damping(set: &FinSet, friction: f64, edges: f64) -> f64 {
    let edge_moment = edges * (set.edge().powi(3) - set.radius.powi(3)) / 3.0;
    set.count * (2.0 * friction * set.second_moment() + edge_moment)
}

/// Roll damping by friction on a shaft of this radius and length, m4.
pub(super) fn shaft_damping(radius: f64, length: f64, friction: f64) -> f64 {
    2.0 * PI * radius.powi(3) * length * friction
}

/// Roll damping of a head's blades, m4, with what vanes behind them give back:
/// they take the head's swirl out of the air \[own-lattice\]. Five and six blades
/// follow the stars of so many fins (chosen; none were worked out).
pub(super) fn head_damping(head: &FinSet, vanes: Option<&FinSet>) -> f64 {
    let together = match head.count {
        n if n < 2.5 => 0.75,
        n if n < 3.5 => 0.67,
        n if n < 4.5 => 0.61,
        n if n < 5.5 => 0.56,
        _ => 0.51,
    };
    let back = vanes.map_or(0.0, |v| (0.62 * (v.edge() / head.edge()).powi(2)).min(1.0));
    head.strip_damping() * head.damping_factor() * together * (1.0 - back)
}
