//! What a new row does to what stands in its table, for whoever reads it back.

use units::Dimension;

use super::column::{CORRECTION, Column, Holds, Value};
use super::settle::{Corrects, Rule, Settled, corrects};
use super::sheet::{Row, Sheet};
use crate::text::neat;

/// A table with one more row, and what that changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Noted {
    /// The whole text.
    pub text: Vec<u8>,
    /// Of what the row is: columns and cells.
    pub of: Vec<(&'static str, String)>,
    /// What it changed.
    pub said: Vec<Said>,
    /// Whether it is the first of its kind.
    pub new: bool,
    /// Whether it takes something back.
    pub void: bool,
    /// Entries noted earlier that are odd.
    pub doubts: Vec<Doubt>,
}

/// A column that a row changed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Said {
    /// Its name.
    pub column: &'static str,
    /// What stood there, as it was understood and as it is written; none where nothing did.
    pub was: Option<(String, String)>,
    /// What stands there now, as it was understood; none where nothing does.
    pub now: Option<String>,
}

/// An entry noted earlier that is asked about.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Doubt {
    /// Of what it is: columns and cells.
    pub of: Vec<(&'static str, String)>,
    /// Its column.
    pub column: &'static str,
    /// What it says.
    pub said: String,
    /// What is odd about it.
    pub why: String,
}

/// The columns and cells that say of what a row is.
pub(super) fn of<C>(sheet: &Sheet, row: &Row<C>, rule: &Rule) -> Vec<(&'static str, String)> {
    let keys = rule.places(sheet.columns).into_iter().zip(rule.keys);
    let one = |(at, (_, usual)): (usize, &(&'static str, &'static str))| {
        let said = spoken(sheet, row, at).unwrap_or_else(|| (*usual).to_owned());
        (sheet.columns[at].name, said)
    };
    keys.map(one).filter(|(_, said)| !said.is_empty()).collect()
}

/// A table, and what stands of its rows.
pub(super) type Stood<'a, C> = (&'a Sheet, &'a Settled<C>);

/// What the row at the end of a table changed: of what it is, what, and whether it is the
/// first of that and whether it takes back.
pub(super) fn changed<C>(
    before: Stood<C>,
    after: Stood<C>,
    row: &Row<C>,
    rule: &Rule,
) -> (Vec<Said>, bool, bool) {
    let columns = after.0.columns;
    let key = rule.key(columns, row);
    let does = corrects(columns, row);
    let latest =
        |(_, settled): Stood<C>| settled.rows.iter().rposition(|one| rule.key(columns, one) == key);
    // Another reading of the same is one of its own.
    let old = latest(before).filter(|_| does.is_some() || !rule.repeats);
    let new = latest(after)
        .filter(|_| does != Some(Corrects::Void) || !rule.repeats || old == latest(after));
    let places = rule.places(columns);
    let said = (0..columns.len()).filter(|at| !places.contains(at)).filter_map(|at| {
        if columns[at].name == CORRECTION {
            return None;
        }
        let cell = |(sheet, settled): Stood<C>, found: Option<usize>| {
            let row = &settled.rows[found?];
            Some((spoken(sheet, row, at)?, sheet.written(row, at)))
        };
        let (was, now) = (cell(before, old), cell(after, new).map(|(said, _)| said));
        let same = was.as_ref().map(|(said, _)| said) == now.as_ref();
        (!same).then_some(Said { column: columns[at].name, was, now })
    });
    (said.collect(), old.is_none(), does == Some(Corrects::Void))
}

/// A cell as it was understood, in the trade's words; none where it is blank.
pub(super) fn spoken<C>(sheet: &Sheet, row: &Row<C>, at: usize) -> Option<String> {
    let column = &sheet.columns[at];
    let written = sheet.written(row, at);
    match &row.cells[at].0 {
        Value::Blank => None,
        Value::Number(si) => Some(number(sheet, column, at, *si, written)),
        Value::Text(text) => Some(text.clone()),
        _ => Some(written),
    }
}

fn number(sheet: &Sheet, column: &Column, at: usize, si: f64, written: String) -> String {
    /// Below this a length in inches is told in thousandths, m. Chosen: a sixteenth of an
    /// inch and less is nothing to cut by.
    const SMALL: f64 = 0.0015;
    let unit = sheet.head_of(at).and_then(|head| sheet.heads[head].unit());
    let Holds::Amount(dimension, ..) = column.holds else { return written };
    let thou = Dimension::Length.unit("thou").filter(|_| dimension == Dimension::Length);
    let inches = unit.is_none_or(|unit| unit.symbol == "in");
    if let Some(thou) = thou.filter(|_| inches) {
        if column.spine {
            return neat(thou.of_si(si));
        }
        if si.abs() < SMALL && si != 0.0 {
            return format!("{} thou", neat(thou.of_si(si)));
        }
    }
    let bare = written.ends_with(|c: char| c.is_ascii_digit() || c == '.');
    match unit {
        Some(unit) if bare => format!("{written} {}", unit.symbol),
        _ if bare && dimension == Dimension::Angle => format!("{written} o'clock"),
        _ => written,
    }
}
