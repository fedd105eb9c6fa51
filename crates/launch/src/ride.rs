//! The rigid arrow's sideways motion while it is pushed. Model card:
//! docs/model/push.md.

use solve::rk4;

use crate::{LaunchError, Law};

/// Fewest steps over the stroke. Chosen: doubling them moves no departure
/// value by a ten-thousandth of itself (tested).
pub const STEPS: usize = 96;

/// Largest turn of the fastest swing of the held arrow in one step, rad.
/// Chosen: at it a fourth-order step errs by about 0.2^5/120 = 3e-6.
const TURN: f64 = 0.2;

/// Most steps. Chosen: a hundred times what a stiff real rest asks for.
const MOST_STEPS: f64 = 50_000.0;

/// What the bow does to the arrow, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guide {
    /// Power stroke, m.
    pub stroke: f64,
    /// Departure speed, m/s.
    pub speed: f64,
    /// Sideways restraint of the string over its simple value.
    pub restraint: f64,
    /// Nock to tip line at brace, m.
    pub tip_line: f64,
    /// Stiffness of the rest, N/m.
    pub rest_stiffness: f64,
    /// Damping of the rest, N s/m.
    pub rest_damping: f64,
    /// Share of the stroke after which the rest has let go.
    pub rest_share: f64,
    /// Rest ahead of the string at brace, m.
    pub rest_ahead: f64,
}

/// The rigid arrow, SI. Pairs are (left, up).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stick {
    /// Mass, kg.
    pub mass: f64,
    /// Transverse moment of inertia, kg m2.
    pub inertia: f64,
    /// Balance point ahead of the nock groove, m.
    pub lever: f64,
    /// Nock groove from the principal axis, m.
    pub groove: [f64; 2],
    /// Balance point from the shaft's own axis, m.
    pub balance: [f64; 2],
    /// Direction of the shaft relative to the principal axis, rad.
    pub tilt: [f64; 2],
}

/// The sideways state of the arrow, SI. Pairs are (left, up).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sideways {
    /// Balance point from the push line, m.
    pub place: [f64; 2],
    /// Principal axis from the push line, rad.
    pub angle: [f64; 2],
    /// Velocity of the balance point, m/s.
    pub velocity: [f64; 2],
    /// Rate of the angle, rad/s.
    pub rate: [f64; 2],
}

/// The arrow at full draw: nock on the push line, shaft on the rest, still.
pub fn at_full_draw(guide: &Guide, stick: &Stick) -> Sideways {
    let rest = guide.rest_ahead + guide.stroke;
    let arm = rest - stick.lever;
    let angle =
        std::array::from_fn(|i| (stick.groove[i] + stick.balance[i] - arm * stick.tilt[i]) / rest);
    let place = std::array::from_fn(|i: usize| stick.lever * angle[i] - stick.groove[i]);
    Sideways { place, angle, velocity: [0.0; 2], rate: [0.0; 2] }
}

/// Follows the arrow from full draw to the end of the stroke in at least
/// `steps` steps.
///
/// The independent variable is the square root of the travelled share: with it
/// the start from rest is smooth and the stroke ends on a step.
///
/// # Errors
/// [`LaunchError::TooStiff`] when string or rest ask for too short steps, and
/// [`LaunchError::NotFinite`] when the values given make no motion.
pub fn ride(
    law: &impl Law,
    guide: &Guide,
    stick: &Stick,
    steps: usize,
) -> Result<Sideways, LaunchError> {
    let track = Track::new(law, guide, stick);
    let steps = steps.max(track.needed()?) as f64;
    let mut state = pack(&at_full_draw(guide, stick));
    let let_go = guide.rest_share.sqrt();
    for (from, to, held) in [(0.0, let_go, true), (let_go, 1.0, false)] {
        let count = (steps * (to - from)).ceil();
        let step = (to - from) / count;
        let mut done = 0.0;
        while done < count {
            state = rk4(|q, y| track.slope(held, q, y), from + done * step, &state, step);
            done += 1.0;
        }
    }
    if state.iter().all(|value| value.is_finite()) {
        Ok(unpack(&state))
    } else {
        Err(LaunchError::NotFinite { yaw: state[2], pitch: state[3] })
    }
}

/// The equations of motion with what stays the same along the stroke.
struct Track<'a, L> {
    law: &'a L,
    guide: &'a Guide,
    stick: &'a Stick,
    /// Push on the arrow over the law's force, N.
    unit_force: f64,
    /// Square of the speed over travelled share and mean of the law, m2/s2.
    unit_pace: f64,
    /// One over the mass, 1/kg.
    lightness: f64,
    /// One over the inertia, 1/(kg m2).
    nimbleness: f64,
}

/// Push, pace and string restraint at a travelled share.
struct Instant {
    /// Distance yet to travel, m.
    left: f64,
    /// Push, N.
    force: f64,
    /// Speed over the root of the travelled share, m/s.
    pace: f64,
    /// Sideways stiffness of the string, N/m.
    string: f64,
}

impl<'a, L: Law> Track<'a, L> {
    fn new(law: &'a L, guide: &'a Guide, stick: &'a Stick) -> Self {
        let unit_pace = guide.speed * guide.speed / law.mean(1.0);
        Self {
            law,
            guide,
            stick,
            unit_force: 0.5 * stick.mass * unit_pace / guide.stroke,
            unit_pace,
            lightness: 1.0 / stick.mass,
            nimbleness: 1.0 / stick.inertia,
        }
    }

    fn at(&self, s: f64) -> Instant {
        let left = self.guide.stroke * (1.0 - s);
        let force = self.unit_force * self.law.force(s);
        Instant {
            left,
            force,
            pace: (self.unit_pace * self.law.mean(s)).sqrt(),
            string: self.guide.restraint * force / (self.guide.tip_line + left),
        }
    }

    /// Derivative of the state by q, the square root of the travelled share.
    fn slope(&self, held: bool, q: f64, y: &[f64; 8]) -> [f64; 8] {
        let (guide, stick) = (self.guide, self.stick);
        let at = self.at(q * q);
        let dt = 2.0 * guide.stroke / at.pace;
        let arm = guide.rest_ahead + at.left - stick.lever;
        let arm_rate = -at.pace * q;
        let mut out = [0.0; 8];
        for i in 0..2 {
            let [place, angle, velocity, rate] = [y[i], y[i + 2], y[i + 4], y[i + 6]];
            let sway = stick.lever * angle - stick.groove[i];
            let pull = -at.string * (place - sway);
            let mut across = pull;
            let mut torque = at.force * sway - stick.lever * pull;
            if held {
                let lean = angle + stick.tilt[i];
                let shaft = place + arm * lean - stick.balance[i];
                let shaft_rate = velocity + arm * rate + arm_rate * lean;
                let hold = -guide.rest_stiffness * shaft - guide.rest_damping * shaft_rate;
                across += hold;
                torque += arm * hold;
            }
            out[i] = velocity * dt;
            out[i + 2] = rate * dt;
            out[i + 4] = across * self.lightness * dt;
            out[i + 6] = torque * self.nimbleness * dt;
        }
        out
    }

    /// Steps that the stiffest of string and rest asks for.
    fn needed(&self) -> Result<usize, LaunchError> {
        /// Places looked at; the stiffness changes little between them.
        const PLACES: u32 = 8;
        let (guide, stick) = (self.guide, self.stick);
        let give = |arm: f64| self.lightness + arm * arm * self.nimbleness;
        let mut turn: f64 = 0.0;
        for place in 0..=PLACES {
            let s = f64::from(place) / f64::from(PLACES);
            let at = self.at(s);
            let mut square = at.string * give(stick.lever);
            if s <= guide.rest_share {
                let give = give(guide.rest_ahead + at.left - stick.lever);
                square += guide.rest_stiffness * give + (guide.rest_damping * give).powi(2);
            }
            turn = turn.max(square.sqrt() * 2.0 * guide.stroke / at.pace);
        }
        let steps = (turn / TURN).ceil();
        if steps > MOST_STEPS {
            return Err(LaunchError::TooStiff { steps, most: MOST_STEPS });
        }
        // A whole number from 0 to MOST_STEPS.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        Ok(steps as usize)
    }
}

fn pack(s: &Sideways) -> [f64; 8] {
    [
        s.place[0],
        s.place[1],
        s.angle[0],
        s.angle[1],
        s.velocity[0],
        s.velocity[1],
        s.rate[0],
        s.rate[1],
    ]
}

fn unpack(y: &[f64; 8]) -> Sideways {
    Sideways {
        place: [y[0], y[1]],
        angle: [y[2], y[3]],
        velocity: [y[4], y[5]],
        rate: [y[6], y[7]],
    }
}
