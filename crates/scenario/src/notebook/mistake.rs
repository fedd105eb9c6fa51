use std::fmt;

use units::{Dimension, UnitError};

/// What is wrong with a cell, a line or a whole notebook.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum NotebookMistake {
    /// The file is not UTF-8 text.
    #[error("this is not UTF-8 text; save the sheet as CSV in UTF-8")]
    NotUtf8,
    /// There is no head.
    #[error("there is no line with the names of the columns; they may be: {allowed}")]
    NoHead {
        /// The columns of this kind of notebook.
        allowed: String,
    },
    /// There are no rows.
    #[error("there is nothing below the names of the columns")]
    NoRows,
    /// A column that this kind of notebook does not have.
    #[error("this column is not known{}; it may be one of: {allowed}", meant(near.as_deref()))]
    UnknownColumn {
        /// The nearest name.
        near: Option<String>,
        /// The columns of this kind of notebook.
        allowed: String,
    },
    /// A column that stands twice.
    #[error("this column stands twice; the first is column {first}")]
    ColumnTwice {
        /// Letter of the first.
        first: String,
    },
    /// A column that must be there.
    #[error("the column \"{name}\" is missing")]
    MissingColumn {
        /// Its name.
        name: String,
    },
    /// A unit that does not fit.
    #[error("\"{unit}\" is not a unit of {dimension}; use one of {allowed}")]
    Unit {
        /// The unit as written.
        unit: String,
        /// What is measured.
        dimension: Dimension,
        /// The units understood.
        allowed: String,
    },
    /// A bare number in a column without a unit.
    #[error(
        "{value} has no unit; write it in the head, like \"{name} [{unit}]\", or in the cell, \
         like \"{value} {unit}\""
    )]
    NoUnit {
        /// The cell.
        value: String,
        /// The column's name.
        name: String,
        /// A unit that fits.
        unit: &'static str,
    },
    /// Not a number.
    #[error("\"{value}\" is not a number")]
    NotANumber {
        /// The cell.
        value: String,
    },
    /// A number with a comma and a point.
    #[error("\"{value}\" has both a comma and a point, or several; write one decimal mark")]
    TwoMarks {
        /// The cell.
        value: String,
    },
    /// A quantity that is not understood.
    #[error("{0}")]
    Quantity(#[from] UnitError),
    /// A value outside its range.
    #[error("{value} is out of range; it must lie between {low} and {high}")]
    OutOfRange {
        /// The cell, with its unit.
        value: String,
        /// Least allowed, in the same unit.
        low: String,
        /// Most allowed.
        high: String,
    },
    /// A word that is not one of the choices.
    #[error("\"{value}\" is not one of: {allowed}")]
    UnknownWord {
        /// The cell.
        value: String,
        /// The choices.
        allowed: String,
    },
    /// A blank cell that is needed here.
    #[error("this cell is blank; {why}")]
    Blank {
        /// Why it is needed.
        why: String,
    },
    /// A cell beyond the last column.
    #[error("\"{value}\" stands beyond the last column")]
    Beyond {
        /// The cell.
        value: String,
    },
    /// Two rows that contradict each other.
    #[error("{what} is {value} here, but {before} in line {line}")]
    Differs {
        /// What.
        what: &'static str,
        /// Here.
        value: String,
        /// There.
        before: String,
        /// Where.
        line: usize,
    },
    /// The same arrow in two rows.
    #[error("\"{name}\" stands in line {line} already")]
    NameTwice {
        /// Its name.
        name: String,
        /// Line of the first.
        line: usize,
    },
    /// A row that says neither of two things, or both.
    #[error("give {one} or {other}, one of them")]
    OneOf {
        /// The one.
        one: &'static str,
        /// The other.
        other: &'static str,
    },
}

fn meant(near: Option<&str>) -> String {
    near.map_or_else(String::new, |near| format!("; did you mean \"{near}\"?"))
}

/// A mistake and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub struct Mistake {
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1, and its head (0 for one that the file lacks); none for a
    /// whole line or file.
    pub column: Option<(usize, String)>,
    /// What is wrong.
    pub what: NotebookMistake,
}

/// Every mistake of a notebook.
#[derive(Debug, Clone, PartialEq)]
pub struct NotebookReport {
    /// Name of the file.
    pub file: String,
    /// The mistakes, by line and column.
    pub mistakes: Vec<Mistake>,
}

/// A column's letter, as spreadsheets show it; `at` counts from 1.
pub(crate) fn letter(at: usize) -> String {
    let mut at = at;
    let mut text = String::new();
    while at > 0 {
        let digit = u8::try_from((at - 1) % 26).unwrap_or(0);
        text.insert(0, char::from(b'A' + digit));
        at = (at - 1) / 26;
    }
    text
}

impl fmt::Display for NotebookReport {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let count = self.mistakes.len();
        let many = if count == 1 { "one mistake".to_owned() } else { format!("{count} mistakes") };
        write!(f, "{} has {many}", self.file)?;
        for Mistake { line, column, what } in &self.mistakes {
            write!(f, "\n  line {line}")?;
            match column {
                Some((0, head)) => write!(f, ", {head}")?,
                Some((at, head)) => write!(f, ", column {} ({head})", letter(*at))?,
                None => {}
            }
            write!(f, ": {what}")?;
        }
        Ok(())
    }
}

impl std::error::Error for NotebookReport {}
