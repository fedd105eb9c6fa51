//! What a number is fitted by: terms of a chance.

/// Terms of a chance beside the mean. Chosen: two follow a kick that crosses zero within
/// a range.
pub(super) const TERMS: usize = 2;

/// Legendre's polynomials of the first two degrees on 0 to 1, each with mean
/// square one.
pub(super) fn legendre(chance: f64) -> [f64; TERMS] {
    let x = 2.0 * chance - 1.0;
    [3.0_f64.sqrt() * x, 5.0_f64.sqrt() * (1.5 * x * x - 0.5)]
}
