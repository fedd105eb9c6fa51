//! A million unlike flights, their statistics kept while they fly.

use std::fmt::{self, Display};

use body::State;
use clothyard_benches::{Case, DISTANCE};
use flight::{Entry, Steps, fly_batch};
use rayon::prelude::*;

/// Flights flown.
pub(crate) const FLIGHTS: usize = 1_000_000;
/// Flights of one start, each kicked otherwise; chosen, so that few are kept.
const CHUNK: usize = 64;
/// Rings that radii are counted in, and their width, m.
const RINGS: usize = 4096;
const WIDTH: f64 = 0.25e-3;

/// Sums over a group, and how many radii fall in each ring about the aim.
pub(crate) struct Group {
    count: f64,
    sum: [f64; 2],
    squares: [f64; 2],
    rings: Vec<u32>,
}

impl Group {
    fn empty() -> Self {
        Self { count: 0.0, sum: [0.0; 2], squares: [0.0; 2], rings: vec![0; RINGS] }
    }

    fn add(&mut self, state: &State) {
        let place = [state.position.y, state.position.z];
        self.count += 1.0;
        for (i, at) in place.into_iter().enumerate() {
            self.sum[i] += at;
            self.squares[i] += at * at;
        }
        let ring = (place[0].hypot(place[1]) / WIDTH).min(RINGS as f64 - 1.0);
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "in range")]
        let ring = ring as usize;
        self.rings[ring] += 1;
    }

    fn with(mut self, other: &Self) -> Self {
        self.count += other.count;
        for i in 0..2 {
            self.sum[i] += other.sum[i];
            self.squares[i] += other.squares[i];
        }
        for (mine, theirs) in self.rings.iter_mut().zip(&other.rings) {
            *mine += theirs;
        }
        self
    }
}

impl Display for Group {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let sigma = |i: usize| {
            let mean = self.sum[i] / self.count;
            (self.squares[i] / self.count - mean * mean).sqrt() * 1e3
        };
        let mut inside = 0.0;
        let half = self.rings.iter().position(|count| {
            inside += f64::from(*count);
            inside > 0.5 * self.count
        });
        let half = half.unwrap_or(RINGS) as f64 * WIDTH * 1e3;
        write!(f, "sigma {:.1} left, {:.1} up, half within {half:.1} mm", sigma(0), sigma(1))
    }
}

/// Flies all and gives their group.
pub(crate) fn group(cases: &[Case], steps: Steps) -> Group {
    let marks = [DISTANCE];
    let parts: Vec<Group> = (0..FLIGHTS.div_ceil(CHUNK).div_ceil(CHUNK))
        .into_par_iter()
        .map(|part| {
            let mut group = Group::empty();
            for chunk in part * CHUNK..(part + 1) * CHUNK {
                let first = chunk * CHUNK;
                let count = FLIGHTS.saturating_sub(first).min(CHUNK);
                let starts: Vec<State> = (first..first + count).map(|i| start(cases, i)).collect();
                let models = cases.iter().cycle().skip(first % cases.len());
                let entries: Vec<Entry> = starts
                    .iter()
                    .zip(models)
                    .map(|(start, case)| Entry { model: &case.model, start, marks: &marks })
                    .collect();
                for states in fly_batch(&entries, steps).into_iter().flatten() {
                    group.add(&states[0]);
                }
            }
            group
        })
        .collect();
    parts.iter().fold(Group::empty(), Group::with)
}

/// The start of one flight: of a case, aimed otherwise each time round.
fn start(cases: &[Case], index: usize) -> State {
    let mut start = cases[index % cases.len()].start;
    let share = (index as f64 * 2.0_f64.sqrt()).fract() - 0.5;
    start.velocity.y += share;
    start
}
