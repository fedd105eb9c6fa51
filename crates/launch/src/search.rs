//! Small searches for the parts of a bow.

/// Take-up and slope at a turn, from rows that are uneven in it.
pub(crate) fn between(taken: &[[f64; 3]], turn: f64) -> [f64; 2] {
    let next = taken.partition_point(|row| row[0] < turn).clamp(1, taken.len() - 1);
    let ([from, q0, m0], [to, q1, m1]) = (taken[next - 1], taken[next]);
    let h = to - from;
    let (m0, m1, t) = (m0 * h, m1 * h, (turn - from) / h);
    let (square, cube) = (3.0 * (q1 - q0) - 2.0 * m0 - m1, 2.0 * (q0 - q1) + m0 + m1);
    [q0 + t * (m0 + t * (square + t * cube)), (m0 + t * (2.0 * square + 3.0 * t * cube)) / h]
}

/// Where a falling function is zero, by halving.
pub(crate) fn halved(f: impl Fn(f64) -> f64, low: f64, high: f64) -> f64 {
    let (mut low, mut high) = (low, high);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if f(middle) > 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// A root by Newton's method with a difference for the slope; none where it
/// does not settle.
pub(crate) fn newton(f: impl Fn(f64) -> f64, from: f64) -> Option<f64> {
    /// Difference, m, and how closely the root is wanted, m.
    const STEP: f64 = 1e-7;
    const CLOSE: f64 = 1e-13;
    let mut at = from;
    for _ in 0..40 {
        let here = f(at);
        let step = here * STEP / (f(at + STEP) - here);
        at -= step;
        if step.abs() < CLOSE {
            return Some(at);
        }
    }
    None
}
