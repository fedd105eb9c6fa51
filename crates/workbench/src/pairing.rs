//! Which shaft gets which parts. Model card: docs/model/pairing.md.

use pathfinding::prelude::{Matrix, kuhn_munkres_min};

use crate::WorkbenchError;

/// Most ways to give out all kinds but two that are all looked at. Chosen: some seconds
/// with eight arrows of three kinds.
const MOST_WAYS: usize = 50_000;
/// Starts of the search beyond that, for a dozen or two and for more. Chosen: found to
/// reach the bound within a scale's step.
const STARTS: (usize, usize) = (24, 3);
/// Arrows up to which the first number of starts holds.
const SMALL: usize = 24;
/// What a cost is counted in, over the largest one of a matrix.
const COUNTS: f64 = 1e12;
/// A cost is the bound where it lies above it by no more than this share of what the
/// heaps as they come cost. Chosen: far below any scale.
const PROVEN: f64 = 1e-9;

/// What a part, or all that is alike in every arrow, adds to an arrow: mass, and moment of
/// mass about the balance wanted. The mass wanted is subtracted from what is alike.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Share {
    /// Mass, kg.
    pub mass: f64,
    /// Mass times how far ahead of the balance wanted it sits, kg m.
    pub moment: f64,
}

impl Share {
    fn and(self, other: Self) -> Self {
        Self { mass: self.mass + other.mass, moment: self.moment + other.moment }
    }
}

/// Parts given out.
#[derive(Debug, Clone, PartialEq)]
pub struct Pairing {
    /// For each arrow, which of each heap.
    pub arrows: Vec<Vec<usize>>,
    /// Sum over the arrows of what they are off, in the squared unit of the weights.
    pub cost: f64,
    /// No way to give them out costs less.
    pub bound: f64,
    /// Whether it is the best there is.
    pub best: bool,
}

/// Gives out the parts of some heaps, one of each heap to an arrow, as many arrows as the
/// smallest heap has, so that the sum of
/// `weights[0]^2 mass^2 + weights[1]^2 moment^2` is least.
///
/// Two heaps are an assignment, exact at any size by the Hungarian method. More are exact
/// while all ways of the others can be looked at; beyond, one heap after the other is given
/// out anew, exactly, until nothing gets better, from several starts, and [`Pairing::bound`]
/// says how much better any other way could be.
///
/// # Errors
/// [`WorkbenchError::Size`] without a part, [`WorkbenchError::NotAPlace`] for a mass or a
/// moment that is not finite.
pub fn pair(
    heaps: &[Vec<Share>],
    alike: Share,
    weights: [f64; 2],
) -> Result<Pairing, WorkbenchError> {
    let count = heaps.iter().map(Vec::len).min().unwrap_or(0);
    if count == 0 {
        return Err(WorkbenchError::Size { wanted: 1, of: 0 });
    }
    let all = || heaps.iter().flatten().chain([&alike]);
    for (at, share) in all().enumerate() {
        let value = weights[0] * share.mass + weights[1] * share.moment;
        if !value.is_finite() {
            return Err(WorkbenchError::NotAPlace { index: at + 1, value });
        }
    }
    let job = Heaps { heaps, alike, weights, count };
    let bound = job.bound();
    let as_they_come: Vec<Vec<usize>> = heaps.iter().map(|_| (0..count).collect()).collect();
    let scale = job.cost(&as_they_come).max(bound);
    let ways = heaps.len().checked_sub(2).and_then(|others| job.ways(others));
    let (given, best) = match ways {
        Some(ways) if ways <= MOST_WAYS => (job.every_way(), true),
        _ if heaps.len() == 1 => (job.improved(as_they_come), true),
        _ => {
            let given = job.searched(if count <= SMALL { STARTS.0 } else { STARTS.1 });
            let best = job.cost(&given) - bound <= PROVEN * scale;
            (given, best)
        }
    };
    let cost = job.cost(&given);
    let arrows = (0..count).map(|at| given.iter().map(|heap| heap[at]).collect()).collect();
    Ok(Pairing { arrows, cost, bound: if best { cost } else { bound }, best })
}

struct Heaps<'a> {
    heaps: &'a [Vec<Share>],
    alike: Share,
    weights: [f64; 2],
    count: usize,
}

/// For each heap, which part each arrow gets.
type Given = Vec<Vec<usize>>;

impl Heaps<'_> {
    fn off(&self, whole: Share) -> f64 {
        (self.weights[0] * whole.mass).powi(2) + (self.weights[1] * whole.moment).powi(2)
    }

    /// What an arrow has of every heap but one.
    fn without(&self, given: &Given, at: usize, but: usize) -> Share {
        let others = (0..self.heaps.len()).filter(|heap| *heap != but);
        others.fold(self.alike, |sum, heap| sum.and(self.heaps[heap][given[heap][at]]))
    }

    fn cost(&self, given: &Given) -> f64 {
        (0..self.count).map(|at| self.off(self.without(given, at, usize::MAX))).sum()
    }

    /// A sum of squares is at least its count times the square of the mean, and the mean
    /// is the same however all of every heap is given out.
    fn bound(&self) -> f64 {
        if self.heaps.iter().any(|heap| heap.len() != self.count) {
            return 0.0;
        }
        let n = self.count as f64;
        let sum = self.heaps.iter().flatten().fold(Share::default(), |sum, one| sum.and(*one));
        let mean = Share { mass: sum.mass / n, moment: sum.moment / n };
        n * self.off(mean.and(self.alike))
    }

    /// How many ways there are to give out the first so many heaps after the first.
    fn ways(&self, others: usize) -> Option<usize> {
        let one = |heap: &Vec<Share>| {
            (heap.len() - self.count + 1..=heap.len()).try_fold(1_usize, |all, n| all.checked_mul(n))
        };
        // Which part of the first heap goes unused matters where it is the longer one.
        let first = if self.heaps[0].len() == self.count || others == 0 { Some(1) } else { None };
        self.heaps[1..=others].iter().map(one).chain([first]).try_fold(1_usize, |all, ways| {
            all.checked_mul(ways?)
        })
    }

    /// Gives out one heap anew, exactly.
    fn assign(&self, given: &mut Given, heap: usize) {
        let parts = &self.heaps[heap];
        let cost = |at: usize, part: usize| self.off(self.without(given, at, heap).and(parts[part]));
        let costs: Vec<Vec<f64>> = (0..self.count)
            .map(|at| (0..parts.len()).map(|part| cost(at, part)).collect())
            .collect();
        let most = costs.iter().flatten().copied().fold(f64::MIN_POSITIVE, f64::max);
        #[expect(clippy::cast_possible_truncation, reason = "within COUNTS")]
        let counts = costs.iter().map(|row| row.iter().map(|c| (c / most * COUNTS).round() as i64));
        // Rows of one length, and no more of them than columns.
        if let Ok(counts) = Matrix::from_rows(counts) {
            given[heap] = kuhn_munkres_min(&counts).1;
        }
    }

    /// One heap after the other, until nothing gets better.
    fn improved(&self, mut given: Given) -> Given {
        let mut cost = self.cost(&given);
        loop {
            let before = cost;
            for heap in (0..self.heaps.len()).rev() {
                let mut next = given.clone();
                self.assign(&mut next, heap);
                let better = self.cost(&next);
                // Rounding alone does not choose.
                if better < cost * (1.0 - 1e-12) {
                    (given, cost) = (next, better);
                }
            }
            if cost >= before {
                return given;
            }
        }
    }

    /// The best from several starts: each heap shifted by its own step.
    fn searched(&self, starts: usize) -> Given {
        let start = |k: usize| -> Given {
            let heap = |(at, parts): (usize, &Vec<Share>)| {
                (0..self.count).map(|arrow| (arrow + k * at) % parts.len()).collect()
            };
            self.heaps.iter().enumerate().map(heap).collect()
        };
        let found = (0..starts.max(1)).map(|k| self.improved(start(k)));
        let best = found.min_by(|a, b| self.cost(a).total_cmp(&self.cost(b)));
        best.unwrap_or_default()
    }

    /// Every way to give out the heaps between the first and the last, the last exactly.
    fn every_way(&self) -> Given {
        let last = self.heaps.len() - 1;
        let mut given: Given = self.heaps.iter().map(|_| (0..self.count).collect()).collect();
        if self.heaps[0].len() > self.count && last == 1 {
            // Of two heaps the longer one is chosen from.
            self.assign(&mut given, 0);
            return given;
        }
        let mut best: Option<(f64, Given)> = None;
        self.walk(&mut given, (1, 0), &mut best);
        best.map_or_else(|| given, |(_, given)| given)
    }

    fn walk(&self, given: &mut Given, (heap, at): (usize, usize), best: &mut Option<(f64, Given)>) {
        if heap + 1 >= self.heaps.len() {
            self.assign(given, heap);
            let cost = self.cost(given);
            if best.as_ref().is_none_or(|(least, _)| cost < least * (1.0 - 1e-12)) {
                *best = Some((cost, given.clone()));
            }
            return;
        }
        if at == self.count {
            return self.walk(given, (heap + 1, 0), best);
        }
        for part in 0..self.heaps[heap].len() {
            if !given[heap][..at].contains(&part) {
                given[heap][at] = part;
                self.walk(given, (heap, at + 1), best);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Numbers by chance that come out alike every time.
    fn heap(count: usize, seed: u64, ahead: f64) -> Vec<Share> {
        let mut state = seed;
        let mut next = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            (state >> 40) as f64 / 16_777_216.0 - 0.5
        };
        (0..count).map(|_| next()).map(|mass| Share { mass, moment: ahead * mass }).collect()
    }

    /// Every way there is, one after the other.
    fn exhaustive(heaps: &[Vec<Share>], alike: Share, weights: [f64; 2]) -> f64 {
        fn ways(of: usize, take: usize) -> Vec<Vec<usize>> {
            if take == 0 {
                return vec![Vec::new()];
            }
            let mut all = Vec::new();
            for mut way in ways(of, take - 1) {
                for part in 0..of {
                    if !way.contains(&part) {
                        way.push(part);
                        all.push(way.clone());
                        way.pop();
                    }
                }
            }
            all
        }
        let count = heaps.iter().map(Vec::len).min().unwrap();
        let mut sums = vec![vec![alike; count]];
        for heap in heaps {
            let ways = ways(heap.len(), count);
            let with = |sum: &Vec<Share>, way: &Vec<usize>| -> Vec<Share> {
                sum.iter().zip(way).map(|(sum, part)| sum.and(heap[*part])).collect()
            };
            sums = sums.iter().flat_map(|sum| ways.iter().map(move |way| with(sum, way))).collect();
        }
        let off = |s: &Share| (weights[0] * s.mass).powi(2) + (weights[1] * s.moment).powi(2);
        sums.iter().map(|sum| sum.iter().map(off).sum()).fold(f64::INFINITY, f64::min)
    }

    #[test]
    fn exact_parts_given_out_cost_the_least_of_every_way() {
        let alike = Share { mass: 0.1, moment: -0.05 };
        let weights = [1.0, 2.0];
        for seed in 1..20 {
            for sizes in [vec![5, 5], vec![6, 4], vec![4, 6], vec![4, 4, 4], vec![3, 4, 3], vec![4, 3, 3], vec![3; 4]] {
                let heaps: Vec<Vec<Share>> = sizes
                    .iter()
                    .enumerate()
                    .map(|(at, count)| heap(*count, seed * 7 + at as u64, at as f64 - 1.0))
                    .collect();
                let found = pair(&heaps, alike, weights).unwrap();
                let least = exhaustive(&heaps, alike, weights);
                // Costs are counted in 1e-12 of the largest.
                assert!(found.cost >= least - 1e-9, "{sizes:?}");
                assert!(!found.best || found.cost <= least + 1e-9, "{sizes:?} {found:?} {least}");
                assert!(found.bound <= least + 1e-9 && (found.best || sizes == [4, 3, 3]), "{sizes:?}");
            }
        }
    }

    /// A dozen of four kinds comes as near its bound as no scale tells, and a gross within
    /// a hundredth of the spread as the parts come.
    #[test]
    fn law_a_dozen_of_four_kinds_is_as_good_as_proven() {
        for (count, share) in [(12, 1e-4), (144, 1e-2)] {
            let heaps: Vec<Vec<Share>> =
                (0..4).map(|at| heap(count, 90 + at, at as f64 - 1.0)).collect();
            let found = pair(&heaps, Share::default(), [1.0, 1.0]).unwrap();
            let job = Heaps { heaps: &heaps, alike: Share::default(), weights: [1.0, 1.0], count };
            let came = job.cost(&vec![(0..count).collect(); 4]);
            assert!(found.cost - found.bound <= share * came, "{} {} {came}", found.cost, found.bound);
            for heap in 0..4 {
                let mut used: Vec<usize> = found.arrows.iter().map(|arrow| arrow[heap]).collect();
                used.sort_unstable();
                used.dedup();
                assert_eq!(used.len(), count);
            }
        }
    }
}
