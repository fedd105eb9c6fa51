//! The push of a perfect arrow: nock, limbs or cams and string in the bow's own
//! plane, from full draw until the string lets go. Model card: docs/model/bow.md.

use solve::rk4;

use crate::LaunchError;
use crate::hold::Hold;
use crate::machine::{Machine, UpperHalf};
use crate::pose::Pose;

/// Largest turn of the fastest motion of the bow in one step, rad. Chosen: the
/// departure speed is then within 1e-5 of its limit (tested).
const TURN: f64 = 0.5;
/// How far past brace a string is followed, over the stroke. Chosen: a bow whose
/// string still pulls there does not let go of this arrow.
const FARTHEST: f64 = 0.4;
/// Steps that no bow needs.
const MOST: usize = 20_000;

/// Place, rate and acceleration of the three motions, one after the other.
type Row = [f64; 9];

/// A push in the bow's own plane, in steps even in time.
///
/// All forces of a bow times a factor, eta^2, make the same motion faster by
/// eta: a loss that takes the same share of every force so needs no second
/// run. Times below are those of the run times 1/eta.
#[derive(Debug, Clone, PartialEq)]
pub struct NominalPush {
    machine: Machine,
    mass: f64,
    step: f64,
    rows: Vec<Row>,
    eta: f64,
    /// When the string lets go, in time of the run.
    end: f64,
    /// Speed at departure, m/s.
    speed: f64,
}

/// The nominal push at an instant.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instant {
    /// Way left to brace, m; negative past it.
    pub left: f64,
    /// Speed of the nock, m/s.
    pub speed: f64,
    /// Its acceleration, m/s2.
    pub acceleration: f64,
    /// Tension of the string, N.
    pub tension: f64,
    /// Hold of the nock.
    pub hold: Hold,
}

impl NominalPush {
    /// Follows the push of an arrow of this mass (kg); the string lets go when
    /// it would have to hold the arrow back by more than `grip` (N).
    ///
    /// # Errors
    /// [`LaunchError::NoRelease`] for a grip that no string overcomes.
    pub fn new(machine: &Machine, mass: f64, grip: f64) -> Result<Self, LaunchError> {
        Self::fine(machine, mass, grip, 1)
    }

    /// As [`NominalPush::new`] with so many times the steps, to test convergence.
    ///
    /// # Errors
    /// As [`NominalPush::new`].
    pub fn fine(machine: &Machine, mass: f64, grip: f64, times: u32) -> Result<Self, LaunchError> {
        let stuck = LaunchError::NoRelease { grip };
        let start = machine.full_draw();
        let step = TURN / machine.fastest(mass) / f64::from(times);
        let rhs = |_: f64, y: &[f64; 6]| {
            let pose = pose_at(y);
            let [a, b, c] = machine.push(mass, &pose).acceleration;
            [pose.rate[0], pose.rate[1], pose.rate[2], a, b, c]
        };
        let mut state = [0.0; 6];
        state[..3].copy_from_slice(&start.place);
        let mut rows = Vec::new();
        let farthest = machine.brace() - FARTHEST * machine.stroke();
        loop {
            let [.., a, b, c] = rhs(0.0, &state);
            let [x, p, w, v, q, u] = state;
            rows.push([x, p, w, v, q, u, a, b, c]);
            // A few steps more than the strongest grip needs, for any loss.
            if x < machine.brace() && mass * a > 8.0 * grip + 1.0 {
                break;
            }
            if !(x > farthest && rows.len() < MOST * times as usize && a.is_finite()) {
                break;
            }
            state = rk4(rhs, 0.0, &state, step);
        }
        let mut push =
            Self { machine: machine.clone(), mass, step, rows, eta: 1.0, end: 0.0, speed: 0.0 };
        push.end = push.letting_go(grip).ok_or(stuck)?;
        push.speed = push.leaves();
        Ok(push)
    }

    /// The same push with a loss or gain such that the arrow leaves at `speed`.
    pub(crate) fn leaving_at(mut self, speed: f64, grip: f64) -> Result<Self, LaunchError> {
        // With the forces the grip's share of them moves, and so the end; the
        // speed hardly changes there.
        for _ in 0..3 {
            self.eta *= speed / self.leaves();
            self.end = self.letting_go(grip).ok_or(LaunchError::NoRelease { grip })?;
        }
        self.eta *= speed / self.leaves();
        self.speed = speed;
        Ok(self)
    }

    /// First time of the run, past brace, at which holding the arrow back would
    /// take more than the grip.
    fn letting_go(&self, grip: f64) -> Option<f64> {
        let square = self.eta * self.eta;
        let held = |time: f64| {
            let pose = pose_at(&self.row(time));
            let back = self.machine.push(self.mass, &pose).acceleration[0];
            (pose.place[0], square * self.mass * back - grip)
        };
        let gone = |time: f64| {
            let (x, lack) = held(time);
            x < self.machine.brace() && lack > 0.0
        };
        let first = self
            .rows
            .iter()
            .position(|row| row[0] < self.machine.brace() && square * self.mass * row[6] > grip)?;
        let last = first as f64 * self.step;
        let (mut low, mut high) = (last - self.step, last);
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            if gone(middle) {
                high = middle;
            } else {
                low = middle;
            }
        }
        Some(high)
    }

    /// Motions between steps: the cubic through places and rates, and through
    /// rates and accelerations.
    fn row(&self, time: f64) -> [f64; 6] {
        let at = (time / self.step).clamp(0.0, (self.rows.len() - 1) as f64);
        // Not negative and at most the number of rows.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let index = (at as usize).min(self.rows.len() - 2);
        let t = at - index as f64;
        let (from, to) = (&self.rows[index], &self.rows[index + 1]);
        let (square, cube) = (t * t, t * t * t);
        let (first, second) = (3.0 * square - 2.0 * cube, t - 2.0 * square + cube);
        let third = cube - square;
        std::array::from_fn(|i| {
            from[i]
                + (to[i] - from[i]) * first
                + self.step * (from[i + 3] * second + to[i + 3] * third)
        })
    }

    /// The push at a time since release, s.
    pub fn at(&self, time: f64) -> Instant {
        let pose = pose_at(&self.row(time * self.eta));
        let push = self.machine.push(self.mass, &pose);
        let square = self.eta * self.eta;
        Instant {
            left: pose.place[0] - self.machine.brace(),
            speed: -self.eta * pose.rate[0],
            acceleration: -square * push.acceleration[0],
            tension: square * push.tension,
            hold: self.machine.hold(&pose).times(square),
        }
    }

    /// The upper half of the bow at a time since release, s.
    pub(crate) fn upper_half(&self, time: f64) -> UpperHalf {
        self.machine.upper_half(&pose_at(&self.row(time * self.eta)))
    }

    /// When the string lets go, s since release.
    pub fn duration(&self) -> f64 {
        self.end / self.eta
    }

    /// Mass of the arrow, kg.
    pub(crate) fn mass(&self) -> f64 {
        self.mass
    }

    /// Speed at departure, m/s.
    pub fn speed(&self) -> f64 {
        self.speed
    }

    fn leaves(&self) -> f64 {
        -self.eta * self.row(self.end)[3]
    }

    /// Share of every static force that does not come back.
    pub fn loss(&self) -> f64 {
        1.0 - self.eta * self.eta
    }

    /// When the nock has come this share of the power stroke, s; at the latest
    /// when the string lets go.
    pub fn reaches(&self, share: f64) -> f64 {
        let x = self.machine.brace() + self.machine.stroke() * (1.0 - share);
        let (mut low, mut high) = (0.0, self.end);
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if self.row(middle)[0] > x {
                low = middle;
            } else {
                high = middle;
            }
        }
        high / self.eta
    }

    /// Kinetic energy of string, and of limbs and cams, at departure, and what
    /// they still hold bent over brace, J.
    pub fn kept(&self) -> [f64; 3] {
        let pose = pose_at(&self.row(self.end));
        let [string, limbs] = self.machine.moving(&pose);
        let square = self.eta * self.eta;
        [square * string, square * limbs, square * self.machine.energy(&pose)]
    }
}

fn pose_at(y: &[f64; 6]) -> Pose {
    Pose { place: [y[0], y[1], y[2]], rate: [y[3], y[4], y[5]] }
}
