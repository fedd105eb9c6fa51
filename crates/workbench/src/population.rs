use nalgebra::{Complex, DMatrix, DVector};
use units::Length;

use crate::axis::FULL_SPAN;

/// Width of a stretch with one curvature, m. Chosen: half an inch, a third of the
/// shortest hook.
const WIDTH: f64 = 0.0127;
/// Shares of the body's variance of curvature: common to the whole shaft, kept over
/// [`SMOOTH`], and of each stretch by itself. Chosen: a mandrel bends as a whole, and
/// little of a shaft's body is rough.
const SHARES: [f64; 3] = [0.5, 0.45, 0.05];
/// Distance over which the body's curvature is kept, m. Chosen: ten inches.
const SMOOTH: f64 = 0.254;
/// Least and most length of a hook, m: one inch to three. Chosen.
const HOOK: (f64, f64) = (0.0254, 0.0762);
/// Lengths of hook that stand for all. Chosen: 0.4 in apart.
const HOOKS: u32 = 5;

/// Shafts as they are sold: a smooth body, and a hook at each end that does not go
/// with the grade. Every figure is an input, none is fitted to a check.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Population {
    /// Total reading of the body in the middle of a 28 in span: root mean square.
    pub body: Length,
    /// Hook at the nock end: scale of the half-normal law of the total reading at
    /// the very end, the rollers beyond the hook.
    pub nock_hook: Length,
    /// The same at the point end.
    pub point_hook: Length,
}

/// A shaft as stretches with one curvature each.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Cells {
    edges: Vec<f64>,
}

impl Cells {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a shaft of two metres has 158"
    )]
    pub(crate) fn new(stock: f64) -> Self {
        let count = (stock / WIDTH).ceil().max(1.0);
        let edges = (0..=count as usize).map(|k| stock * k as f64 / count).collect();
        Self { edges }
    }

    pub(crate) fn count(&self) -> usize {
        self.edges.len() - 1
    }

    pub(crate) fn edges(&self) -> &[f64] {
        &self.edges
    }

    /// What each stretch's curvature adds to the place at x of an axis that starts
    /// straight: the curvature integrated twice.
    pub(crate) fn place(&self, x: f64) -> DVector<f64> {
        let one = |cell: &[f64]| {
            let (from, to) = (cell[0], cell[1]);
            let inside = (x - from).clamp(0.0, to - from);
            inside * (x - from - inside / 2.0)
        };
        DVector::from_iterator(self.count(), self.edges.windows(2).map(one))
    }

    /// The share of each stretch that lies between two places.
    fn share(&self, from: f64, to: f64) -> DVector<f64> {
        let one =
            |cell: &[f64]| (cell[1].min(to) - cell[0].max(from)).max(0.0) / (cell[1] - cell[0]);
        DVector::from_iterator(self.count(), self.edges.windows(2).map(one))
    }

    /// Curvature of a hook of this length that carries the very end one unit off.
    fn hook(&self, length: f64, front: bool) -> DVector<f64> {
        let stock = self.edges[self.count()];
        let (from, to) = if front { (stock - length, stock) } else { (0.0, length) };
        self.share(from, to) * (2.0 / (length * length))
    }

    /// Curvature of the body at which its reading has a root mean square of one:
    /// the standard deviation of each component.
    fn body(&self) -> f64 {
        let stock = self.edges[self.count()];
        let span = FULL_SPAN.si().min(stock);
        let (a, b) = ((stock - span) / 2.0, f64::midpoint(stock, span));
        let row = self.place(stock / 2.0) - (self.place(a) + self.place(b)) * 0.5;
        let carried = (FULL_SPAN.si() / span).powi(2);
        // The reading is twice the length of a vector of two components.
        let square = 8.0 * row.dot(&(self.smooth() * &row));
        1.0 / (carried * square.sqrt())
    }

    /// Covariance of the body's curvature, of variance one.
    fn smooth(&self) -> DMatrix<f64> {
        let middle = |k: usize| f64::midpoint(self.edges[k], self.edges[k + 1]);
        let [common, kept, own] = SHARES;
        DMatrix::from_fn(self.count(), self.count(), |i, j| {
            let apart = (middle(i) - middle(j)).abs();
            common + kept * (-apart / SMOOTH).exp() + if i == j { own } else { 0.0 }
        })
    }
}

impl Population {
    /// Covariance of one component of the curvature of the stretches.
    pub(crate) fn covariance(&self, cells: &Cells) -> DMatrix<f64> {
        let mut all = cells.smooth() * (self.body.si() * cells.body()).powi(2);
        for (scale, front) in [(self.nock_hook, false), (self.point_hook, true)] {
            // A total is twice the offset, and each component has half the square.
            let each = (scale.si() / 2.0).powi(2) / 2.0 / f64::from(HOOKS);
            for k in 0..HOOKS {
                let share = (f64::from(k) + 0.5) / f64::from(HOOKS);
                let hook = cells.hook(HOOK.0 + share * (HOOK.1 - HOOK.0), front);
                all += &hook * hook.transpose() * each;
            }
        }
        all
    }

    /// Curvature of the stretches of one shaft, from standard normal numbers.
    pub(crate) fn draw(&self, cells: &Cells, normal: &mut dyn FnMut() -> f64) -> Vec<Complex<f64>> {
        let mut two = || Complex::new(normal(), normal());
        let scale = self.body.si() * cells.body();
        let [common, kept, own] = SHARES.map(f64::sqrt);
        let whole = two() * common;
        let mut slow = two();
        let width = cells.edges[1];
        let held = (-width / SMOOTH).exp();
        let mut all = Vec::with_capacity(cells.count());
        for k in 0..cells.count() {
            if k > 0 {
                slow = slow * held + two() * (1.0 - held * held).sqrt();
            }
            all.push((whole + slow * kept + two() * own) * scale);
        }
        for (size, front) in [(self.nock_hook, false), (self.point_hook, true)] {
            let far = two().re.abs() * size.si() / 2.0;
            // The direction of a pair of normal numbers is even over the turn.
            let (clock, share) = (two().arg(), two().arg() / std::f64::consts::TAU + 0.5);
            let hook = cells.hook(HOOK.0 + share * (HOOK.1 - HOOK.0), front);
            for (cell, by) in all.iter_mut().zip(hook.iter()) {
                *cell += Complex::from_polar(far * by, clock);
            }
        }
        all
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A hook of one unit carries the very end one unit off the line of the rest.
    #[test]
    fn exact_a_hook_carries_its_end() {
        let cells = Cells::new(0.8128);
        for (length, within) in [(0.0254, 1e-9), (0.05, 0.02), (0.0762, 1e-9)] {
            let hook = cells.hook(length, true);
            let place = |x: f64| cells.place(x).dot(&hook);
            assert!(place(0.8128 - length - 0.0127).abs() < 1e-12);
            // Exact where the hook begins at the edge of a stretch.
            assert!((place(0.8128) - 1.0).abs() < within, "{length} {}", place(0.8128));
        }
    }

    /// Draws have the covariance that the readings are judged by.
    #[test]
    fn stat_draws_have_the_covariance() {
        let cells = Cells::new(0.8128);
        let one = |inch: f64| Length::from_si(inch * 0.0254);
        let many = Population { body: one(0.004), nock_hook: one(0.0045), point_hook: one(0.002) };
        let want = many.covariance(&cells);
        // Irwin and Hall: twelve even numbers make one nearly normal.
        let mut state = 1_u64;
        let mut even = move || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            (state >> 11) as f64 / (1_u64 << 53) as f64
        };
        let mut normal = move || (0..12).map(|_| even()).sum::<f64>() - 6.0;
        let ends = [(0.0, 0.1016, 0.2), (0.3, 0.4064, 0.5), (0.6, 0.7112, 0.8128)];
        let rows: Vec<DVector<f64>> = ends
            .iter()
            .map(|(a, m, b)| {
                let share = (m - a) / (b - a);
                cells.place(*m) - cells.place(*a) * (1.0 - share) - cells.place(*b) * share
            })
            .collect();
        let mut squares = [0.0; 3];
        let count = 4_000;
        for _ in 0..count {
            let drawn = many.draw(&cells, &mut normal);
            for (sum, row) in squares.iter_mut().zip(&rows) {
                let off: Complex<f64> = drawn.iter().zip(row.iter()).map(|(k, r)| k * *r).sum();
                *sum += off.norm_sqr();
            }
        }
        for (sum, row) in squares.iter().zip(&rows) {
            let expected = 2.0 * row.dot(&(&want * row));
            // A mean square of 4000 pairs is known to two per cent.
            let found = sum / f64::from(count);
            assert!((found / expected - 1.0).abs() < 0.08, "{found} against {expected}");
        }
    }
}
