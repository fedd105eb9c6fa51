//! What is known of a cell beside its number.

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
    /// The word stands in this share of what is not known.
    Stands(f64),
}
