//! A number with what is not known of it.

/// A number with the two ends between which it lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Banded {
    /// The number.
    pub value: f64,
    /// Lower end of the band.
    pub low: f64,
    /// Upper end of the band.
    pub high: f64,
}

impl Banded {
    /// A number without a band.
    pub(crate) fn sure(value: f64) -> Self {
        Self { value, low: value, high: value }
    }
}
