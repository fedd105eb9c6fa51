//! The bow's part of a push, at the instants at which the arrow's is followed.

use solve::{Number, Polynomial};

use crate::bow::Bow;
use crate::nominal::{Instant, NominalPush};

/// Numbers of the bow that change along a push.
const ROW: usize = 11;
/// Most terms in which these may depend on the arrow.
pub(crate) const TERMS: usize = 12;

/// The bow at an instant.
#[derive(Debug, Clone, Copy)]
pub(crate) struct BowAt<N> {
    /// Way left to brace, m; negative past it.
    pub(crate) left: N,
    /// Speed of the nock, m/s.
    pub(crate) speed: N,
    /// Its acceleration, m/s2.
    pub(crate) acceleration: N,
    /// Hold of the nock sideways, N/m.
    pub(crate) side: N,
    /// The same up and down, as in [`crate::Hold`].
    pub(crate) up: [N; 6],
    /// Mass between nock and the first motion inside.
    pub(crate) across: N,
}

/// The bow's part of a push of one arrow, or of arrows whose mass and speed
/// differ: at the start, middle and end of every step, even in time from release
/// until the rest is gone, and on until the string lets go.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Course {
    /// How the numbers below depend on the arrow.
    pub(crate) set: Polynomial,
    /// Steps of both parts.
    pub(crate) steps: [usize; 2],
    /// Steps from the string's release until the shaft has passed the rest.
    pub(crate) passing: usize,
    /// Rows of each part, one for each term at each instant.
    rows: [Vec<f64>; 2],
    /// When the rest is out of reach, when the string lets go (s), and speed
    /// there (m/s), one for each term.
    ends: Vec<[f64; 3]>,
    /// Mass that moves with the nock, and masses of the motions inside.
    pub(crate) masses: [f64; 3],
}

/// When the rest is out of reach, s; one that stays works until the string
/// lets go, and may after.
pub(crate) fn let_go(push: &NominalPush, bow: &Bow) -> f64 {
    let (end, share) = (push.duration(), bow.rest.share.si());
    if share <= 0.0 {
        0.0
    } else if share < 1.0 {
        (push.reaches(share) + bow.rest.delay.si()).min(end)
    } else {
        end
    }
}

impl Course {
    /// The course of one push, in at least so many steps until the string lets
    /// go; `rear` is where the arrow's shaft begins.
    pub(crate) fn of(push: &NominalPush, bow: &Bow, steps: usize, rear: f64) -> Self {
        Self::between(Polynomial::new(&[], 0), std::slice::from_ref(push), bow, steps, rear)
    }

    /// The course of pushes between those at the points of a polynomial.
    pub(crate) fn between(
        set: Polynomial,
        pushes: &[NominalPush],
        bow: &Bow,
        steps: usize,
        rear: f64,
    ) -> Self {
        let (first, steps) = (&pushes[0], steps as f64);
        let (end, fallen) = (first.duration(), let_go(first, bow));
        let share = |from: f64, to: f64| {
            // A whole number, not negative, far below the largest.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let count = (steps * (to - from) / end).ceil() as usize;
            count
        };
        let counts = [share(0.0, fallen), share(fallen, end)];
        let last = first.at(end);
        let way = bow.rest.ahead.si() + last.left - rear;
        let passing = if bow.rest.share.si() >= 1.0 {
            // A tenth more, for arrows that begin elsewhere.
            share(0.0, 1.1 * (way / last.speed).max(0.0)).max(1)
        } else {
            0
        };
        let mut values: [Vec<Vec<f64>>; 2] = [Vec::new(), Vec::new()];
        let mut ends: Vec<Vec<f64>> = Vec::with_capacity(pushes.len());
        for push in pushes {
            let fallen = let_go(push, bow);
            let parts = [(0.0, fallen), (fallen, push.duration())];
            for ((values, count), (from, to)) in values.iter_mut().zip(counts).zip(parts) {
                let half = 0.5 * (to - from) / count.max(1) as f64;
                let instants = if count > 0 { 2 * count + 1 } else { 0 };
                let row = |i: usize| row(&push.at(from + i as f64 * half), bow);
                values.push((0..instants).flat_map(row).collect());
            }
            ends.push(vec![fallen, push.duration(), push.speed()]);
        }
        set.fit(&mut ends, 0);
        let rows = values.map(|mut values| {
            set.fit(&mut values, 0);
            interleaved(&values)
        });
        let hold = last.hold;
        Self {
            set,
            steps: counts,
            passing,
            rows,
            ends: ends.iter().map(|row| [row[0], row[1], row[2]]).collect(),
            masses: [hold.mass, hold.inside[0], hold.inside[1]],
        }
    }

    /// When the rest is out of reach, when the string lets go, and speed there,
    /// for an arrow with these terms.
    pub(crate) fn ends(&self, weights: &[f64; TERMS]) -> [f64; 3] {
        let mut sum = [0.0; 3];
        for (row, weight) in self.ends.iter().zip(weights) {
            for (sum, value) in sum.iter_mut().zip(row) {
                *sum += weight * value;
            }
        }
        sum
    }

    /// The bow at an instant of a part: twice the step, and one more halfway.
    #[inline(always)]
    pub(crate) fn at<N: Number>(
        &self,
        part: usize,
        instant: usize,
        weights: &[N; TERMS],
    ) -> BowAt<N> {
        let terms = self.ends.len();
        let from = instant * terms * ROW;
        let rows = &self.rows[part][from..from + terms * ROW];
        let mut out = [weights[0]; ROW];
        for i in 0..ROW {
            out[i] = out[i].same(rows[i]);
        }
        for term in 1..terms {
            for i in 0..ROW {
                let coefficient = out[i].same(rows[term * ROW + i]);
                out[i] = weights[term].mul_add(coefficient, out[i]);
            }
        }
        BowAt {
            left: out[0],
            speed: out[1],
            acceleration: out[2],
            side: out[3],
            up: [out[4], out[5], out[6], out[7], out[8], out[9]],
            across: out[10],
        }
    }
}

/// Rows of terms, one after another for each instant.
fn interleaved(values: &[Vec<f64>]) -> Vec<f64> {
    let instants = values[0].len() / ROW;
    let mut rows = Vec::with_capacity(instants * ROW * values.len());
    for instant in 0..instants {
        for term in values {
            rows.extend_from_slice(&term[instant * ROW..(instant + 1) * ROW]);
        }
    }
    rows
}

fn row(at: &Instant, bow: &Bow) -> [f64; ROW] {
    let hold = at.hold.scaled(bow.restraint.left.si(), bow.restraint.up.si());
    let [a, b, c, d, e, f] = hold.up;
    [at.left, at.speed, at.acceleration, hold.side, a, b, c, d, e, f, hold.across]
}
