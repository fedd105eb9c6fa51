use crate::SolveError;

/// Truncation, in units of the first bracket. Chosen: any value above zero
/// converges; a small one trusts the secant more.
const TRUNCATION: f64 = 0.2;
/// How much wider than bisection's the bracket may be. Chosen: 2, that is one
/// evaluation more than bisection at worst.
const SLACK: f64 = 2.0;

/// The zero of `f` between `low` and `high`, where it changes sign, to within
/// `tolerance` (absolute), or as near as `f64` resolves if that is coarser.
///
/// Interpolate, truncate, project: at worst two evaluations more than
/// bisection, far fewer on smooth functions. \[oliveira2021\]
///
/// # Errors
/// [`SolveError::NoBracket`] without a sign change (the ends may be in either
/// order), [`SolveError::Setting`] for a tolerance that is not above zero,
/// [`SolveError::FunctionNotFinite`] where `f`, or an end, is not finite.
pub fn root(
    mut f: impl FnMut(f64) -> f64,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Result<f64, SolveError> {
    let (f_low, f_high) = (finite(low, f(low))?, finite(high, f(high))?);
    between(f, (low, f_low), (high, f_high), tolerance)
}

/// As [`root`], with the function already known at both ends.
pub(crate) fn between(
    mut f: impl FnMut(f64) -> f64,
    low: (f64, f64),
    high: (f64, f64),
    tolerance: f64,
) -> Result<f64, SolveError> {
    if !(tolerance.is_finite() && tolerance > 0.0) {
        return Err(SolveError::Setting { what: "the tolerance of a root", value: tolerance });
    }
    let ((mut a, mut fa), (mut b, mut fb)) =
        if low.0 <= high.0 { (low, high) } else { (high, low) };
    if fa == 0.0 {
        return Ok(a);
    }
    if fb == 0.0 {
        return Ok(b);
    }
    if (fa > 0.0) == (fb > 0.0) {
        return Err(SolveError::NoBracket {
            low: low.0,
            high: high.0,
            f_low: low.1,
            f_high: high.1,
        });
    }
    let rising = if fb > 0.0 { 1.0 } else { -1.0 };
    let resolved = f64::EPSILON * a.abs().max(b.abs());
    let half_width = tolerance.max(resolved);
    // Half the bracket that bisection would have left, doubled for slack.
    let mut radius = SLACK * half_width;
    while radius < 0.5 * SLACK * (b - a) {
        radius *= 2.0;
    }
    let k1 = TRUNCATION / (b - a);
    while b - a > 2.0 * half_width {
        let middle = a + 0.5 * (b - a);
        let secant = (fb * a - fa * b) / (fb - fa);
        let toward = if middle >= secant { 1.0 } else { -1.0 };
        let shift = k1 * (b - a) * (b - a);
        let truncated =
            if shift <= (middle - secant).abs() { secant + toward * shift } else { middle };
        let reach = radius - 0.5 * (b - a);
        let x =
            if (truncated - middle).abs() <= reach { truncated } else { middle - toward * reach };
        let fx = finite(x, f(x))?;
        if fx == 0.0 {
            return Ok(x);
        }
        if fx * rising > 0.0 {
            (b, fb) = (x, fx);
        } else {
            (a, fa) = (x, fx);
        }
        radius *= 0.5;
    }
    Ok(a + 0.5 * (b - a))
}

fn finite(at: f64, value: f64) -> Result<f64, SolveError> {
    if at.is_finite() && value.is_finite() {
        Ok(value)
    } else {
        Err(SolveError::FunctionNotFinite { at })
    }
}

#[cfg(test)]
mod tests {
    use super::root;
    use crate::SolveError;

    #[test]
    fn exact_the_square_root_of_two_from_either_end() -> Result<(), SolveError> {
        for (low, high) in [(0.0, 2.0), (2.0, 0.0)] {
            let found = root(|x| x * x - 2.0, low, high, 1e-12)?;
            assert!((found - std::f64::consts::SQRT_2).abs() < 2e-12, "{found}");
        }
        Ok(())
    }

    /// At worst two evaluations more than bisection, beside the two ends. Of a
    /// step the secant is no help at all.
    #[test]
    fn law_a_step_costs_little_more_than_bisection() -> Result<(), SolveError> {
        let mut calls = 0;
        let step = |x: f64| {
            calls += 1;
            if x < 0.3 { -1.0 } else { 1e6 }
        };
        root(step, 0.0, 1.0, 1e-6)?;
        // Halving 1 down to a half-width of 1e-6 takes 19.
        assert!(calls <= 2 + 19 + 2, "{calls}");
        Ok(())
    }
}
