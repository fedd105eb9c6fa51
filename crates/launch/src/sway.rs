//! The elastic arrow's sideways motion while it is pushed, for one arrow or for
//! several side by side. Model card: docs/model/push.md.

use solve::{At, Number, rk4_at};

use crate::course::Course;
use crate::elastic::MOTIONS;
use crate::stage::{Stage, Strung};
use crate::track::{INSIDE, SIZE, Track};

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
