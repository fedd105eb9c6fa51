use crate::Dimension;

/// Why a text is not a quantity of the wanted dimension.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum UnitError {
    /// No number at the start of the text.
    #[error("\"{text}\" does not start with a number")]
    NoNumber {
        /// The text as given.
        text: String,
    },
    /// The number is infinite or not a number.
    #[error("\"{text}\" is not a finite number")]
    NotFinite {
        /// The text as given.
        text: String,
    },
    /// A number stands alone where a unit is required.
    #[error("\"{text}\" has no unit; write {like}")]
    NoUnit {
        /// The text as given.
        text: String,
        /// The dimension that was wanted.
        dimension: Dimension,
        /// The same number in the units its users would mean.
        like: String,
    },
    /// The text can mean several things, and none is taken for granted.
    #[error("\"{text}\" is not clear: {ways}")]
    Unclear {
        /// The text as given.
        text: String,
        /// What it may mean, and how each is written.
        ways: String,
    },
    /// The unit is not one of this dimension.
    #[error("\"{unit}\" is not a unit of {dimension}; use one of {allowed}")]
    UnknownUnit {
        /// The unit as given.
        unit: String,
        /// The dimension that was wanted.
        dimension: Dimension,
        /// The units that are understood, comma separated.
        allowed: String,
    },
}
