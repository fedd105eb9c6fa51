//! A fixed-blade head and its wake. Model card: `docs/model/broadhead.md`.

use super::fins::FinSet;
use super::vanes::forward;

/// Normal-force area slope of a head's blades with what the ferrule carries, m2
/// per rad; of two blades the mean over a turn \[own-lattice\]. Five and six
/// blades as vanes (chosen; none were worked out).
pub fn head_slope(set: &FinSet) -> f64 {
    let crowding = match set.count {
        n if n < 2.5 => 1.02,
        n if n < 3.5 => 1.05,
        n if n < 4.5 => 1.02,
        n if n < 5.5 => 0.94,
        _ => 0.82 + 0.18 * set.body_share(),
    };
    set.set_slope() * crowding
}

/// Centre of pressure of a head's blades behind the front of the root, m: a
/// triangle carries at .565 of its root \[own-lattice\], .065 behind Barrowman's;
/// shapes between triangle and rectangle lie between (chosen).
pub fn head_centre(set: &FinSet) -> f64 {
    set.centre() + 0.065 * (set.root - set.tip).max(0.0) - forward(set)
}

/// The share of the vanes' force that a head of this slope (m2) takes off them
/// by its wake, both at the same small incidence: roll averaged, standard
/// deviation 4.5 %, worst of 36 cases 10 % \[own-lattice\].
pub fn wake_share(slope: f64, head: &FinSet, vanes: &FinSet) -> f64 {
    0.205 * slope / (head.edge().powi(2) + vanes.edge().powi(2))
}

/// Incidence times distance at which the wake has drifted off the vanes by so
/// much that half of it counts, over the head's reach. \[own-lattice\]
const DRIFT: f64 = 1.5;

/// The wake of a head's blades where it meets the vanes.
///
/// The vanes meet air that the head pushed aside one lag earlier. Seen as a
/// force on the vanes, with `e` the share:
///
/// `-q V e S_v (u_n + (2 x_h - x_v) w)` at the arm of the vanes, and
/// `e = e0 / (1 + (d |u_n| / (1.5 R_h V))^2)`.
///
/// `x_h w` is the head's own rate, and `d w` what the arrow has turned since.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Wake {
    /// Share `e0` times the slope of the vanes, m2.
    pub slope: f64,
    /// Arm of the vanes, m.
    pub arm: f64,
    /// Arm by which the head's rate counts, `2 x_h - x_v`, m.
    pub lead: f64,
    /// Square of distance over 1.5 times the head's reach: by it the wake
    /// drifts off.
    pub drift: f64,
    /// Distance from head to vanes, m.
    pub lag: f64,
}

impl Wake {
    /// The wake of a head of this reach (m) at the arm `head` over vanes at the
    /// arm `vanes`, both m, taking `slope` (m2) off them.
    pub(super) fn new(slope: f64, reach: f64, head: f64, vanes: f64) -> Self {
        let lag = head - vanes;
        let drift = (lag / (DRIFT * reach)).powi(2);
        Self { slope, arm: vanes, lead: head + lag, drift, lag }
    }

    /// The part of it that is left at an incidence (rad).
    pub fn left_at(&self, incidence: f64) -> f64 {
        1.0 / (1.0 + self.drift * incidence * incidence)
    }
}
