//! The heads of a table: which row they are, and what each says.

use std::borrow::Cow;

use units::{Bare, Dimension, Unit};

use super::column::Column;
use super::names::named;
use super::scan::Record;

/// Rows looked at for the heads. Chosen: a title, a date, a blank or two.
const ABOVE: usize = 10;
/// Fewest heads that are columns below a title. Chosen: one may be chance.
const FEWEST: usize = 2;

/// What bare numbers below a head are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum BareNumbers {
    /// It does not say.
    Unsaid,
    /// In this unit.
    In(&'static Unit),
    /// Hours of the clock.
    Hours,
}

impl BareNumbers {
    /// What a unit in a head says, if it is a unit.
    pub(super) fn of(dimension: Dimension, symbol: &str) -> Option<Self> {
        let hour =
            || units::read(dimension, &format!("3 {symbol}"), Bare::In(&dimension.units()[0]));
        match dimension.spelled(symbol) {
            Some(unit) => Some(Self::In(unit)),
            None => (dimension == Dimension::Angle && hour().is_ok()).then_some(Self::Hours),
        }
    }
}

/// A head of the file, and the kind's column that it names; a head without one
/// is of the user's own, unless it has a mistake.
#[derive(Debug, Clone)]
pub(super) struct Head {
    pub(super) text: String,
    pub(super) column: Option<usize>,
    pub(super) bare: BareNumbers,
    pub(super) against: bool,
    /// Whether it has a mistake: its cells are not read.
    pub(super) wrong: bool,
    /// Whether something stands below it.
    pub(super) filled: bool,
}

impl Head {
    /// The unit of bare numbers below it.
    pub(super) fn unit(&self) -> Option<&'static Unit> {
        if let BareNumbers::In(unit) = self.bare { Some(unit) } else { None }
    }

    /// A cell below it: bare hours with their word.
    pub(super) fn hours<'t>(&self, cell: &'t str) -> Cow<'t, str> {
        let bare = cell.bytes().all(|c| c.is_ascii_digit() || b":.".contains(&c));
        if self.bare == BareNumbers::Hours && bare && !cell.is_empty() {
            Cow::Owned(format!("{cell} o'clock"))
        } else {
            Cow::Borrowed(cell)
        }
    }
}

/// How many heads of a row are columns, and how many cells there are.
pub(super) fn known(columns: &[Column], row: &Record) -> (usize, usize) {
    let is = |text: &str| named(columns, text).0.is_some();
    (row.cells.iter().filter(|cell| is(&cell.text)).count(), row.cells.len())
}

/// Which row holds the heads: the first, unless none of it is a column and most of a
/// later one is.
pub(super) fn heads(columns: &[Column], rows: &[Record]) -> usize {
    let count = |row: &Record| known(columns, row).0;
    if rows.first().is_none_or(|row| count(row) > 0) {
        return 0;
    }
    let filled = |row: &Record| row.cells.iter().filter(|cell| !cell.text.is_empty()).count();
    let most = |row: &Record| count(row) >= FEWEST && 2 * count(row) >= filled(row);
    rows.iter().take(ABOVE).position(most).unwrap_or(0)
}
