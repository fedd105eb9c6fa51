use crate::fixed::classical;
use crate::{At, Number};

/// Fixed steps of order 4 by two evaluations each: a method of two steps with a
/// point between them.
///
/// With the slopes at hand at the end, the middle and the start of the last step,
/// a step evaluates the slope in its middle, at a state predicted from those three,
/// and at its end, at a state predicted from the middle too; the state then follows
/// by Simpson's rule. The slope at the end is the next step's first. Weights are
/// integrals of the polynomials through those slopes: by the order of the
/// prediction the middle errs by the fourth power of the step, the end by the fifth,
/// and so does the step. Hybrid methods: \[hairer1993\] III.8.
///
/// The first step is a classical one of order 4, whose slopes serve the second.
#[derive(Debug, Clone, Copy)]
pub struct TwoStep<T, const N: usize> {
    state: [T; N],
    /// Slopes times the step at the end, the middle and the start of the last step.
    slopes: [[T; N]; 3],
}

impl<T: Number, const N: usize> TwoStep<T, N> {
    /// Takes the first step from a state. `rise` gives the slope times the step, at
    /// a place in the step.
    #[inline(always)]
    pub fn first(rise: impl Fn(At, &[T; N]) -> [T; N] + Copy, y: &[T; N]) -> Self {
        let (state, [start, middle]) = classical(rise, y, y[0].same(1.0));
        Self { slopes: [rise(At::End, &state), middle, start], state }
    }

    /// Takes a step more.
    #[inline(always)]
    pub fn step(&mut self, rise: impl Fn(At, &[T; N]) -> [T; N]) {
        let y = &self.state;
        let [now, middle, before] = &self.slopes;
        // The newest slope last: the rest is added up while it is awaited.
        let w = weights(y[0], [5.0 / 24.0, -2.0 / 3.0, 23.0 / 24.0]);
        let at = sum(y, [(w[0], before), (w[1], middle), (w[2], now)]);
        let next = rise(At::Middle, &at);
        let w = weights(y[0], [-1.0 / 6.0, 2.0 / 3.0, -5.0 / 6.0, 4.0 / 3.0]);
        let at = sum(y, [(w[0], before), (w[1], middle), (w[2], now), (w[3], &next)]);
        let end = rise(At::End, &at);
        let w = weights(y[0], [1.0 / 6.0, 2.0 / 3.0]);
        let state = sum(y, [(w[0], now), (w[1], &next), (w[0], &end)]);
        self.slopes = [end, next, *now];
        self.state = state;
    }

    /// The state at the end of the last step.
    pub fn state(&self) -> &[T; N] {
        &self.state
    }

    /// The state within the last step, by what share of it before its end: the end
    /// less the integral of the parabola through the slopes of the step.
    #[inline(always)]
    pub fn before_end(&self, share: T) -> [T; N] {
        let [first, second, third] = [
            weight(share, [2.0 / 3.0, -1.5, 1.0]),
            weight(share, [-4.0 / 3.0, 2.0, 0.0]),
            weight(share, [2.0 / 3.0, -0.5, 0.0]),
        ];
        let [now, middle, before] = &self.slopes;
        sum(&self.state, [(first, now), (second, middle), (third, before)])
    }
}

/// Less a cubic without a constant term, highest coefficient first.
#[inline(always)]
fn weight<T: Number>(x: T, [a, b, c]: [f64; 3]) -> T {
    -(x * x.mul_add(x.mul_add(x.same(a), x.same(b)), x.same(c)))
}

/// Constants of the kind of a number.
#[inline(always)]
fn weights<T: Number, const M: usize>(kind: T, values: [f64; M]) -> [T; M] {
    values.map(
        #[inline(always)]
        |value| kind.same(value),
    )
}

/// A state and some rises, each times its weight.
#[inline(always)]
fn sum<T: Number, const N: usize, const M: usize>(y: &[T; N], rises: [(T, &[T; N]); M]) -> [T; N] {
    let mut state = *y;
    for (weight, rise) in rises {
        for i in 0..N {
            state[i] = weight.mul_add(rise[i], state[i]);
        }
    }
    state
}

#[cfg(test)]
mod tests {
    use super::TwoStep;
    use crate::At;

    /// Ends of a swing of one turn, and its state a third before the end of the last step.
    fn swing(steps: u32) -> ([f64; 2], [f64; 2]) {
        let h = std::f64::consts::TAU / f64::from(steps);
        let rise = |_: At, y: &[f64; 2]| [h * y[1], -h * y[0]];
        let mut track = TwoStep::first(rise, &[0.0, 1.0]);
        for _ in 1..steps {
            track.step(rise);
        }
        (*track.state(), track.before_end(1.0 / 3.0))
    }

    /// Order 4: half the step, a sixteenth of the error, to the next order.
    #[test]
    fn law_half_the_step_is_a_sixteenth_of_the_error() {
        let error = |steps: u32| {
            let (end, within) = swing(steps);
            let before = -std::f64::consts::TAU / f64::from(3 * steps);
            let (sin, cos) = before.sin_cos();
            (end[0].hypot(end[1] - 1.0), (within[0] - sin).hypot(within[1] - cos))
        };
        let (coarse, fine) = (error(40), error(80));
        let ratios = (coarse.0 / fine.0, coarse.1 / fine.1);
        assert!((ratios.0 - 16.0).abs() < 2.0 && (ratios.1 - 16.0).abs() < 2.0, "{ratios:?}");
    }

    /// What grows with the square of the variable comes out exactly, between steps too.
    #[test]
    fn exact_a_cubic_comes_back() {
        let h = 0.5;
        let rise = |_: At, y: &[f64; 2]| [h, h * 3.0 * y[0] * y[0]];
        let mut track = TwoStep::first(rise, &[0.0, 0.0]);
        track.step(rise);
        track.step(rise);
        for (share, x) in [(0.0, 1.5), (0.25, 1.375), (1.0, 1.0_f64)] {
            let [place, cube] = track.before_end(share);
            assert!((place - x).abs() < 1e-14 && (cube - x.powi(3)).abs() < 1e-13, "{cube}");
        }
    }
}
