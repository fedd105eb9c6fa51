//! Many flights side by side, in fixed steps along the line to the target.

use body::State;
use solve::{Arch, At, LANES_MAX, Lanes, Number, Simd, TwoStep, WithSimd, sin_cos_short};

use crate::Model;
use crate::fly::{shortfall, spent_below};
use crate::model::{SIX, pack, unpack};

/// Steps to the last mark, the same number for every flight of a batch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Steps(u32);

impl Steps {
    /// That many, at least one.
    pub fn new(count: u32) -> Self {
        Self(count.max(1))
    }

    /// Steps to the last of some marks (m, rising, from the start), none longer
    /// than `longest` (m).
    pub fn no_longer_than(longest: f64, marks: &[f64]) -> Self {
        let count = (marks.last().unwrap_or(&0.0) / longest).ceil();
        // A whole number, far below the largest.
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
        let count = count as u32;
        Self::new(count)
    }

    /// All steps together.
    pub fn total(self) -> u32 {
        self.0
    }
}

/// One flight of a batch.
#[derive(Debug, Clone, Copy)]
pub struct Entry<'a> {
    /// The model of its arrow.
    pub model: &'a Model<f64>,
    /// Its start.
    pub start: &'a State,
    /// Its marks, m along the line, rising, beyond the start; as many as the others have.
    pub marks: &'a [f64],
}

/// Flies all entries and puts the states at their marks into `out`, one after
/// another. An entry that falls short, or whose numbers break down, has its
/// states left out: `None` in its place; [`crate::fly`] tells why.
///
/// The steps run on over the marks; the state at a mark lies within a step.
///
/// Every flight has the bits it would have alone, whatever the width of the
/// processor.
pub fn fly_batch(entries: &[Entry<'_>], steps: Steps) -> Vec<Option<Vec<State>>> {
    Arch::new().dispatch(Task { entries, steps })
}

struct Task<'a> {
    entries: &'a [Entry<'a>],
    steps: Steps,
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
    steps: Steps,
    out: &mut Vec<Option<Vec<State>>>,
) {
    // Empty lanes repeat the last flight.
    let entry = |lane: usize| &entries[lane.min(entries.len() - 1)];
    let lanes: [&Entry<'_>; LANES_MAX] = std::array::from_fn(entry);
    let model = Model::side_by_side(
        &lanes.map(|e| e.model),
        #[inline(always)]
        |values| Lanes::load(simd, values),
    );
    let starts: [[f64; SIX]; LANES_MAX] = lanes.map(|e| pack(e.start));
    let mut state = [Lanes::load(simd, &[0.0; LANES_MAX]); SIX];
    for (i, value) in state.iter_mut().enumerate() {
        *value = Lanes::load(simd, &starts.map(|start| start[i]));
    }
    let spent = lanes.map(|e| spent_below(e.start));
    let mut x = Lanes::load(simd, &lanes.map(|e| e.start.position.x));
    let step = Lanes::load(simd, &lanes.map(|e| e.span() / f64::from(steps.0)));
    let mut track = TwoStep::first(
        #[inline(always)]
        |at, s| rise(&model, place(x, step, at), s, step),
        &state,
    );
    let first = out.len();
    out.extend(entries.iter().map(|e| Some(Vec::with_capacity(e.marks.len()))));
    let marks = passings(&lanes, steps);
    let mut taken = 0;
    for (at, mark) in due(&marks) {
        while taken < at {
            x = x + step;
            track.step(
                #[inline(always)]
                |at, s| rise(&model, place(x, step, at), s, step),
            );
            taken += 1;
        }
        let passing = &marks[mark];
        let reached = track.before_end(Lanes::load(simd, &passing.share));
        let rows = reached.map(Lanes::store);
        for lane in 0..entries.len() {
            if passing.step[lane] != at {
                continue;
            }
            let row: [f64; SIX] = std::array::from_fn(|i| rows[i][lane]);
            let fine = row.iter().all(|v| v.is_finite()) && shortfall(&row, spent[lane]).is_none();
            let slot = &mut out[first + lane];
            match slot {
                Some(states) if fine => states.push(unpack(lanes[lane].marks[mark], &row)),
                _ => *slot = None,
            }
        }
    }
}

/// How a state rises in a step; the forces that turn with the arrow are followed to 2e-8.
#[inline(always)]
fn rise<N: Number>(model: &Model<N>, x: N, s: &[N; SIX], step: N) -> [N; SIX] {
    model.rise(
        x,
        s,
        step,
        #[inline(always)]
        |angle| sin_cos_short(angle),
    )
}

/// A place in a step.
#[inline(always)]
fn place<N: Number>(start: N, step: N, at: At) -> N {
    match at {
        At::Start => start,
        At::Middle => step.mul_add(step.same(0.5), start),
        At::End => start + step,
    }
}

impl Entry<'_> {
    /// Length flown, m.
    fn span(&self) -> f64 {
        let from = self.start.position.x;
        self.marks.last().unwrap_or(&from) - from
    }
}

/// Where flights side by side pass a mark.
struct Passing {
    /// In which step of each, from zero.
    step: [u32; LANES_MAX],
    /// By what share of the step before its end.
    share: [f64; LANES_MAX],
}

/// Where flights side by side pass each of their marks, as many as the first has.
fn passings(lanes: &[&Entry<'_>; LANES_MAX], steps: Steps) -> Vec<Passing> {
    let count = f64::from(steps.0);
    let per_length = lanes.map(|e| count / e.span());
    let passing = |mark: usize| {
        let mut passing = Passing { step: [0; LANES_MAX], share: [0.0; LANES_MAX] };
        for (lane, entry) in lanes.iter().enumerate() {
            let along = (entry.marks[mark] - entry.start.position.x) * per_length[lane];
            let ends = along.ceil().clamp(1.0, count);
            // A whole number within the steps.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let step = ends as u32 - 1;
            passing.step[lane] = step;
            passing.share[lane] = ends - along;
        }
        passing
    };
    (0..lanes[0].marks.len()).map(passing).collect()
}

/// Steps in which some flight passes a mark, rising, each with its mark.
fn due(marks: &[Passing]) -> Vec<(u32, usize)> {
    let mut due = Vec::with_capacity(marks.len());
    for (mark, passing) in marks.iter().enumerate() {
        for &step in &passing.step {
            if let Err(at) = due.binary_search(&(step, mark)) {
                due.insert(at, (step, mark));
            }
        }
    }
    due
}
