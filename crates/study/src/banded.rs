//! A number with what is not known of it.

/// A number with its band over the doubts.
///
/// Each doubt is moved through its range, the others at their own values; the
/// largest change on each side counts, and the doubts add as the root of the
/// sum of squares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Banded {
    /// The number.
    pub value: f64,
    /// Lower end of the band.
    pub low: f64,
    /// Upper end of the band.
    pub high: f64,
}
