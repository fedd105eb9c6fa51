//! Columns as they are told to whoever writes a table or matches somebody else's.

use units::Dimension;

use super::column::{Column, Holds};

/// A column that a reader knows.
#[derive(Debug, Clone, Copy)]
pub struct KnownColumn {
    /// What it is called in a new table.
    pub name: &'static str,
    /// What else it may be called.
    pub also: &'static [&'static str],
    /// Names under which it counts the other way.
    pub against: &'static [&'static str],
    /// What its cells hold.
    pub cells: KnownCells,
    /// Whether every row needs it.
    pub needed: bool,
}

/// What the cells of a column hold.
#[derive(Debug, Clone, Copy)]
pub enum KnownCells {
    /// A quantity.
    Amount {
        /// What is measured.
        dimension: Dimension,
        /// The least there is, SI.
        low: f64,
        /// Units of a new table: archery, metric.
        usual: [&'static str; 2],
        /// Whether the trade says it without a unit.
        unsaid: bool,
    },
    /// A whole number.
    Whole,
    /// Any text.
    Text,
    /// One of these words.
    Words(&'static [&'static str]),
}

impl From<&Column> for KnownColumn {
    fn from(column: &Column) -> Self {
        let cells = match column.holds {
            Holds::Amount(dimension, low, _, usual) => {
                KnownCells::Amount { dimension, low, usual, unsaid: column.spine }
            }
            Holds::Whole(_) => KnownCells::Whole,
            Holds::Text => KnownCells::Text,
            Holds::Word(words) => KnownCells::Words(words),
        };
        let Column { name, also, against, needed, .. } = *column;
        Self { name, also, against, cells, needed }
    }
}
