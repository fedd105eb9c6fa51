//! A table as the page and the terminal both show it.

use target::Estimate;
use units::{Role, Style};

use crate::show::{alike, numbers};

/// A column: what it holds and in which unit.
pub(crate) struct Column {
    /// Head.
    pub(crate) head: String,
    /// Unit of every number below; empty for words.
    pub(crate) unit: String,
}

/// A cell.
pub(crate) enum Cell {
    /// A number or words.
    Text(String),
    /// A value with its 95 % interval.
    Interval {
        /// The value.
        value: String,
        /// Lower end.
        low: String,
        /// Upper end.
        high: String,
    },
}

/// A table. The first column names the row.
pub(crate) struct Table {
    /// Columns.
    pub(crate) columns: Vec<Column>,
    /// Rows, each as long as `columns`.
    pub(crate) rows: Vec<Vec<Cell>>,
}

impl Column {
    /// A column of numbers in the unit of a role.
    pub(crate) fn of(head: impl Into<String>, role: Role, style: Style) -> Self {
        Self::new(head, role.symbol(style))
    }

    /// A column with a unit of its own.
    pub(crate) fn new(head: impl Into<String>, unit: impl Into<String>) -> Self {
        Self { head: head.into(), unit: unit.into() }
    }
}

impl Cell {
    /// Words.
    pub(crate) fn text(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// A number in the unit of a role, without the unit.
    pub(crate) fn number(role: Role, si: f64, style: Style) -> Self {
        Self::Text(role.number(si, style))
    }

    /// An estimate in the unit of a role, without the unit.
    pub(crate) fn estimate(role: Role, estimate: &Estimate, style: Style) -> Self {
        let [value, low, high] = numbers(role, estimate, style);
        Self::Interval { value, low, high }
    }

    /// A band in the unit of a role, without the unit.
    pub(crate) fn band(role: Role, band: (f64, f64), style: Style) -> Self {
        let [low, high] = alike(role, [band.0, band.1], style);
        Self::Text(format!("{low} to {high}"))
    }

    /// The cell on one line.
    pub(crate) fn line(&self) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Interval { value, low, high } => format!("{value} [{low}, {high}]"),
        }
    }
}

impl Table {
    /// The table as lines of at most `width` characters where that is
    /// possible. Columns that do not fit go into a further table below that
    /// repeats the first column.
    pub(crate) fn lines(&self, width: usize) -> String {
        let shaped: Vec<Shaped> = (0..self.columns.len()).map(|at| self.shape(at)).collect();
        let mut out = String::new();
        let mut next = 1;
        while next < shaped.len() {
            let mut used = vec![0];
            let mut wide = shaped[0].width;
            while next < shaped.len() && (used.len() == 1 || wide + 2 + shaped[next].width <= width)
            {
                wide += 2 + shaped[next].width;
                used.push(next);
                next += 1;
            }
            if !out.is_empty() {
                out.push('\n');
            }
            let part: Vec<&Shaped> = used.iter().map(|&at| &shaped[at]).collect();
            write_part(&mut out, &part);
        }
        out
    }

    fn shape(&self, at: usize) -> Shaped {
        let column = &self.columns[at];
        let cells: Vec<String> = self.rows.iter().map(|row| row[at].line()).collect();
        let data = cells.iter().map(|cell| cell.chars().count()).max().unwrap_or(0);
        let word = column.head.split(' ').map(|word| word.chars().count()).max().unwrap_or(0);
        let width = data.max(word).max(column.unit.chars().count());
        Shaped { width, head: wrap(&column.head, width), unit: column.unit.clone(), cells }
    }
}

/// A column ready to print.
struct Shaped {
    width: usize,
    head: Vec<String>,
    unit: String,
    cells: Vec<String>,
}

fn write_part(out: &mut String, part: &[&Shaped]) {
    let tall = part.iter().map(|column| column.head.len()).max().unwrap_or(0);
    let row = |out: &mut String, cell: &dyn Fn(&Shaped) -> String| {
        let cells: Vec<String> =
            part.iter().map(|c| format!("{:>width$}", cell(c), width = c.width)).collect();
        out.push_str(cells.join("  ").trim_end());
        out.push('\n');
    };
    for line in 0..tall {
        // Heads stand on what is below them, so short ones start lower.
        row(out, &|column| {
            (line + column.head.len())
                .checked_sub(tall)
                .map_or_else(String::new, |at| column.head[at].clone())
        });
    }
    if part.iter().any(|column| !column.unit.is_empty()) {
        row(out, &|column| column.unit.clone());
    }
    row(out, &|column| "-".repeat(column.width));
    for at in 0..part.first().map_or(0, |column| column.cells.len()) {
        row(out, &|column| column.cells[at].clone());
    }
}

/// Breaks a text at spaces into lines of at most `width` characters; a longer
/// word keeps a line of its own.
pub(crate) fn wrap(text: &str, width: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split(' ').filter(|word| !word.is_empty()) {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
