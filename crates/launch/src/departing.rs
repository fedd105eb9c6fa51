//! The departure that a push ends in.

use units::{Angle, AngularRate};

use crate::elastic::{Elastic, MOTIONS};
use crate::film::part;
use crate::flex::{Flex, MODES};
use crate::{Departure, Form, GivenDeparture, LaunchError};

/// Largest nose angle of the push, rad. Chosen: sine and angle differ by
/// 0.7 % there.
const FARTHEST: f64 = 0.2;
/// Largest slope at which nock or point may leave on a bent shaft, rad. Chosen:
/// the shortening of the bent shaft is then 3 % wrong, and a finger release
/// bends an arrow half as far.
const MOST_BENT: f64 = 0.35;

/// Motions and rates at departure, left and up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PushEnd(pub(crate) [[f64; 2 * MOTIONS]; 2]);

impl PushEnd {
    pub(crate) fn of(state: &[f64]) -> Self {
        Self(std::array::from_fn(|plane| {
            let (motion, rate) = (part(state, plane), part(state, 2 + plane));
            std::array::from_fn(|i| if i < MOTIONS { motion[i] } else { rate[i - MOTIONS] })
        }))
    }
}

impl Departure {
    /// How far apart two departures may land at most at a distance (m): by place,
    /// by velocity and speed, and by what fletching makes of angle and turning.
    ///
    /// Fletching turns a rate w into a path that leans by A w/V, A the arrow's inertia
    /// over its mass and over the lever of the fletching; an angle into a place beside
    /// the path by A times it.
    pub fn apart(&self, other: &Self, distance: f64) -> f64 {
        /// The least and the largest A, m. Chosen: arrows have 0.15 to 0.35.
        const ARMS: [f64; 2] = [0.1, 0.4];
        let less = |field: &dyn Fn(&Self) -> [f64; 2]| {
            let (a, b) = (field(self), field(other));
            [a[0] - b[0], a[1] - b[1]]
        };
        let place = less(&|d| [d.left, d.up]);
        let velocity = less(&|d| [d.velocity_left, d.velocity_up]);
        let angle = less(&|d| [d.yaw, d.pitch]);
        let rate = less(&|d| [d.yaw_rate, d.pitch_rate]);
        let time = distance / self.speed;
        let slower = (self.speed / other.speed - 1.0).abs();
        let off = ARMS.map(|arm| {
            let side = |p: usize| (velocity[p] + arm * rate[p]) * time;
            side(0).hypot(side(1)) + arm * angle[0].hypot(angle[1])
        });
        place[0].hypot(place[1])
            + off[0].max(off[1])
            + slower * units::STANDARD_GRAVITY * time * time
    }
}

/// What an arrow that leaves needs to know of how it bends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Leaving {
    /// Of [`Elastic::slowing`].
    pub(crate) slowing: f64,
    /// Frequency and decay rate of each shape, displacement of tip and nock in it,
    /// and its slopes at groove and tip.
    frequency: [f64; MODES],
    decay: [f64; MODES],
    tip: [f64; MODES],
    nock: [f64; MODES],
    slopes: [[f64; MODES]; 2],
}

impl Leaving {
    /// Numbers of the shapes.
    pub(crate) const NUMBERS: usize = 6 * MODES;

    pub(crate) fn new(arrow: &Elastic, speed: f64) -> Self {
        let ((nock, at_nock), (tip, at_tip)) = (arrow.modes.at(0.0), arrow.modes.at(arrow.tip));
        Self {
            slowing: arrow.slowing(speed),
            frequency: arrow.modes.frequency,
            decay: std::array::from_fn(|k| 0.5 * arrow.damping[2 + k]),
            tip,
            nock,
            slopes: [at_nock, at_tip],
        }
    }

    /// From the numbers that [`Leaving::write`] gives.
    pub(crate) fn of(slowing: f64, numbers: &[f64]) -> Self {
        let five = |from: usize| std::array::from_fn(|k| numbers[from * MODES + k]);
        Self {
            slowing,
            frequency: five(0),
            decay: five(1),
            tip: five(2),
            nock: five(3),
            slopes: [five(4), five(5)],
        }
    }

    pub(crate) fn write(&self, to: &mut Vec<f64>) {
        let [at_nock, at_tip] = self.slopes;
        for five in [self.frequency, self.decay, self.tip, self.nock, at_nock, at_tip] {
            to.extend(five);
        }
    }

    /// How the shaft swings at departure.
    fn flex(&self, end: &PushEnd) -> Flex {
        let pick = |from: usize| {
            std::array::from_fn(|plane| std::array::from_fn(|k| end.0[plane][from + k]))
        };
        // Amplitude cubed of the first mode, both planes together.
        let square: f64 = (0..2)
            .map(|p| end.0[p][2].powi(2) + (end.0[p][MOTIONS + 2] / self.frequency[0]).powi(2))
            .sum();
        Flex {
            slowing: self.slowing * square.powf(1.5),
            frequency: self.frequency,
            decay: self.decay,
            tip: self.tip,
            nock: self.nock,
            amplitude: pick(2),
            rate: pick(MOTIONS + 2),
        }
    }
}

pub(crate) fn departure(
    end: &PushEnd,
    leaving: &Leaving,
    speed: f64,
    index: Angle,
    form: &Form,
    given: &GivenDeparture,
) -> Result<Departure, LaunchError> {
    let [left, up] = end.0;
    let (yaw, pitch) = (left[1], up[1]);
    if !end.0.iter().flatten().all(|value| value.is_finite()) {
        return Err(LaunchError::NotFinite { yaw, pitch });
    }
    let angle = yaw.abs().max(pitch.abs());
    if angle > FARTHEST {
        return Err(LaunchError::TooFar { angle, limit: FARTHEST });
    }
    let slope = leaving
        .slopes
        .iter()
        .flat_map(|slope| [left, up].map(|m| (0..MODES).map(|k| slope[k] * m[2 + k]).sum::<f64>()))
        .fold(0.0, |most: f64, slope| most.max(slope.abs()));
    if slope > MOST_BENT {
        return Err(LaunchError::TooBent { slope, limit: MOST_BENT });
    }
    let from_motion = |given: Option<Angle>, own: f64, sideways: f64| {
        given.map_or(own, |angle| angle.si() + sideways / speed)
    };
    let rigid = [given.yaw_rate, given.pitch_rate];
    let rate = |plane: usize| rigid[plane].map_or(end.0[plane][MOTIONS + 1], AngularRate::si);
    Ok(Departure {
        speed,
        velocity_left: left[MOTIONS],
        velocity_up: up[MOTIONS],
        yaw: from_motion(given.yaw, yaw, left[MOTIONS]) + form.release_left.si(),
        pitch: from_motion(given.pitch, pitch, up[MOTIONS]) + form.release_up.si(),
        yaw_rate: rate(0),
        pitch_rate: rate(1),
        spin: given.spin.map_or(0.0, AngularRate::si),
        roll: index.si(),
        left: left[0],
        up: up[0],
        flex: leaving.flex(end),
    })
}
