//! The elastic arrow's sideways motion while it is pushed. Model card:
//! docs/model/push.md.

use solve::rk4;

use crate::bow::Bow;
use crate::elastic::{Elastic, Flaw, MOTIONS};
use crate::hold::{Contact, contacts, string};
use crate::{LaunchError, Law};

/// Fewest steps over the stroke. Chosen: fewer would show in plots of the push.
pub const STEPS: usize = 96;
/// Largest turn of the fastest swing in one step, rad. Chosen: doubling the
/// steps then moves no departure rate by 1e-3 of itself (tested).
const TURN: f64 = 0.7;
/// Most steps. Chosen: a hundred times what a stiff real rest asks for.
const MOST_STEPS: f64 = 50_000.0;

/// Work on the sideways motion so far, J.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Work {
    /// By the thrust along the shaft.
    pub thrust: f64,
    /// By the string's sideways restraint.
    pub string: f64,
    /// By the rest.
    pub rest: f64,
    /// By the shaft's own damping; negative.
    pub damping: f64,
}

/// Where the arrow is in its sideways motion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Frame {
    /// Time since release, s.
    pub time: f64,
    /// Share of the power stroke travelled.
    pub travelled: f64,
    /// Speed along the push, m/s.
    pub speed: f64,
    /// Push on the nock, N.
    pub push: f64,
    /// Force of the string on the nock, left and up, N.
    pub string: [f64; 2],
    /// Force of the rest on the shaft, left and up, N.
    pub rest: [f64; 2],
    /// Motions, left and up: place (m), angle (rad), modes (m sqrt(kg)).
    pub(crate) motion: [[f64; MOTIONS]; 2],
    /// Their rates, per second.
    pub(crate) rate: [[f64; MOTIONS]; 2],
    /// Work done so far.
    pub work: Work,
}

impl Frame {
    /// Place of the balance point, left and up, m.
    pub fn place(&self) -> [f64; 2] {
        self.motion.map(|m| m[0])
    }

    /// Angle of the principal axis, left and up, rad.
    pub fn angle(&self) -> [f64; 2] {
        self.motion.map(|m| m[1])
    }

    /// Velocity of the balance point, left and up, m/s.
    pub fn velocity(&self) -> [f64; 2] {
        self.rate.map(|m| m[0])
    }

    /// Rate of the principal axis, left and up, rad/s.
    pub fn turning(&self) -> [f64; 2] {
        self.rate.map(|m| m[1])
    }

    /// Amplitudes of the bending modes, left and up, m sqrt(kg).
    pub fn bending(&self) -> [Vec<f64>; 2] {
        self.motion.map(|m| m[2..].to_vec())
    }
}

/// One push of one arrow.
pub(crate) struct Track<'a, L> {
    pub(crate) law: &'a L,
    pub(crate) bow: &'a Bow,
    pub(crate) arrow: &'a Elastic,
    pub(crate) flaws: [Flaw; 2],
    /// Roll of the index vane, rad; turns the shaft's stiff side.
    pub(crate) roll: f64,
    pub(crate) stroke: f64,
    /// Modes in use, at most all of them.
    pub(crate) modes: usize,
    contacts: [Contact; 2],
    /// Acceleration over the law's force.
    unit_acceleration: f64,
    /// Square of the speed over travelled share and mean of the law.
    unit_pace: f64,
}

/// Components of the integrated state: motions, rates, work, time.
const SIZE: usize = 4 * MOTIONS + 5;

/// Push, pace and restraint at a travelled share.
struct Instant {
    left: f64,
    acceleration: f64,
    pace: f64,
    string: [f64; 2],
    nock: [f64; 2],
}

/// The arrow where it passes over the rest.
struct Over {
    station: f64,
    value: [f64; MOTIONS],
    slope: [f64; MOTIONS],
}

/// Forces in one plane.
struct Pull {
    string: f64,
    rest: f64,
}

impl<'a, L: Law> Track<'a, L> {
    pub(crate) fn new(
        law: &'a L,
        bow: &'a Bow,
        arrow: &'a Elastic,
        flaws: [Flaw; 2],
        (roll, stroke, speed): (f64, f64, f64),
    ) -> Self {
        let unit_pace = speed * speed / law.mean(1.0);
        Self {
            law,
            bow,
            arrow,
            flaws,
            roll,
            stroke,
            modes: MOTIONS - 2,
            contacts: contacts(bow),
            unit_acceleration: 0.5 * unit_pace / stroke,
            unit_pace,
        }
    }

    fn at(&self, s: f64) -> Instant {
        let left = self.stroke * (1.0 - s);
        let acceleration = self.unit_acceleration * self.law.force(s);
        let push = self.arrow.mass * acceleration;
        let bulge = (std::f64::consts::PI * s).sin();
        Instant {
            left,
            acceleration,
            pace: (self.unit_pace * self.law.mean(s)).sqrt(),
            string: string(self.bow, self.bow.tip_line.si() + left).map(|k| k * push),
            nock: [self.bow.path.left.si() * bulge, self.bow.path.up.si() * bulge],
        }
    }

    /// The arrow at full draw: nock on its path, shaft on the rest, straight
    /// and still but for the release.
    pub(crate) fn full_draw(&self) -> [f64; SIZE] {
        let rest = self.bow.rest.ahead.si() + self.stroke;
        let impulse = [self.bow.release.left.si(), self.bow.release.up.si()];
        let mut state = [0.0; SIZE];
        for plane in 0..2 {
            let flaw = &self.flaws[plane];
            let angle = (flaw.groove - flaw.shaft(rest).0) / rest;
            state[plane * MOTIONS] = self.arrow.lever * angle - flaw.groove;
            state[plane * MOTIONS + 1] = angle;
            for i in 0..self.modes + 2 {
                state[(2 + plane) * MOTIONS + i] =
                    impulse[plane] * self.arrow.groove[i] * self.arrow.lightness[i];
            }
        }
        state
    }

    /// Follows the arrow to the end of the stroke, in at least `steps` steps,
    /// and shows every step to `watch`.
    pub(crate) fn follow(
        &self,
        steps: usize,
        mut watch: Option<&mut dyn FnMut(Frame)>,
    ) -> Result<Frame, LaunchError> {
        let steps = steps.max(self.needed()?) as f64;
        let mut state = self.full_draw();
        let let_go = self.bow.rest.share.si().sqrt();
        if let Some(watch) = &mut watch {
            watch(self.frame(true, 0.0, &state));
        }
        for (from, to, held) in [(0.0, let_go, true), (let_go, 1.0, false)] {
            let count = (steps * (to - from)).ceil();
            let step = (to - from) / count;
            let mut done = 0.0;
            while done < count {
                state = rk4(|q, y| self.slope(held, q, y), from + done * step, &state, step);
                done += 1.0;
                if let Some(watch) = &mut watch {
                    watch(self.frame(held, from + done * step, &state));
                }
            }
        }
        Ok(self.frame(false, 1.0, &state))
    }

    fn pull(&self, over: Option<&Over>, at: &Instant, state: &[f64; SIZE], plane: usize) -> Pull {
        let (motion, rate) = (part(state, plane), part(state, plane + 2));
        let flaw = &self.flaws[plane];
        let nock = dot(&self.arrow.groove, motion) + flaw.groove - at.nock[plane];
        let mut pull = Pull { string: -at.string[plane] * nock, rest: 0.0 };
        if let Some(over) = over {
            let (offset, lean) = flaw.shaft(over.station);
            let place = dot(&over.value, motion) + offset;
            // The shaft slides past the rest, so its lean shows as velocity.
            let slide = self.speed_at(at) * (dot(&over.slope, motion) + lean);
            pull.rest = self.contacts[plane].force(place, dot(&over.value, rate) - slide);
        }
        pull
    }

    fn over(&self, at: &Instant) -> Over {
        let station = self.bow.rest.ahead.si() + at.left;
        let (value, slope) = self.arrow.at(station);
        Over { station, value, slope }
    }

    fn speed_at(&self, at: &Instant) -> f64 {
        at.pace * (1.0 - at.left / self.stroke).max(0.0).sqrt()
    }

    /// Derivative of the state by the square root of the travelled share: with
    /// it the start from rest is smooth and the stroke ends on a step.
    fn slope(&self, held: bool, q: f64, state: &[f64; SIZE]) -> [f64; SIZE] {
        let at = self.at(q * q);
        let dt = 2.0 * self.stroke / at.pace;
        let arrow = self.arrow;
        let used = self.modes + 2;
        let over = held.then(|| self.over(&at));
        let rest_shape = over.as_ref().map_or([0.0; MOTIONS], |over| over.value);
        let (sin, cos) = (2.0 * self.roll).sin_cos();
        // Stiffness of the left plane over the mean less one, and coupling.
        let more = -(arrow.stiff.at0 * cos - arrow.stiff.at90 * sin);
        let cross = -(arrow.stiff.at0 * sin + arrow.stiff.at90 * cos);
        let mut out = [0.0; SIZE];
        for plane in 0..2 {
            let (motion, rate) = (part(state, plane), part(state, plane + 2));
            let other = part(state, 1 - plane);
            let pull = self.pull(over.as_ref(), &at, state, plane);
            let stiff = if plane == 0 { 1.0 + more } else { 1.0 - more };
            let flaw = &self.flaws[plane];
            let mut work = [0.0; 4];
            for i in 0..used {
                let thrust = at.acceleration * (dot(&arrow.thrust[i], motion) + flaw.thrust[i]);
                let string = arrow.groove[i] * pull.string;
                let rest = rest_shape[i] * pull.rest;
                let damping = -arrow.damping[i] * rate[i];
                let spring = -arrow.spring[i] * (stiff * motion[i] + cross * other[i]);
                let all = thrust + string + rest + damping + spring;
                out[plane * MOTIONS + i] = rate[i] * dt;
                out[(2 + plane) * MOTIONS + i] = all * arrow.lightness[i] * dt;
                for (sum, force) in work.iter_mut().zip([thrust, string, rest, damping]) {
                    *sum += force * rate[i] * dt;
                }
            }
            for (k, value) in work.iter().enumerate() {
                out[4 * MOTIONS + k] += value;
            }
        }
        out[SIZE - 1] = dt;
        out
    }

    fn frame(&self, held: bool, q: f64, state: &[f64; SIZE]) -> Frame {
        let at = self.at(q * q);
        let over = held.then(|| self.over(&at));
        let pulls = [0, 1].map(|plane| self.pull(over.as_ref(), &at, state, plane));
        let work = &state[4 * MOTIONS..];
        Frame {
            time: state[SIZE - 1],
            travelled: q * q,
            speed: self.speed_at(&at),
            push: at.acceleration * self.arrow.mass,
            string: [pulls[0].string, pulls[1].string],
            rest: [pulls[0].rest, pulls[1].rest],
            motion: [*part(state, 0), *part(state, 1)],
            rate: [*part(state, 2), *part(state, 3)],
            work: Work { thrust: work[0], string: work[1], rest: work[2], damping: work[3] },
        }
    }

    /// Energy of the sideways motion, J: swinging, turning and bent.
    pub(crate) fn sideways_energy(&self, frame: &Frame) -> f64 {
        let arrow = self.arrow;
        let (sin, cos) = (2.0 * self.roll).sin_cos();
        let more = -(arrow.stiff.at0 * cos - arrow.stiff.at90 * sin);
        let cross = -(arrow.stiff.at0 * sin + arrow.stiff.at90 * cos);
        let mut sum = 0.0;
        for i in 0..self.modes + 2 {
            let [l, u] = [frame.motion[0][i], frame.motion[1][i]];
            let bent = (1.0 + more) * l * l + (1.0 - more) * u * u + 2.0 * cross * l * u;
            let moving = frame.rate[0][i].powi(2) + frame.rate[1][i].powi(2);
            sum += 0.5 * (moving / arrow.lightness[i] + arrow.spring[i] * bent);
        }
        sum
    }

    /// Steps that the fastest swing asks for.
    fn needed(&self) -> Result<usize, LaunchError> {
        /// Places looked at; the stiffness changes little between them.
        const PLACES: u32 = 8;
        let arrow = self.arrow;
        let give = |shape: &[f64; MOTIONS]| -> f64 {
            (0..self.modes + 2).map(|i| shape[i] * shape[i] * arrow.lightness[i]).sum()
        };
        let bend = if self.modes > 0 { arrow.spring[self.modes + 1] } else { 0.0 };
        let mut turn: f64 = 0.0;
        for place in 0..=PLACES {
            let s = f64::from(place) / f64::from(PLACES);
            let at = self.at(s);
            let strings = at.string[0].max(at.string[1]);
            let mut square = bend + strings * give(&arrow.groove);
            if s <= self.bow.rest.share.si() {
                let (over, _) = arrow.at(self.bow.rest.ahead.si() + at.left);
                let give = give(&over);
                for contact in &self.contacts {
                    square = square.max(bend + contact.stiffest() * give);
                    square = square.max((contact.damping() * give).powi(2));
                }
            }
            turn = turn.max(square.sqrt() * 2.0 * self.stroke / at.pace);
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

fn part(state: &[f64; SIZE], index: usize) -> &[f64; MOTIONS] {
    // The state holds four parts of MOTIONS each before the work terms.
    let (parts, _) = state.as_chunks::<MOTIONS>();
    &parts[index]
}

fn dot(a: &[f64; MOTIONS], b: &[f64; MOTIONS]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
