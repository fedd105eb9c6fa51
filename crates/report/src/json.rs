//! SI symbols.

use units::Dimension;

/// The SI symbol of a dimension, "1" for a pure number.
pub(crate) fn si(dimension: Dimension) -> &'static str {
    match dimension.units()[0].symbol {
        "" => "1",
        symbol => symbol,
    }
}
