//! The elastic arrow's sideways motion while it is pushed. Model card:
//! docs/model/push.md.

use solve::rk4;

use crate::LaunchError;
use crate::bow::Bow;
use crate::contact::{Contact, contacts};
use crate::elastic::{Elastic, FaultForcing, MOTIONS};
use crate::frame::{Frame, Work};
use crate::nominal::{Instant, NominalPush};

/// Fewest steps until the string lets go. Chosen: fewer would show in plots of
/// the push.
pub const STEPS: usize = 96;
/// One push of one arrow.
pub(crate) struct Track<'a> {
    pub(crate) push: &'a NominalPush,
    pub(crate) bow: &'a Bow,
    pub(crate) arrow: &'a Elastic,
    pub(crate) forcings: [FaultForcing; 2],
    pub(crate) stroke: f64,
    /// Modes in use, at most all of them.
    pub(crate) modes: usize,
    pub(crate) contacts: [Contact; 2],
    /// When the rest is out of reach, s.
    pub(crate) let_go: f64,
    /// When the string lets go, s.
    pub(crate) end: f64,
    /// What one newton on the groove gives it, m/s2.
    pub(crate) ease: f64,
    /// Stiffness of the left plane over the mean less one, and coupling.
    pub(crate) stiff: [f64; 2],
}

/// Motions of the bow inside: two and their rates.
pub(crate) const INSIDE: usize = 4 * MOTIONS;
const WORK: usize = INSIDE + 4;
/// Components of the integrated state: motions, rates, inside, work.
pub(crate) const SIZE: usize = WORK + 5;
pub(crate) type State = [f64; SIZE];

/// What is the same for every state at an instant.
pub(crate) struct Stage {
    pub(crate) at: Instant,
    /// Nock's path and its acceleration.
    pub(crate) path: [f64; 2],
    pub(crate) drift: [f64; 2],
    pub(crate) over: Option<Over>,
    /// Whether the string is on the nock.
    pub(crate) strung: bool,
}

/// The arrow where it passes over the rest.
pub(crate) struct Over {
    pub(crate) value: [f64; MOTIONS],
    pub(crate) slope: [f64; MOTIONS],
    pub(crate) station: f64,
}

/// Forces in one plane, and how the string's parts move.
pub(crate) struct Pull {
    pub(crate) string: f64,
    pub(crate) rest: f64,
    pub(crate) inside: [f64; 2],
}

/// The arrow when nothing but the air is left to act on it, told at the instant
/// at which the string let go.
pub(crate) struct Gone {
    pub(crate) frame: Frame,
    pub(crate) motion: [[f64; MOTIONS]; 2],
    pub(crate) rate: [[f64; MOTIONS]; 2],
}

impl<'a> Track<'a> {
    pub(crate) fn new(
        push: &'a NominalPush,
        bow: &'a Bow,
        arrow: &'a Elastic,
        forcings: [FaultForcing; 2],
        (roll, stroke): (f64, f64),
    ) -> Self {
        let (sin, cos) = (2.0 * roll).sin_cos();
        let stiff = arrow.stiff;
        let end = push.duration();
        let share = bow.rest.share.si();
        let let_go = if share < 1.0 { push.reaches(share) + bow.rest.delay.si() } else { end };
        let mut track = Self {
            push,
            bow,
            arrow,
            forcings,
            stroke,
            modes: MOTIONS - 2,
            contacts: contacts(bow),
            let_go: if bow.rest.share.si() > 0.0 { let_go.min(end) } else { 0.0 },
            end,
            ease: 0.0,
            stiff: [-(stiff.at0 * cos - stiff.at90 * sin), -(stiff.at0 * sin + stiff.at90 * cos)],
        };
        track.limit(MOTIONS - 2);
        track
    }

    /// Takes so many modes into use.
    pub(crate) fn limit(&mut self, modes: usize) {
        self.modes = modes;
        self.ease = (0..modes + 2)
            .map(|i| self.arrow.groove[i] * self.arrow.groove[i] * self.arrow.inverse_modal_mass[i])
            .sum();
    }

    /// Whether the rest is still there when the string has let go.
    pub(crate) fn stays(&self) -> bool {
        self.bow.rest.share.si() >= 1.0
    }

    /// The bow at a time while the string pushes.
    pub(crate) fn pushed(&self, time: f64, held: bool) -> Stage {
        let mut at = self.push.at(time);
        let restraint = &self.bow.restraint;
        at.hold = at.hold.scaled(restraint.left.si(), restraint.up.si());
        // Nock's path, a half sine of the share travelled, and what its bends
        // ask of a nock at this speed.
        let s = 1.0 - at.left / self.stroke;
        let (sin, cos) = (std::f64::consts::PI * s).sin_cos();
        let (rate, gain) = (at.speed / self.stroke, at.acceleration / self.stroke);
        let turn = std::f64::consts::PI * (cos * gain - std::f64::consts::PI * sin * rate * rate);
        let path = [self.bow.path.left.si(), self.bow.path.up.si()];
        Stage {
            over: held.then(|| self.over(at.left)),
            path: path.map(|p| p * sin),
            drift: path.map(|p| p * turn),
            at,
            strung: true,
        }
    }

    pub(crate) fn over(&self, left: f64) -> Over {
        let station = self.bow.rest.ahead.si() + left;
        let (value, slope) = self.arrow.at(station);
        Over { value, slope, station }
    }

    /// Follows the arrow until string and rest have done with it, in at least
    /// `steps` steps until the string lets go, and shows every one of these to
    /// `watch`.
    ///
    /// A rest that stays is followed until the shaft has passed it. The arrow
    /// flies on meanwhile; what the rest has done to it is told as the motion
    /// at the string's release that would have led there without a rest.
    pub(crate) fn follow(
        &self,
        steps: usize,
        mut watch: Option<&mut dyn FnMut(Frame)>,
    ) -> Result<Gone, LaunchError> {
        let steps = steps.max(self.needed()?) as f64;
        let mut state = self.full_draw();
        let mut show = |stage: &Stage, time: f64, state: &State| {
            if let Some(watch) = &mut watch {
                watch(self.frame(stage, time, state));
            }
        };
        let mut first = self.pushed(0.0, self.let_go > 0.0);
        show(&first, 0.0, &state);
        for (from, to, held) in [(0.0, self.let_go, true), (self.let_go, self.end, false)] {
            if to <= from {
                continue;
            }
            let count = (steps * (to - from) / self.end).ceil();
            let step = (to - from) / count;
            first = self.pushed(from, held);
            let mut done = 0.0;
            while done < count {
                let time = from + done * step;
                let (half, last) =
                    (self.pushed(time + 0.5 * step, held), self.pushed(time + step, held));
                state = self.advance([&first, &half, &last], step, &state);
                first = last;
                done += 1.0;
                show(&first, from + done * step, &state);
            }
        }
        let frame = self.frame(&first, self.end, &state);
        let gone = if self.stays() { self.pass(&first.at, self.end / steps, &state) } else { None };
        let state = gone.unwrap_or(state);
        let motion = [*part(&state, 0), *part(&state, 1)];
        Ok(Gone { frame, motion, rate: [*part(&state, 2), *part(&state, 3)] })
    }

    /// Forces in a plane; `free` is the groove's acceleration by all else but
    /// string and rest.
    ///
    /// The string's part at the nock has mass and spring, M n'' = -K n - F with
    /// F on the arrow, n the groove from its path; up and down M and K hold the
    /// bow's inner motions c as well, whose row gives c'' = (pull - `M_zc` n'')/
    /// `M_cc`. Put in, the nock's row is M* n'' = r - F, with M* = M - `M_zc^2/M_cc`
    /// and r the pull on the nock less `M_zc/M_cc` times that on c. The groove
    /// obeys n'' = free + `c_0` F - path'', `c_0` what a newton gives it, and so
    /// n'' = (free - path'' + `c_0` r)/(1 + `c_0` M*), F = r - M* n''.
    #[inline]
    pub(crate) fn pull(&self, stage: &Stage, state: &State, plane: usize, free: f64) -> Pull {
        let (motion, rate) = (part(state, plane), part(state, plane + 2));
        let forcing = &self.forcings[plane];
        let mut pull = Pull { string: 0.0, rest: 0.0, inside: [0.0; 2] };
        let mut free = free;
        if let Some(over) = &stage.over {
            let (offset, lean) = forcing.shaft(over.station);
            let place = dot(&over.value, motion) + offset;
            // The shaft slides past the rest, so its lean shows as velocity.
            let slide = stage.at.speed * (dot(&over.slope, motion) + lean);
            pull.rest = self.contacts[plane].force(place, dot(&over.value, rate) - slide);
            for i in 0..self.modes + 2 {
                free += self.arrow.groove[i]
                    * self.arrow.inverse_modal_mass[i]
                    * over.value[i]
                    * pull.rest;
            }
        }
        if stage.strung {
            let hold = &stage.at.hold;
            let n = dot(&self.arrow.groove, motion) + forcing.groove - stage.path[plane];
            let pulled = match plane {
                0 => [-hold.side * n, 0.0, 0.0],
                _ => hold.pull(n, [state[INSIDE], state[INSIDE + 1]]),
            };
            let across = if plane == 0 { 0.0 } else { hold.across };
            let share = across / hold.inside[0];
            let (mass, on_nock) = (hold.mass - across * share, pulled[0] - share * pulled[1]);
            let moved =
                (free - stage.drift[plane] + self.ease * on_nock) / (1.0 + self.ease * mass);
            pull.string = on_nock - mass * moved;
            pull.inside =
                [(pulled[1] - across * moved) / hold.inside[0], pulled[2] / hold.inside[1]];
        }
        pull
    }

    /// Forces of thrust, damping, shaft and weight on every motion of a plane.
    #[inline]
    fn forces(&self, stage: &Stage, state: &State, plane: usize) -> [[f64; MOTIONS]; 4] {
        let arrow = self.arrow;
        let (motion, rate) = (part(state, plane), part(state, plane + 2));
        let other = part(state, 1 - plane);
        let [more, cross] = self.stiff;
        let stiff = if plane == 0 { 1.0 + more } else { 1.0 - more };
        let forcing = &self.forcings[plane];
        let mut out = [[0.0; MOTIONS]; 4];
        for i in 0..self.modes + 2 {
            out[0][i] = stage.at.acceleration * (dot(&arrow.thrust[i], motion) + forcing.thrust[i]);
            out[1][i] = -arrow.damping[i] * rate[i];
            out[2][i] = -arrow.spring[i] * (stiff * motion[i] + cross * other[i]);
        }
        if plane == 1 {
            // Modes are in balance with any rigid motion, so weight, which is
            // even along the mass, moves the balance point alone.
            out[3][0] = -arrow.mass * self.bow.gravity.si();
        }
        out
    }

    /// Derivative of the state by time.
    fn slope(&self, stage: &Stage, state: &State) -> State {
        let arrow = self.arrow;
        let used = self.modes + 2;
        let mut out = [0.0; SIZE];
        for plane in 0..2 {
            let rate = part(state, plane + 2);
            let [thrust, damping, spring, weight] = self.forces(stage, state, plane);
            let mut all = [0.0; MOTIONS];
            let mut free = 0.0;
            for i in 0..used {
                all[i] = thrust[i] + damping[i] + spring[i] + weight[i];
                free += arrow.groove[i] * arrow.inverse_modal_mass[i] * all[i];
            }
            let pull = self.pull(stage, state, plane, free);
            let rest = stage.over.as_ref().map(|over| &over.value);
            let mut work = [0.0; 5];
            for i in 0..used {
                let string = arrow.groove[i] * pull.string;
                let rest = rest.map_or(0.0, |value| value[i] * pull.rest);
                out[plane * MOTIONS + i] = rate[i];
                out[(2 + plane) * MOTIONS + i] =
                    (all[i] + string + rest) * arrow.inverse_modal_mass[i];
                for (sum, force) in
                    work.iter_mut().zip([thrust[i], string, rest, damping[i], weight[i]])
                {
                    *sum += force * rate[i];
                }
            }
            if plane == 1 && stage.strung {
                for k in 0..2 {
                    out[INSIDE + k] = state[INSIDE + 2 + k];
                    out[INSIDE + 2 + k] = pull.inside[k];
                }
            }
            for (k, value) in work.iter().enumerate() {
                out[WORK + k] += value;
            }
        }
        out
    }

    /// One step: RK4 with the bow at its start, middle and end.
    pub(crate) fn advance(&self, stages: [&Stage; 3], step: f64, state: &State) -> State {
        let rhs = |share: f64, y: &State| {
            // Shares are 0, 1/2 and 1, exactly.
            let stage = if share < 0.25 {
                stages[0]
            } else if share < 0.75 {
                stages[1]
            } else {
                stages[2]
            };
            self.slope(stage, y).map(|value| value * step)
        };
        rk4(rhs, 0.0, state, 1.0)
    }

    pub(crate) fn frame(&self, stage: &Stage, time: f64, state: &State) -> Frame {
        let arrow = self.arrow;
        let pulls = [0, 1].map(|plane| {
            let forces = self.forces(stage, state, plane);
            let free: f64 = (0..self.modes + 2)
                .map(|i| {
                    let all: f64 = forces.iter().map(|force| force[i]).sum();
                    arrow.groove[i] * arrow.inverse_modal_mass[i] * all
                })
                .sum();
            self.pull(stage, state, plane, free)
        });
        let work = &state[WORK..];
        Frame {
            time,
            travelled: 1.0 - stage.at.left / self.stroke,
            speed: stage.at.speed,
            push: stage.at.acceleration * arrow.mass,
            string: [pulls[0].string, pulls[1].string],
            rest: [pulls[0].rest, pulls[1].rest],
            motion: [*part(state, 0), *part(state, 1)],
            rate: [*part(state, 2), *part(state, 3)],
            work: Work {
                thrust: work[0],
                string: work[1],
                rest: work[2],
                damping: work[3],
                weight: work[4],
            },
        }
    }

    /// Energy of the sideways motion, J: swinging, turning and bent.
    pub(crate) fn sideways_energy(&self, frame: &Frame) -> f64 {
        let arrow = self.arrow;
        let [more, cross] = self.stiff;
        let mut sum = 0.0;
        for i in 0..self.modes + 2 {
            let [l, u] = [frame.motion[0][i], frame.motion[1][i]];
            let bent = (1.0 + more) * l * l + (1.0 - more) * u * u + 2.0 * cross * l * u;
            let moving = frame.rate[0][i].powi(2) + frame.rate[1][i].powi(2);
            sum += 0.5 * (moving / arrow.inverse_modal_mass[i] + arrow.spring[i] * bent);
        }
        sum
    }

    /// How deep the shaft presses a contact that only pushes, left and up, in a
    /// frame while the rest is there; none for one that holds.
    pub(crate) fn depth(&self, frame: &Frame) -> [Option<f64>; 2] {
        let station = self.bow.rest.ahead.si() + self.stroke * (1.0 - frame.travelled);
        let (value, _) = self.arrow.at(station);
        std::array::from_fn(|plane| {
            let place = dot(&value, &frame.motion[plane]) + self.forcings[plane].shaft(station).0;
            self.contacts[plane].depth(place)
        })
    }
}

fn part(state: &State, index: usize) -> &[f64; MOTIONS] {
    // The state holds four parts of MOTIONS each before the rest.
    let (parts, _) = state.as_chunks::<MOTIONS>();
    &parts[index]
}

pub(crate) fn dot(a: &[f64; MOTIONS], b: &[f64; MOTIONS]) -> f64 {
    a.iter().zip(b).map(|(x, y)| x * y).sum()
}
