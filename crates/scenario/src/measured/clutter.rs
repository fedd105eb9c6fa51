//! Rows of a spreadsheet that hold no reading: units below the heads, the heads once
//! more, totals and averages.

use super::column::Holds;
use super::head::{BareNumbers, Head};
use super::scan::Record;
use super::sheet::Sheet;

/// What a row of sums or means is called in its first cell.
pub const SUMS: [&str; 22] = [
    "average", "averages", "avg", "avg.", "mean", "means", "median", "total", "totals", "sum",
    "sums", "count", "min", "minimum", "max", "maximum", "range", "spread", "sd", "std", "st dev",
    "stdev",
];

impl Sheet {
    /// Takes a row just below the heads as their units, where each of its cells is a unit
    /// that its column can have.
    pub(super) fn takes_units(&mut self, row: &Record) -> bool {
        let unit = |(head, text): (&Head, &str)| {
            let column = self.columns[head.column?];
            let Holds::Amount(dimension, ..) = column.holds else { return None };
            BareNumbers::of(dimension, text)
        };
        let cells = || row.cells.iter().map(|cell| cell.text.as_ref()).enumerate();
        let filled = cells().filter(|(_, text)| !text.is_empty());
        let found: Vec<_> = filled
            .map(|(at, text)| Some((at, unit((self.heads.get(at)?, text))?)))
            .collect::<Option<_>>()
            .unwrap_or_default();
        for (at, bare) in &found {
            let head = &mut self.heads[*at];
            // What the head says itself goes first.
            if head.bare == BareNumbers::Unsaid {
                head.bare = *bare;
            }
        }
        !found.is_empty()
    }

    /// Why a row holds no reading, if it holds none.
    pub(super) fn idle(&self, row: &Record) -> Option<String> {
        let head = |at: usize| self.heads.get(at).map_or("", |head| head.text.as_str());
        let mut cells = row.cells.iter().enumerate();
        if cells.all(|(at, cell)| cell.text.eq_ignore_ascii_case(head(at))) {
            return Some("the heads again".to_owned());
        }
        let first = row.cells.iter().find(|cell| !cell.text.is_empty())?;
        let word = first.text.trim_end_matches(':').to_lowercase();
        SUMS.contains(&word.as_str()).then(|| first.text.to_string())
    }
}
