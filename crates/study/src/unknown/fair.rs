//! Shares of a variance that add up where values go together: Shapley's.

use nalgebra::{DMatrix, DVector};

use super::legendre::{TERMS, legendre};

/// Values that go together whose shares are worked out over every set of them. Chosen:
/// sets double with each value, and a fit of more terms than this takes what chance
/// brings; of more values the first and the last place are averaged, which is exact of
/// pairs.
const MOST: usize = 5;

/// A number at the outer points.
pub(super) struct Number<'a> {
    /// For each point: its chances, its weight and the number.
    pub(super) points: &'a [(&'a [f64], f64, f64)],
    /// How many equal weights they are worth.
    pub(super) count: f64,
}

/// The fair share of each value of a number's variance. What a set of values takes is a
/// fit by their chances; a value's fair share is what it adds to the set before it, over
/// all orders in which they may come (Shapley's value). Values that go with no other take
/// the same in every order, so only those that go together, by `pairs`, are tried.
/// [owen-prieur-2017]
pub(super) fn fair(number: &Number, first: &[f64], pairs: &[([usize; 2], f64)]) -> Vec<f64> {
    let mut shares = first.to_vec();
    for group in groups(first.len(), pairs).iter().filter(|group| group.len() > 1) {
        let whole: Vec<usize> = (0..group.len()).collect();
        let taken = |set: &[usize]| {
            let inputs: Vec<usize> = set.iter().map(|at| group[*at]).collect();
            number.taken(&inputs)
        };
        for (at, input) in group.iter().enumerate() {
            let others: Vec<usize> = whole.iter().copied().filter(|other| *other != at).collect();
            let sets: Vec<Vec<usize>> = if group.len() > MOST {
                vec![Vec::new(), others]
            } else {
                let holds = |set: usize, bit: usize| set >> bit & 1 == 1;
                let of = |set: usize| {
                    let members = others.iter().enumerate().filter(|(bit, _)| holds(set, *bit));
                    members.map(|(_, other)| *other).collect()
                };
                (0..1 << others.len()).map(of).collect()
            };
            let (mut sum, mut all) = (0.0, 0.0);
            for set in &sets {
                let weight = if group.len() > MOST { 1.0 } else { orders(set.len(), group.len()) };
                let with: Vec<usize> = set.iter().copied().chain([at]).collect();
                sum += weight * (taken(&with) - taken(set));
                all += weight;
            }
            shares[*input] = sum / all;
        }
    }
    shares
}

/// In what share of all orders just a set of this size stands before a value, of so many
/// values: |S|! (n - |S| - 1)! / n!
fn orders(before: usize, values: usize) -> f64 {
    let ways = |of: usize| (1..=of).map(|k| k as f64).product::<f64>();
    ways(before) * ways(values - before - 1) / ways(values)
}

/// Values that go together, directly or by way of others.
fn groups(values: usize, pairs: &[([usize; 2], f64)]) -> Vec<Vec<usize>> {
    let mut of: Vec<usize> = (0..values).collect();
    for ([one, other], _) in pairs {
        let (from, to) = (of[*one].max(of[*other]), of[*one].min(of[*other]));
        of.iter_mut().filter(|group| **group == from).for_each(|group| *group = to);
    }
    let group = |at: usize| (0..values).filter(|value| of[*value] == at).collect();
    (0..values).map(group).filter(|group: &Vec<usize>| !group.is_empty()).collect()
}

impl Number<'_> {
    /// The share of the variance that a fit by some values takes, less what so many terms
    /// take by chance alone.
    fn taken(&self, inputs: &[usize]) -> f64 {
        let terms = TERMS * inputs.len();
        if terms == 0 {
            return 0.0;
        }
        let whole: f64 = self.points.iter().map(|point| point.1).sum();
        let mean = |value: &dyn Fn(usize) -> f64| {
            let all = self.points.iter().enumerate();
            all.map(|(at, point)| point.1 * value(at)).sum::<f64>() / whole
        };
        let middle = mean(&|at| self.points[at].2);
        let off = |at: usize| self.points[at].2 - middle;
        let variance = mean(&|at| off(at).powi(2));
        let term = |at: usize, k: usize| legendre(self.points[at].0[inputs[k / TERMS]])[k % TERMS];
        let middles: Vec<f64> = (0..terms).map(|k| mean(&|at| term(at, k))).collect();
        let cross = DMatrix::from_fn(terms, terms, |j, k| {
            mean(&|at| (term(at, j) - middles[j]) * (term(at, k) - middles[k]))
        });
        let with = DVector::from_fn(terms, |k, _| mean(&|at| (term(at, k) - middles[k]) * off(at)));
        let fit = cross.cholesky().map(|cross| cross.solve(&with).dot(&with));
        let free = self.count - 1.0 - terms as f64;
        match fit {
            Some(fit) if variance > 0.0 && free > 0.0 => {
                let taken = (fit / variance).clamp(0.0, 1.0);
                (1.0 - (1.0 - taken) * (self.count - 1.0) / free).max(0.0)
            }
            _ => 0.0,
        }
    }
}
