//! Which shaft gets which parts. Model card: docs/model/pairing.md.

use pathfinding::prelude::{Matrix, kuhn_munkres_min};

use crate::WorkbenchError;

/// Most ways to give out all kinds but two that are all looked at. Chosen: some seconds
/// with eight arrows of three kinds.
const MOST_WAYS: usize = 50_000;
/// Shakes of the search beyond that, for a dozen or two and for more. Chosen: a dozen finds
/// the best of all small cases tried (tested), a gross takes some seconds.
const SHAKES: (usize, usize) = (1000, 8);
/// Arrows up to which the first number of shakes holds.
const SMALL: usize = 24;
/// Pairs that change places in a shake. Chosen.
const SWAPS: usize = 4;
/// Steps of the golden section fall evenly and never repeat.
const GOLDEN: f64 = 0.618_033_988_749_894_9;
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
/// while all ways of the others can be looked at; beyond, the heaps are parted in two in
/// every way and given out anew, exactly, until nothing gets better, and again after some
/// parts changed places; [`Pairing::bound`] says how much better any other way could be.
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
    let job = Job { heaps, alike, weights, count };
    let bound = job.bound();
    let as_they_come: Vec<Vec<usize>> = heaps.iter().map(|_| (0..count).collect()).collect();
    let scale = job.cost(&as_they_come).max(bound);
    let ways = heaps.len().checked_sub(2).and_then(|others| job.ways(others));
    let (given, best) = match ways {
        Some(ways) if ways <= MOST_WAYS => (job.every_way(), true),
        _ if heaps.len() == 1 => (job.improved(as_they_come).1, true),
        _ => {
            let given = job.searched(if count <= SMALL { SHAKES.0 } else { SHAKES.1 });
            let best = job.cost(&given) - bound <= PROVEN * scale;
            (given, best)
        }
    };
    let cost = job.cost(&given);
    let arrows = (0..count).map(|at| given.iter().map(|heap| heap[at]).collect()).collect();
    Ok(Pairing { arrows, cost, bound: if best { cost } else { bound }, best })
}

struct Job<'a> {
    heaps: &'a [Vec<Share>],
    alike: Share,
    weights: [f64; 2],
    count: usize,
}

/// A whole number below another.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a place in a list")]
fn count_below(at: f64, below: usize) -> usize {
    (at as usize).min(below - 1)
}

/// For each heap, which part each arrow gets.
type Given = Vec<Vec<usize>>;

impl Job<'_> {
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
            (heap.len() - self.count + 1..=heap.len()).try_fold(1_usize, usize::checked_mul)
        };
        // Which part of the first heap goes unused matters where it is the longer one.
        let first = if self.heaps[0].len() == self.count || others == 0 { Some(1) } else { None };
        self.heaps[1..=others]
            .iter()
            .map(one)
            .chain([first])
            .try_fold(1_usize, |all, ways| all.checked_mul(ways?))
    }

    /// Gives out some heaps anew, exactly: one from all its parts, several as they are
    /// together in the arrows.
    fn assign(&self, given: &mut Given, group: u32) {
        let within = |heap: &usize| group >> heap & 1 == 1;
        let (these, others): (Vec<usize>, Vec<usize>) = (0..self.heaps.len()).partition(within);
        let sum = |of: &[usize], at: usize, first: Share| {
            of.iter().fold(first, |sum, heap| sum.and(self.heaps[*heap][given[*heap][at]]))
        };
        let rows: Vec<Share> = (0..self.count).map(|at| sum(&others, at, self.alike)).collect();
        let columns: Vec<Share> = match these.as_slice() {
            [one] => self.heaps[*one].clone(),
            several => (0..self.count).map(|at| sum(several, at, Share::default())).collect(),
        };
        let costs: Vec<Vec<f64>> = rows
            .iter()
            .map(|row| columns.iter().map(|column| self.off(row.and(*column))).collect())
            .collect();
        let most = costs.iter().flatten().copied().fold(f64::MIN_POSITIVE, f64::max);
        #[expect(clippy::cast_possible_truncation, reason = "within COUNTS")]
        let counts = costs.iter().map(|row| row.iter().map(|c| (c / most * COUNTS).round() as i64));
        // Rows of one length, and no more of them than columns.
        let Ok(counts) = Matrix::from_rows(counts) else { return };
        let found = kuhn_munkres_min(&counts).1;
        match these.as_slice() {
            [one] => given[*one] = found,
            several => {
                for heap in several {
                    given[*heap] = found.iter().map(|from| given[*heap][*from]).collect();
                }
            }
        }
    }

    /// One group of heaps after the other, until nothing gets better.
    fn improved(&self, mut given: Given) -> (f64, Given) {
        let mut cost = self.cost(&given);
        loop {
            let before = cost;
            // Each way to part the heaps in two, and each heap alone.
            let halves = 1..1_u32 << (self.heaps.len() - 1);
            for group in halves.chain([1 << (self.heaps.len() - 1)]) {
                let mut next = given.clone();
                self.assign(&mut next, group);
                let better = self.cost(&next);
                // Rounding alone does not choose.
                if better < cost * (1.0 - 1e-12) {
                    (given, cost) = (next, better);
                }
            }
            if cost >= before {
                return (cost, given);
            }
        }
    }

    /// The best after so many shakes: some parts of the best so far change places, in an
    /// order that is the same every time, and are given out anew.
    fn searched(&self, shakes: usize) -> Given {
        let came = self.heaps.iter().map(|_| (0..self.count).collect()).collect();
        let (mut cost, mut best) = self.improved(came);
        let mut step = 0.0_f64;
        let mut next = |below: usize| {
            step = (step + GOLDEN).fract();
            count_below(step * below as f64, below)
        };
        for _ in 0..shakes {
            let mut given = best.clone();
            for _ in 0..SWAPS {
                let heap = next(self.heaps.len());
                let (one, other) = (next(self.count), next(self.count));
                given[heap].swap(one, other);
            }
            let (better, given) = self.improved(given);
            if better < cost * (1.0 - 1e-12) {
                (cost, best) = (better, given);
            }
        }
        best
    }

    /// Every way to give out the heaps between the first and the last, the last exactly.
    fn every_way(&self) -> Given {
        let last = self.heaps.len() - 1;
        let mut given: Given = self.heaps.iter().map(|_| (0..self.count).collect()).collect();
        if self.heaps[0].len() > self.count && last == 1 {
            // Of two heaps the longer one is chosen from.
            self.assign(&mut given, 1);
            return given;
        }
        let mut best: Option<(f64, Given)> = None;
        self.walk(&mut given, (1, 0), &mut best);
        best.map_or_else(|| given, |(_, given)| given)
    }

    fn walk(&self, given: &mut Given, (heap, at): (usize, usize), best: &mut Option<(f64, Given)>) {
        if heap + 1 >= self.heaps.len() {
            self.assign(given, 1 << heap);
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
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
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

    /// Given out in every way, and as a dozen is searched.
    #[test]
    fn exact_parts_given_out_cost_the_least_of_every_way() {
        let (alike, weights) = (Share { mass: 0.1, moment: -0.05 }, [1.0, 2.0]);
        let three = [[3, 4, 3], [4, 3, 3], [4, 4, 4]].map(Vec::from);
        let all = [vec![5, 5], vec![6, 4], vec![4, 6], vec![3; 4], vec![5; 3]].into_iter();
        for sizes in all.chain(three) {
            for seed in 1..6 {
                let made = |(at, count): (usize, &usize)| {
                    heap(*count, seed * 7 + at as u64, at as f64 - 1.0)
                };
                let heaps: Vec<Vec<Share>> = sizes.iter().enumerate().map(made).collect();
                let count = sizes.iter().copied().min().unwrap();
                let found = pair(&heaps, alike, weights).unwrap();
                let job = Job { heaps: &heaps, alike, weights, count };
                let searched = job.cost(&job.searched(SHAKES.0));
                let least = exhaustive(&heaps, alike, weights);
                // Costs are counted in 1e-12 of the largest.
                assert!((found.cost - least).abs() < 1e-9, "{sizes:?} {found:?} {least}");
                assert!((searched - least).abs() < 1e-9, "{sizes:?} {searched} {least}");
                assert!(found.bound <= least + 1e-9 && (found.best || sizes == [4, 3, 3]));
            }
        }
    }

    /// Of a dozen and of a gross no two parts are better changed about, each part is used
    /// once, and the bound holds.
    #[test]
    fn law_no_two_parts_are_better_changed_about() {
        for count in [12, 144] {
            let heaps: Vec<Vec<Share>> =
                (0..4).map(|at| heap(count, 90 + at, at as f64 - 1.0)).collect();
            let found = pair(&heaps, Share::default(), [1.0, 1.0]).unwrap();
            let job = Job { heaps: &heaps, alike: Share::default(), weights: [1.0; 2], count };
            let given: Given =
                (0..4).map(|heap| found.arrows.iter().map(|arrow| arrow[heap]).collect()).collect();
            assert!(found.bound <= found.cost && (job.cost(&given) - found.cost).abs() < 1e-9);
            for heap in 0..4 {
                let mut used = given[heap].clone();
                used.sort_unstable();
                used.dedup();
                assert_eq!(used.len(), count);
                for one in 0..count {
                    for other in one + 1..count {
                        let off = |a: usize, b: usize| {
                            job.off(job.without(&given, a, heap).and(heaps[heap][given[heap][b]]))
                        };
                        let (now, then) =
                            (off(one, one) + off(other, other), off(one, other) + off(other, one));
                        assert!(now <= then + 1e-9, "{count} {heap} {one} {other}");
                    }
                }
            }
        }
    }
}
