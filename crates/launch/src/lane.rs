//! A push made ready: one arrow on one bow, and several side by side.

use solve::{Arch, LANES_MAX, Lanes, Number, Simd, WithSimd};

use crate::beam::ELEMENTS;
use crate::bow::Bow;
use crate::contact::contacts;
use crate::course::{Course, TERMS};
use crate::elastic::{Elastic, FaultForcing, MOTIONS};
use crate::flex::MODES;
use crate::sway::{Seen, Unseen, Witness};
use crate::track::{NODAL, SIZE, Track, WATCHED};

impl Track<f64> {
    /// The push of an arrow with these faults, rolled by an angle (rad), with so
    /// many of its bending shapes; the course it follows comes with [`Self::along`].
    pub(crate) fn new(
        bow: &Bow,
        arrow: &Elastic,
        forcings: [FaultForcing<f64>; 2],
        (roll, stroke): (f64, f64),
        modes: usize,
    ) -> Self {
        let (sin, cos) = (2.0 * roll).sin_cos();
        let used = |i: usize| i < 2 + modes;
        let only = |values: &[f64; MOTIONS]| -> [f64; MOTIONS] {
            std::array::from_fn(|i| if used(i) { values[i] } else { 0.0 })
        };
        let stiff = arrow.stiff;
        let groove = only(&arrow.groove);
        let weighed: [f64; MOTIONS] =
            std::array::from_fn(|i| groove[i] * arrow.inverse_modal_mass[i]);
        let beam = arrow.modes.beam();
        let thrust = |i: usize| if used(i) { only(&arrow.thrust[i]) } else { [0.0; MOTIONS] };
        let path = [bow.path.left.si(), bow.path.up.si()];
        Self {
            mass: arrow.mass,
            lever: arrow.lever,
            inverse_modal_mass: arrow.inverse_modal_mass,
            thrust: std::array::from_fn(thrust),
            ease: groove.iter().zip(&weighed).map(|(a, b)| a * b).sum(),
            groove,
            weighed,
            spring: only(&arrow.spring),
            damping: only(&arrow.damping),
            stiff: [-(stiff.at0 * cos - stiff.at90 * sin), -(stiff.at0 * sin + stiff.at90 * cos)],
            sided: stiff.size() != 0.0,
            rear: beam.rear,
            front: beam.front,
            per_length: ELEMENTS as f64 / (beam.front - beam.rear),
            nodal: std::array::from_fn(|k| {
                let nodal = arrow.modes.nodal(k);
                std::array::from_fn(|i| if k < modes { nodal[i] } else { 0.0 })
            }),
            forcings: forcings
                .map(|forcing| FaultForcing { thrust: only(&forcing.thrust), ..forcing }),
            contacts: contacts(bow),
            ahead: bow.rest.ahead.si(),
            gravity: bow.gravity.si(),
            path,
            bent: path.iter().any(|&end| end != 0.0),
            release: [bow.release.left.si(), bow.release.up.si()],
            stroke,
            weights: std::array::from_fn(|i| if i == 0 { 1.0 } else { 0.0 }),
            let_go: 0.0,
            end: 0.0,
        }
    }

    /// The same on a course, with its terms for this arrow.
    pub(crate) fn along(mut self, course: &Course, weights: &[f64]) -> Self {
        self.weights[..weights.len()].copy_from_slice(weights);
        [self.let_go, self.end, _] = course.ends(&self.weights);
        self
    }

    /// Follows it with the processor's own operations.
    pub(crate) fn run(&self, course: &Course) -> [f64; SIZE] {
        Arch::new().dispatch(Alone::<_, SIZE> { track: self, course, witness: &mut Unseen })
    }

    /// The same with the work done, every step seen.
    pub(crate) fn watched(
        &self,
        course: &Course,
        witness: &mut impl Witness<f64, WATCHED>,
    ) -> [f64; WATCHED] {
        Arch::new().dispatch(Alone::<_, WATCHED> { track: self, course, witness })
    }
}

struct Alone<'a, W, const ROOM: usize> {
    track: &'a Track<f64>,
    course: &'a Course,
    witness: &'a mut W,
}

impl<W: Witness<f64, ROOM>, const ROOM: usize> WithSimd for Alone<'_, W, ROOM> {
    type Output = [f64; ROOM];

    #[inline(always)]
    fn with_simd<S: Simd>(self, _simd: S) -> Self::Output {
        self.track.follow(self.course, self.witness)
    }
}

impl<N: Number> Track<N> {
    /// Pushes side by side: `load` makes a lane number from the value each has.
    #[inline(always)]
    fn side_by_side(
        tracks: &[&Track<f64>; LANES_MAX],
        load: impl Fn(&[f64; LANES_MAX]) -> N,
    ) -> Self {
        let all = |field: &dyn Fn(&Track<f64>) -> f64| {
            let mut values = [0.0; LANES_MAX];
            for (value, track) in values.iter_mut().zip(tracks) {
                *value = field(track);
            }
            load(&values)
        };
        let none = load(&[0.0; LANES_MAX]);
        let motions = |field: &dyn Fn(&Track<f64>, usize) -> f64| {
            let mut out = [none; MOTIONS];
            for (i, out) in out.iter_mut().enumerate() {
                *out = all(&|t| field(t, i));
            }
            out
        };
        let mut thrust = [[none; MOTIONS]; MOTIONS];
        for (i, row) in thrust.iter_mut().enumerate() {
            *row = motions(&|t, j| t.thrust[i][j]);
        }
        let mut nodal = [[none; NODAL]; MODES];
        for (k, shape) in nodal.iter_mut().enumerate() {
            for (i, value) in shape.iter_mut().enumerate() {
                *value = all(&|t| t.nodal[k][i]);
            }
        }
        let mut weights = [none; TERMS];
        for (i, weight) in weights.iter_mut().enumerate() {
            *weight = all(&|t| t.weights[i]);
        }
        let forcing = |plane: usize| FaultForcing {
            thrust: motions(&|t, i| t.forcings[plane].thrust[i]),
            groove: all(&|t| t.forcings[plane].groove),
            line: [
                all(&|t| t.forcings[plane].line[0]),
                all(&|t| t.forcings[plane].line[1]),
                all(&|t| t.forcings[plane].line[2]),
            ],
            middle: all(&|t| t.forcings[plane].middle),
        };
        let contact = |plane: usize| {
            tracks[0].contacts[plane].with(|field| all(&|t| field(&t.contacts[plane])))
        };
        let two = |field: &dyn Fn(&Track<f64>) -> [f64; 2]| {
            [all(&|t| field(t)[0]), all(&|t| field(t)[1])]
        };
        Self {
            mass: all(&|t| t.mass),
            lever: all(&|t| t.lever),
            inverse_modal_mass: motions(&|t, i| t.inverse_modal_mass[i]),
            thrust,
            groove: motions(&|t, i| t.groove[i]),
            weighed: motions(&|t, i| t.weighed[i]),
            spring: motions(&|t, i| t.spring[i]),
            damping: motions(&|t, i| t.damping[i]),
            stiff: two(&|t| t.stiff),
            sided: tracks.iter().any(|t| t.sided),
            ease: all(&|t| t.ease),
            rear: all(&|t| t.rear),
            front: all(&|t| t.front),
            per_length: all(&|t| t.per_length),
            nodal,
            forcings: [forcing(0), forcing(1)],
            contacts: [contact(0), contact(1)],
            ahead: all(&|t| t.ahead),
            gravity: all(&|t| t.gravity),
            path: two(&|t| t.path),
            bent: tracks.iter().any(|t| t.bent),
            release: two(&|t| t.release),
            stroke: all(&|t| t.stroke),
            weights,
            let_go: all(&|t| t.let_go),
            end: all(&|t| t.end),
        }
    }
}

/// Instants at which a launcher is looked at. Chosen: the shaft swings a few
/// times while it lies there.
pub(crate) const LOOKS: usize = 24;

/// How a push ends, and how deep the shaft pressed the launcher on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Pushed {
    /// The state.
    pub(crate) state: [f64; SIZE],
    /// Depths while the rest is there, without end where nothing can open.
    pub(crate) depth: [f64; LOOKS],
}

/// Follows pushes along one course, as many side by side as the processor holds.
/// Each has the bits it would have alone, whatever the width.
pub(crate) fn run_all(tracks: &[&Track<f64>], course: &Course) -> Vec<Pushed> {
    Arch::new().dispatch(Together { tracks, course })
}

struct Together<'a> {
    tracks: &'a [&'a Track<f64>],
    course: &'a Course,
}

impl WithSimd for Together<'_> {
    type Output = Vec<Pushed>;

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> Self::Output {
        let mut out = Vec::with_capacity(self.tracks.len());
        for chunk in self.tracks.chunks(Lanes::<S>::COUNT) {
            // Empty lanes repeat the last push.
            let mut lanes = [chunk[0]; LANES_MAX];
            for (lane, track) in lanes.iter_mut().enumerate() {
                *track = chunk[lane.min(chunk.len() - 1)];
            }
            let load = |values: &[f64; LANES_MAX]| Lanes::load(simd, values);
            let track = Track::side_by_side(&lanes, load);
            let mut depths = Depths([load(&[f64::MAX; LANES_MAX]); LOOKS]);
            let state: [Lanes<S>; SIZE] = track.follow(self.course, &mut depths);
            let first = out.len();
            out.extend(chunk.iter().map(|_| Pushed { state: [0.0; SIZE], depth: [0.0; LOOKS] }));
            for (i, value) in state.iter().enumerate() {
                for (pushed, value) in out[first..].iter_mut().zip(value.store()) {
                    pushed.state[i] = value;
                }
            }
            for (i, value) in depths.0.iter().enumerate() {
                for (pushed, value) in out[first..].iter_mut().zip(value.store()) {
                    pushed.depth[i] = value;
                }
            }
        }
        out
    }
}

/// How deep the shaft presses what carries it, up and down, at the looks.
struct Depths<N>([N; LOOKS]);

impl<N: Number> Witness<N, SIZE> for Depths<N> {
    #[inline(always)]
    fn see(&mut self, track: &Track<N>, course: &Course, seen: &Seen<N>, state: &[N; SIZE]) {
        let contact = &track.contacts[1];
        if seen.part > 0 || contact.holds() {
            return;
        }
        let steps = course.steps[0];
        for look in 0..LOOKS {
            // The step nearest to this look; the last is when the launcher falls.
            if (look * steps + (LOOKS - 1) / 2) / (LOOKS - 1) == seen.done {
                let over = &seen.stage.over;
                let mut place = over.line[1].0;
                for i in 0..MOTIONS {
                    place = over.value[i].mul_add(state[MOTIONS + i], place);
                }
                self.0[look] = contact.depth(place);
            }
        }
    }
}
