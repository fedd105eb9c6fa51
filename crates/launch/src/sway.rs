//! The elastic arrow's sideways motion while it is pushed, for one arrow or for
//! several side by side. Model card: docs/model/push.md.

use solve::{At, Number, rk4_at};

use crate::beam::ELEMENTS;
use crate::contact::Contact;
use crate::course::{BowAt, Course, TERMS};
use crate::elastic::{FaultForcing, MOTIONS};
use crate::flex::MODES;

/// Fewest steps until the string lets go. Chosen: fewer would show in plots of
/// the push.
pub const STEPS: usize = 96;

/// Values of a bending shape: displacement and slope between elements.
pub(crate) const NODAL: usize = 2 * ELEMENTS + 2;

/// One push of one arrow, or of one arrow in each lane.
#[derive(Debug, Clone)]
pub(crate) struct Track<N> {
    /// Mass, kg, and balance point ahead of the groove, m.
    pub(crate) mass: N,
    pub(crate) lever: N,
    /// One over the modal mass of each motion.
    pub(crate) inverse_modal_mass: [N; MOTIONS],
    /// How thrust turns and bends the arrow, over its acceleration.
    pub(crate) thrust: [[N; MOTIONS]; MOTIONS],
    /// Displacement of the groove in each motion, and over the modal mass.
    pub(crate) groove: [N; MOTIONS],
    pub(crate) weighed: [N; MOTIONS],
    /// Square of each frequency, 1/s2, and twice the decay rate, 1/s.
    pub(crate) spring: [N; MOTIONS],
    pub(crate) damping: [N; MOTIONS],
    /// Stiffness of the left plane over the mean less one, and coupling, and whether
    /// any shaft has a stiff side.
    pub(crate) stiff: [N; 2],
    pub(crate) sided: bool,
    /// What one newton on the groove gives it, m/s2.
    pub(crate) ease: N,
    /// Rear end of the shaft, m, elements per length, 1/m.
    pub(crate) rear: N,
    pub(crate) front: N,
    pub(crate) per_length: N,
    /// Nodal values of each bending shape.
    pub(crate) nodal: [[N; NODAL]; MODES],
    /// What the faults do, left and up.
    pub(crate) forcings: [FaultForcing<N>; 2],
    pub(crate) contacts: [Contact<N>; 2],
    /// How far the rest stands ahead of the string at brace, m.
    pub(crate) ahead: N,
    /// Free fall, m/s2.
    pub(crate) gravity: N,
    /// How far the nock's path bows out, m, and whether any does.
    pub(crate) path: [N; 2],
    pub(crate) bent: bool,
    /// Impulse of the release, N s.
    pub(crate) release: [N; 2],
    /// Power stroke, m.
    pub(crate) stroke: N,
    /// Terms of the course.
    pub(crate) weights: [N; TERMS],
    /// When the rest is out of reach and when the string lets go, s.
    pub(crate) let_go: N,
    pub(crate) end: N,
}

/// Motions of the bow inside: two and their rates.
pub(crate) const INSIDE: usize = 4 * MOTIONS;
/// Components of the state: motions, rates, inside.
pub(crate) const SIZE: usize = INSIDE + 4;
/// The same with the work done.
pub(crate) const WATCHED: usize = SIZE + 5;

/// What is the same for every state at an instant.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Stage<N> {
    pub(crate) at: BowAt<N>,
    /// Nock's path and its acceleration.
    path: [N; 2],
    drift: [N; 2],
    pub(crate) over: Over<N>,
    /// What a newton of the rest gives the groove, m/s2.
    eased: N,
    /// Whether the rest can touch.
    pub(crate) held: bool,
    /// The string on the nock; without it nothing pulls there.
    pub(crate) string: Strung<N>,
    strung: bool,
}

/// How the string's parts answer at an instant.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Strung<N> {
    /// Over 1 + `c_0` M, sideways, and over 1 + `c_0` M*, up and down.
    soft: [N; 2],
    /// M sideways, and M* up and down.
    pub(crate) mass: [N; 2],
    /// `M_zc/M_cc`.
    pub(crate) share: N,
}

/// The arrow where it passes over the rest.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Over<N> {
    pub(crate) value: [N; MOTIONS],
    slope: [N; MOTIONS],
    /// The unbent shaft there, left and up, and its lean.
    pub(crate) line: [(N, N); 2],
}

/// Forces in one plane, and how the string's parts move.
pub(crate) struct Pull<N> {
    pub(crate) string: N,
    pub(crate) rest: N,
    inside: [N; 2],
}

/// What moves a plane but string and rest.
pub(crate) struct Inner<N> {
    /// Thrust over its acceleration.
    lever: [N; MOTIONS],
    /// Weight.
    weight: N,
    /// All forces together.
    all: [N; MOTIONS],
    /// What they give the groove, m/s2.
    pub(crate) free: N,
}

/// A step done.
pub(crate) struct Seen<'a, N> {
    /// Mass that moves with the nock, and one over those of the motions inside.
    pub(crate) masses: &'a [N; 3],
    /// The instant.
    pub(crate) stage: &'a Stage<N>,
    /// Part of the course and steps of it done.
    pub(crate) part: usize,
    pub(crate) done: usize,
    /// Time since release, s.
    pub(crate) time: N,
}

/// Sees the steps of a push until the string lets go, and its start.
pub(crate) trait Witness<N, const ROOM: usize> {
    /// A step is done.
    fn see(&mut self, track: &Track<N>, course: &Course, seen: &Seen<N>, state: &[N; ROOM]);
}

/// Sees nothing.
pub(crate) struct Unseen;

impl<N, const ROOM: usize> Witness<N, ROOM> for Unseen {
    #[inline(always)]
    fn see(&mut self, _: &Track<N>, _: &Course, _: &Seen<N>, _: &[N; ROOM]) {}
}

impl<N: Number> Track<N> {
    /// The bow while the string pushes.
    #[inline(always)]
    pub(crate) fn pushed(
        &self,
        course: &Course,
        masses: &[N; 3],
        part: usize,
        instant: usize,
    ) -> Stage<N> {
        let at = course.at(part, instant, &self.weights);
        let none = self.mass.same(0.0);
        let (mut path, mut drift) = ([none; 2], [none; 2]);
        if self.bent {
            // Nock's path, a half sine of the share travelled, and what its bends
            // ask of a nock at this speed.
            let pi = none.same(std::f64::consts::PI);
            let angle = pi * (none.same(1.0) - at.left / self.stroke);
            let (sin, cos) = angle.sin_cos();
            let (rate, gain) = (at.speed / self.stroke, at.acceleration / self.stroke);
            let turn = pi * (cos * gain - pi * sin * rate * rate);
            for plane in 0..2 {
                path[plane] = self.path[plane] * sin;
                drift[plane] = self.path[plane] * turn;
            }
        }
        let held = part == 0;
        let over = if held { self.over(self.ahead + at.left) } else { self.nowhere() };
        let one = none.same(1.0);
        let share = at.across * masses[1];
        let mass = [masses[0], masses[0] - at.across * share];
        let soft = [one / self.ease.mul_add(mass[0], one), one / self.ease.mul_add(mass[1], one)];
        let string = Strung { soft, mass, share };
        Stage { at, path, drift, eased: self.eased(&over), over, held, string, strung: true }
    }

    /// What a newton of the rest gives the groove, m/s2.
    #[inline(always)]
    fn eased(&self, over: &Over<N>) -> N {
        let mut eased = self.weighed[0] * over.value[0];
        for i in 1..MOTIONS {
            eased = self.weighed[i].mul_add(over.value[i], eased);
        }
        eased
    }

    /// A time after the string has let go.
    #[inline(always)]
    pub(crate) fn free(&self, last: &BowAt<N>, after: N) -> Stage<N> {
        let none = after.same(0.0);
        let left = last.left - last.speed * after;
        let over = self.over(self.ahead + left);
        let at = BowAt { left, acceleration: none, ..*last };
        let string = Strung { soft: [none; 2], mass: [none; 2], share: none };
        let (path, drift, eased) = ([none; 2], [none; 2], self.eased(&over));
        Stage { at, path, drift, eased, over, held: true, string, strung: false }
    }

    /// Every motion at a station: displacement and slope, beyond the shaft's ends
    /// straight on, by the cubics of its element.
    #[inline(always)]
    pub(crate) fn over(&self, station: N) -> Over<N> {
        let (one, two, three) = (station.same(1.0), station.same(2.0), station.same(3.0));
        let none = station.same(0.0);
        let on = station.max(self.rear).min(self.front);
        let beyond = station - on;
        let at = (on - self.rear) * self.per_length;
        let (element, places) = (at - at.same(0.5)).nearest_whole(ELEMENTS - 1);
        let places = places.times(2);
        let x = at - element;
        let (x2, l) = (x * x, one / self.per_length);
        let x3 = x2 * x;
        let value = [
            two * x3 - three * x2 + one,
            l * (x - two * x2 + x3),
            three * x2 - two * x3,
            l * (x3 - x2),
        ];
        let six = station.same(6.0);
        let steep = six * (x2 - x) * self.per_length;
        let slope = [steep, three * x2 - station.same(4.0) * x + one, -steep, three * x2 - two * x];
        let mut out =
            Over { value: [one; MOTIONS], slope: [none; MOTIONS], line: [(none, none); 2] };
        out.value[1] = station - self.lever;
        out.slope[1] = one;
        for k in 0..MODES {
            let (mut place, mut lean) = (none, none);
            for j in 0..4 {
                let nodal = N::look_up(&self.nodal[k], &places, j);
                place = value[j].mul_add(nodal, place);
                lean = slope[j].mul_add(nodal, lean);
            }
            out.value[2 + k] = beyond.mul_add(lean, place);
            out.slope[2 + k] = lean;
        }
        for plane in 0..2 {
            out.line[plane] = self.forcings[plane].shaft(station);
        }
        out
    }

    #[inline(always)]
    fn nowhere(&self) -> Over<N> {
        let none = self.mass.same(0.0);
        Over { value: [none; MOTIONS], slope: [none; MOTIONS], line: [(none, none); 2] }
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
    #[inline(always)]
    pub(crate) fn pull<const ROOM: usize>(
        &self,
        masses: &[N; 3],
        stage: &Stage<N>,
        state: &[N; ROOM],
        plane: usize,
        free: N,
    ) -> Pull<N> {
        let none = free.same(0.0);
        let (y, v) = (plane * MOTIONS, (2 + plane) * MOTIONS);
        let mut pull = Pull { string: none, rest: none, inside: [none; 2] };
        let mut free = free;
        if stage.held {
            let over = &stage.over;
            let (mut place, mut lean) = over.line[plane];
            let mut moving = none;
            for i in 0..MOTIONS {
                place = over.value[i].mul_add(state[y + i], place);
                moving = over.value[i].mul_add(state[v + i], moving);
                if i > 0 {
                    lean = over.slope[i].mul_add(state[y + i], lean);
                }
            }
            // The shaft slides past the rest, so its lean shows as velocity.
            let slide = stage.at.speed * lean;
            pull.rest = self.contacts[plane].force(place, moving - slide);
            free = stage.eased.mul_add(pull.rest, free);
        }
        if stage.strung {
            let at = &stage.at;
            let mut n = self.forcings[plane].groove - stage.path[plane];
            for i in 0..MOTIONS {
                n = self.groove[i].mul_add(state[y + i], n);
            }
            let Strung { soft, mass, share } = &stage.string;
            let (ease, driven, soft) = (self.ease, free - stage.drift[plane], soft[plane]);
            if plane == 0 {
                let on_nock = -(at.side * n);
                pull.string = on_nock - mass[0] * (ease.mul_add(on_nock, driven) * soft);
            } else {
                let [zz, z0, z1, a, b, c] = at.up;
                let (p, q) = (state[INSIDE], state[INSIDE + 1]);
                let pulled = [
                    -(zz.mul_add(n, z0.mul_add(p, z1 * q))),
                    -(z0.mul_add(n, a.mul_add(p, b * q))),
                    -(z1.mul_add(n, b.mul_add(p, c * q))),
                ];
                let on_nock = pulled[0] - *share * pulled[1];
                let moved = ease.mul_add(on_nock, driven) * soft;
                pull.string = on_nock - mass[1] * moved;
                pull.inside = [(pulled[1] - at.across * moved) * masses[1], pulled[2] * masses[2]];
            }
        }
        pull
    }

    /// Forces of thrust, damping, shaft and weight on every motion of a plane.
    #[inline(always)]
    pub(crate) fn inner<const ROOM: usize>(
        &self,
        stage: &Stage<N>,
        state: &[N; ROOM],
        plane: usize,
    ) -> Inner<N> {
        let none = self.mass.same(0.0);
        let (y, v, other) = (plane * MOTIONS, (2 + plane) * MOTIONS, (1 - plane) * MOTIONS);
        // Modes are in balance with any rigid motion, so weight, which is even
        // along the mass, moves the balance point alone, and no thrust does.
        let weight = if plane == 0 { none } else { -(self.mass * self.gravity) };
        let mut out = Inner {
            lever: [none; MOTIONS],
            weight,
            all: [weight; MOTIONS],
            free: self.weighed[0] * weight,
        };
        for i in 1..MOTIONS {
            let mut lever = self.forcings[plane].thrust[i];
            for j in 1..MOTIONS {
                lever = self.thrust[i][j].mul_add(state[y + j], lever);
            }
            out.lever[i] = lever;
            out.all[i] = stage.at.acceleration * lever;
            if i > 1 {
                let mut bent = state[y + i];
                if self.sided {
                    let [more, cross] = self.stiff;
                    let more = if plane == 0 { more } else { -more };
                    bent = cross.mul_add(state[other + i], more.mul_add(bent, bent));
                }
                let held = self.damping[i].mul_add(state[v + i], self.spring[i] * bent);
                out.all[i] = out.all[i] - held;
            }
            out.free = self.weighed[i].mul_add(out.all[i], out.free);
        }
        out
    }

    /// Derivative of the state by time, and of the work where there is room for it.
    #[inline(always)]
    fn slope<const ROOM: usize>(
        &self,
        masses: &[N; 3],
        stage: &Stage<N>,
        state: &[N; ROOM],
    ) -> [N; ROOM] {
        let none = self.mass.same(0.0);
        let mut out = [none; ROOM];
        for plane in 0..2 {
            let (y, v) = (plane * MOTIONS, (2 + plane) * MOTIONS);
            let inner = self.inner(stage, state, plane);
            let pull = self.pull(masses, stage, state, plane, inner.free);
            for i in 0..MOTIONS {
                out[y + i] = state[v + i];
                let mut force = self.groove[i].mul_add(pull.string, inner.all[i]);
                if stage.held {
                    force = stage.over.value[i].mul_add(pull.rest, force);
                }
                // Modes have unit modal mass.
                out[v + i] = if i < 2 { force * self.inverse_modal_mass[i] } else { force };
                if ROOM > SIZE {
                    let by = [
                        stage.at.acceleration * inner.lever[i],
                        self.groove[i] * pull.string,
                        stage.over.value[i] * pull.rest,
                        if i > 1 { -(self.damping[i] * state[v + i]) } else { none },
                        if i == 0 { inner.weight } else { none },
                    ];
                    for (sum, force) in out[SIZE..].iter_mut().zip(by) {
                        *sum = force.mul_add(state[v + i], *sum);
                    }
                }
            }
            if plane == 1 && stage.strung {
                for k in 0..2 {
                    out[INSIDE + k] = state[INSIDE + 2 + k];
                    out[INSIDE + 2 + k] = pull.inside[k];
                }
            }
        }
        out
    }

    /// One step: RK4 with the bow at its start, middle and end.
    #[inline(always)]
    pub(crate) fn advance<const ROOM: usize>(
        &self,
        masses: &[N; 3],
        stages: [&Stage<N>; 3],
        step: N,
        state: &[N; ROOM],
    ) -> [N; ROOM] {
        rk4_at(
            #[inline(always)]
            |at, y: &[N; ROOM]| match at {
                At::Start => self.slope(masses, stages[0], y),
                At::Middle => self.slope(masses, stages[1], y),
                At::End => self.slope(masses, stages[2], y),
            },
            state,
            step,
        )
    }

    /// Follows the arrow until string and rest have done with it, and shows every
    /// step until the string lets go.
    ///
    /// A rest that stays is followed until the shaft has passed it. The arrow
    /// flies on meanwhile; what the rest has done to it is told as the motion
    /// at the string's release that would have led there without a rest.
    #[inline(always)]
    pub(crate) fn follow<const ROOM: usize>(
        &self,
        course: &Course,
        witness: &mut impl Witness<N, ROOM>,
    ) -> [N; ROOM] {
        let none = self.mass.same(0.0);
        let masses = &[
            none.same(course.masses[0]),
            none.same(1.0 / course.masses[1]),
            none.same(1.0 / course.masses[2]),
        ];
        let begin = usize::from(course.steps[0] == 0);
        let mut first = self.pushed(course, masses, begin, 0);
        let mut state = self.full_draw(&first);
        let seen = Seen { masses, stage: &first, part: begin, done: 0, time: none };
        witness.see(self, course, &seen, &state);
        for part in begin..2 {
            let count = course.steps[part];
            if count == 0 {
                continue;
            }
            let (from, to) = if part == 0 { (none, self.let_go) } else { (self.let_go, self.end) };
            let step = (to - from) * none.same(1.0 / count as f64);
            first = self.pushed(course, masses, part, 0);
            for done in 0..count {
                let half = self.pushed(course, masses, part, 2 * done + 1);
                let last = self.pushed(course, masses, part, 2 * done + 2);
                state = self.advance(masses, [&first, &half, &last], step, &state);
                first = last;
                let time = none.same((done + 1) as f64).mul_add(step, from);
                let seen = Seen { masses, stage: &first, part, done: done + 1, time };
                witness.see(self, course, &seen, &state);
            }
        }
        if course.passing > 0 {
            self.pass(course.passing, masses, &first.at, &state)
        } else {
            state
        }
    }
}
