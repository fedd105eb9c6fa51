use crate::Number;

/// One step of the classical Runge-Kutta method, order 4.
///
/// `rhs` gives the derivative of the state at a value of the independent
/// variable; the result is the state at `x + step`. The caller checks that it
/// is finite. \[hairer1993\] II.1.
#[inline(always)]
pub fn rk4<T: Number, const N: usize>(
    rhs: impl Fn(T, &[T; N]) -> [T; N],
    x: T,
    y: &[T; N],
    step: T,
) -> [T; N] {
    let half = step * step.same(0.5);
    rk4_at(
        #[inline(always)]
        |at, y| match at {
            At::Start => rhs(x, y),
            At::Middle => rhs(x + half, y),
            At::End => rhs(x + step, y),
        },
        y,
        step,
    )
}

/// Where in a step a derivative is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum At {
    /// At its start.
    Start,
    /// Halfway.
    Middle,
    /// At its end.
    End,
}

/// As [`rk4`], for a derivative that knows the place in the step rather than the
/// independent variable.
#[inline(always)]
pub fn rk4_at<T: Number, const N: usize>(
    rhs: impl Fn(At, &[T; N]) -> [T; N],
    y: &[T; N],
    step: T,
) -> [T; N] {
    classical(rhs, y, step).0
}

/// The same, with the slopes at the start and, the second one, in the middle.
#[inline(always)]
pub(crate) fn classical<T: Number, const N: usize>(
    rhs: impl Fn(At, &[T; N]) -> [T; N],
    y: &[T; N],
    step: T,
) -> ([T; N], [[T; N]; 2]) {
    let half = step * step.same(0.5);
    let k1 = rhs(At::Start, y);
    let k2 = rhs(At::Middle, &along(y, &k1, half));
    let k3 = rhs(At::Middle, &along(y, &k2, half));
    let k4 = rhs(At::End, &along(y, &k3, step));
    let (sixth, third) = (step * step.same(1.0 / 6.0), step * step.same(1.0 / 3.0));
    let mut end = *y;
    for i in 0..N {
        let ends = (k1[i] + k4[i]).mul_add(sixth, y[i]);
        end[i] = (k2[i] + k3[i]).mul_add(third, ends);
    }
    (end, [k1, k3])
}

/// A state some way along a slope.
#[inline(always)]
fn along<T: Number, const N: usize>(y: &[T; N], slope: &[T; N], by: T) -> [T; N] {
    let mut state = *y;
    for i in 0..N {
        state[i] = slope[i].mul_add(by, y[i]);
    }
    state
}

#[cfg(test)]
mod tests {
    use super::rk4;

    /// Order 4: half the step, a sixteenth of the error, to the next order.
    #[test]
    fn law_half_the_step_is_a_sixteenth_of_the_error() {
        let error = |steps: u32| {
            let step = 1.0 / f64::from(steps);
            let mut y = [1.0];
            for at in 0..steps {
                y = rk4(|_, y| [-y[0]], f64::from(at) * step, &y, step);
            }
            (y[0] - (-1.0_f64).exp()).abs()
        };
        let ratio = error(20) / error(40);
        assert!((ratio - 16.0).abs() < 0.5, "{ratio}");
    }
}
