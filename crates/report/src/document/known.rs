//! What is known of a cell beside its number.

use study::Band;

/// What is known of a cell beside its number.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum Known {
    /// It was not asked.
    #[default]
    Unasked,
    /// It does not depend on anything that is poorly known.
    Certain,
    /// Nine tenths of what is not known leave it between these, SI; endless
    /// where it may be more than was looked for.
    Band(f64, f64),
    /// The same, and the number itself lies outside: it is that of the usual
    /// values, which give together what hardly any draw gives.
    Usual(f64, f64),
    /// The word stands in this share of what is not known.
    Stands(f64),
}

impl Known {
    /// What a band says of a number: whether it holds it is told with it.
    pub(crate) fn of(value: f64, band: Band) -> Self {
        let Band { low, high } = band;
        if band.holds(value) { Self::Band(low, high) } else { Self::Usual(low, high) }
    }

    /// The two ends, where there is a band.
    pub(crate) fn ends(self) -> Option<(f64, f64)> {
        match self {
            Self::Band(low, high) | Self::Usual(low, high) => Some((low, high)),
            _ => None,
        }
    }
}
