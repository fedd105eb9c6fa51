//! Many flights side by side, in fixed steps along the line to the target.

use std::f64::consts::TAU;

use body::State;
use nalgebra::{Rotation3, Unit};
use solve::{Arch, LANES_MAX, Lanes, Number, Simd, WithSimd, rk4};

use crate::Model;
use crate::fly::{shortfall, spent_below};
use crate::model::{SIX, pack, unpack};

/// Steps to each mark, the same for every flight of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Steps(Vec<u32>);

impl Steps {
    /// Steps to each of some marks (m, rising, from the start), none longer
    /// than `longest` (m).
    pub fn no_longer_than(longest: f64, marks: &[f64]) -> Self {
        let mut from = 0.0;
        let steps = marks.iter().map(|mark| {
            let count = ((mark - from) / longest).ceil().max(1.0);
            from = *mark;
            // A whole number, at least one; far below the largest.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let count = count as u32;
            count
        });
        Self(steps.collect())
    }

    /// All steps together.
    pub fn total(&self) -> u32 {
        self.0.iter().sum()
    }
}

/// How far the farthest impact may be off by the size of the steps, m. Chosen:
/// a fifth of the promised 0.05 mm, for arrows that swing more than the pilot.
const PILOT_ERROR: f64 = 1e-5;
/// Longest step tried, m, and how many halvings of it. Chosen: arrows pitch once
/// in 15 m and more.
const LONGEST: f64 = 1.5;
const HALVINGS: u32 = 6;
/// Steps to a turn of the arrow, at least. Chosen: below two, fixed steps alias
/// with the turn and halving them says nothing of the error; a quarter more.
const PER_TURN: f64 = 2.5;

/// Steps for flights like a pilot: as long as halving them moves it by no more
/// than a hundredth of a millimetre at any mark, however it is turned about its
/// axis and whichever way it is kicked, and no fewer than two and a half
/// to a turn. The shortest tried if nothing suffices.
pub fn pilot_steps(pilot: &Entry<'_>) -> Steps {
    let Entry { model, marks, .. } = *pilot;
    let starts: [State; WAYS] = std::array::from_fn(|way| turned(pilot.start, way));
    let pilots = starts.each_ref().map(|start| Entry { model, start, marks });
    let turn = model.turn_per_length().abs() * model.beats().max(1.0);
    let mut longest = if turn > 0.0 { LONGEST.min(TAU / (PER_TURN * turn)) } else { LONGEST };
    let mut steps = Steps::no_longer_than(longest, marks);
    let mut coarse = fly_batch(&pilots, &steps);
    for _ in 0..HALVINGS {
        longest *= 0.5;
        let finer = Steps::no_longer_than(longest, marks);
        let fine = fly_batch(&pilots, &finer);
        if apart(&coarse, &fine).is_some_and(|gap| gap < PILOT_ERROR) {
            break;
        }
        (steps, coarse) = (finer, fine);
    }
    steps
}

/// Ways in which a pilot flies. Chosen: as many as the widest lanes hold.
const WAYS: usize = LANES_MAX;

/// A start with its kick turned about the axis by one angle and the arrow by
/// another.
fn turned(start: &State, way: usize) -> State {
    let eighths = |count: usize| TAU * count as f64 / WAYS as f64;
    let mut turned = *start;
    let about = Rotation3::from_axis_angle(&Unit::new_normalize(start.axis), eighths(way));
    turned.rate = about * start.rate;
    turned.roll += eighths(3 * way);
    turned
}

/// Largest distance between flights at any mark, m; none if one fell short.
fn apart(one: &[Option<Vec<State>>], other: &[Option<Vec<State>>]) -> Option<f64> {
    let mut gap: f64 = 0.0;
    for (a, b) in one.iter().zip(other) {
        for (a, b) in a.as_ref()?.iter().zip(b.as_ref()?) {
            gap = gap.max((a.position - b.position).norm());
        }
    }
    Some(gap)
}

/// One flight of a batch.
#[derive(Debug, Clone, Copy)]
pub struct Entry<'a> {
    /// The model of its arrow.
    pub model: &'a Model<f64>,
    /// Its start.
    pub start: &'a State,
    /// Its marks, m along the line, rising, beyond the start.
    pub marks: &'a [f64],
}

/// Flies all entries and puts the states at their marks into `out`, one after
/// another. An entry that falls short, or whose numbers break down, has its
/// states left out: `None` in its place; [`crate::fly`] tells why.
///
/// Every flight has the bits it would have alone, whatever the width of the
/// processor.
pub fn fly_batch(entries: &[Entry<'_>], steps: &Steps) -> Vec<Option<Vec<State>>> {
    Arch::new().dispatch(Task { entries, steps })
}

struct Task<'a> {
    entries: &'a [Entry<'a>],
    steps: &'a Steps,
}

impl WithSimd for Task<'_> {
    type Output = Vec<Option<Vec<State>>>;

    #[inline(always)]
    fn with_simd<S: Simd>(self, simd: S) -> Self::Output {
        let mut out = Vec::with_capacity(self.entries.len());
        for chunk in self.entries.chunks(Lanes::<S>::COUNT) {
            side_by_side(simd, chunk, self.steps, &mut out);
        }
        out
    }
}

#[inline(always)]
fn side_by_side<S: Simd>(
    simd: S,
    entries: &[Entry<'_>],
    steps: &Steps,
    out: &mut Vec<Option<Vec<State>>>,
) {
    // Empty lanes repeat the last flight.
    let entry = |lane: usize| &entries[lane.min(entries.len() - 1)];
    let lanes: [&Entry<'_>; LANES_MAX] = std::array::from_fn(entry);
    let load = |values: &[f64; LANES_MAX]| Lanes::load(simd, values);
    let model = Model::side_by_side(&lanes.map(|e| e.model), load);
    let starts: [[f64; SIX]; LANES_MAX] = lanes.map(|e| pack(e.start));
    let mut state: [Lanes<S>; SIX] =
        std::array::from_fn(|i| load(&std::array::from_fn(|lane| starts[lane][i])));
    let mut x = load(&lanes.map(|e| e.start.position.x));
    let spent = lanes.map(|e| spent_below(e.start));
    let places = steps.0.len();
    let first = out.len();
    out.extend(entries.iter().map(|_| Some(Vec::with_capacity(places))));
    for (place, &count) in steps.0.iter().enumerate() {
        let mark = load(&lanes.map(|e| e.marks[place]));
        let step = (mark - x) * x.same(1.0 / f64::from(count));
        for _ in 0..count {
            state = rk4(
                #[inline(always)]
                |x, s| model.slope(x, s),
                x,
                &state,
                step,
            );
            x = x + step;
        }
        x = mark;
        let rows: [[f64; LANES_MAX]; SIX] = std::array::from_fn(|i| state[i].store());
        for lane in 0..entries.len() {
            let row: [f64; SIX] = std::array::from_fn(|i| rows[i][lane]);
            let fine = row.iter().all(|v| v.is_finite()) && shortfall(&row, spent[lane]).is_none();
            let slot = &mut out[first + lane];
            match slot {
                Some(states) if fine => states.push(unpack(lanes[lane].marks[place], &row)),
                _ => *slot = None,
            }
        }
    }
}
