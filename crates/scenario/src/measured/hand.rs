//! In whose hand a table is written: line ends and decimal marks that a new row follows.

use super::column::Holds;
use super::formula::guarded;
use super::sheet::{Row, Sheet};

/// How rows are written.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hand {
    /// What parts the cells.
    mark: char,
    /// What ends a row.
    pub(super) end: &'static str,
    /// Whether numbers have a decimal comma.
    comma: bool,
}

impl Hand {
    /// That of a table and its rows. A decimal comma needs another mark between the cells.
    pub(super) fn of<C>(sheet: &Sheet, rows: &[Row<C>], text: &[u8]) -> Self {
        let end = if text.windows(2).any(|two| two == b"\r\n") { "\r\n" } else { "\n" };
        let amounts = |at: &usize| matches!(sheet.columns[*at].holds, Holds::Amount(..));
        let amounts: Vec<usize> = (0..sheet.columns.len()).filter(amounts).collect();
        let has = |mark: char| {
            let cells =
                |row: &Row<C>| amounts.iter().any(|at| sheet.written(row, *at).contains(mark));
            rows.iter().any(cells)
        };
        let comma = sheet.separator != ',' && has(',') && !has('.');
        Self { mark: sheet.separator, end, comma }
    }

    /// A number, which has a decimal point, in this hand.
    pub(super) fn number(self, number: String) -> String {
        if self.comma { number.replace('.', ",") } else { number }
    }

    /// A row of cells.
    pub(super) fn row(self, cells: &[Option<String>]) -> String {
        let cells: Vec<String> =
            cells.iter().map(|cell| self.cell(cell.as_deref().unwrap_or(""))).collect();
        cells.join(&self.mark.to_string()) + self.end
    }

    fn cell(self, cell: &str) -> String {
        let cell = guarded(cell);
        // A leading hash would make the row a remark.
        if cell.contains([self.mark, '"', '\n', '\r']) || cell.starts_with('#') {
            format!("\"{}\"", cell.replace('"', "\"\""))
        } else {
            cell
        }
    }

    /// One more head.
    pub(super) fn head(self, name: &str) -> String {
        format!("{}{name}", self.mark)
    }
}
