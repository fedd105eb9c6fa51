//! Rows that add to one another, correct or take back: what stands.

use std::collections::HashMap;

use super::TableMistake as Mistake;
use super::column::{CORRECTION as NAME, Column, Holds, Value, may, words};
use super::sheet::{Row, Sheet};

/// What a row does to the one before of its key.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Corrects {
    /// What it says holds in place of that.
    Over,
    /// The same, and it was looked at twice: it is not asked about.
    Sure,
    /// What it names does not hold; all of it where it names nothing.
    Void,
}

const CORRECTS: [(&str, Corrects); 3] =
    [("yes", Corrects::Over), ("sure", Corrects::Sure), ("void", Corrects::Void)];
const REMARK: &str = "note";

pub(super) const CORRECTION: Column = may(NAME, &["corrects"], Holds::Word(&words(&CORRECTS)));

/// Which rows are of one thing.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rule {
    /// The columns that say of what a row is, each with what a blank in it means.
    pub(super) keys: &'static [(&'static str, &'static str)],
    /// Whether rows of one thing are so many readings of it; else they are one.
    pub(super) repeats: bool,
}

/// What stands of some rows.
#[derive(Debug)]
pub(super) struct Settled<C> {
    /// The rows, what corrects them put in place.
    pub(super) rows: Vec<Row<C>>,
    /// What they are of, in the order of the file, and how many entries of each a later
    /// row corrected or took back.
    pub(super) names: Vec<(String, usize)>,
}

impl Rule {
    /// The columns of the key.
    pub(super) fn places(&self, columns: &[Column]) -> Vec<usize> {
        let place = |name: &str| columns.iter().position(|column| column.name == name);
        self.keys.iter().filter_map(|(name, _)| place(name)).collect()
    }

    /// Of what a row is; none where that is wrong or blank, which is told elsewhere.
    pub(super) fn key<C>(&self, columns: &[Column], row: &Row<C>) -> Option<Vec<String>> {
        let of = |(at, (_, usual)): (usize, &(&str, &str))| match &row.cells[at].0 {
            Value::Blank if columns[at].needed => None,
            Value::Blank => Some((*usual).to_owned()),
            // A nanometre, and less than a gauge or a jig tells of an angle.
            Value::Number(si) => Some(format!("{si:.9}")),
            Value::Whole(whole) => Some(whole.to_string()),
            Value::Text(text) => Some(text.clone()),
            Value::Word(word) => Some((*word).to_owned()),
            Value::Wrong => None,
        };
        self.places(columns).into_iter().zip(self.keys).map(of).collect()
    }
}

/// What a row does to those before it.
pub(super) fn corrects<C>(columns: &[Column], row: &Row<C>) -> Option<Corrects> {
    let at = columns.iter().position(|column| column.name == NAME)?;
    let Value::Word(said) = row.cells[at].0 else { return None };
    CORRECTS.iter().find(|(word, _)| *word == said).map(|(_, meaning)| *meaning)
}

/// What stands of some rows. A row of what has one adds what that left blank, or corrects
/// it, or takes it back; the old row stays in the file.
pub(super) fn settle<C: Clone>(sheet: &mut Sheet, rows: &[Row<C>], rule: &Rule) -> Settled<C> {
    let columns = sheet.columns;
    let places = rule.places(columns);
    // The key that is a name of the user's.
    let called = places.iter().copied().find(|at| matches!(columns[*at].holds, Holds::Text));
    // What is wrong is told where it stands, and says nothing.
    let says = |row: &Row<C>, at: usize| !matches!(row.cells[at].0, Value::Blank | Value::Wrong);
    let own = |at: &usize| !places.contains(at) && columns[*at].name != NAME;
    let own: Vec<usize> = (0..columns.len()).filter(own).collect();
    let mut found: Vec<Option<Row<C>>> = Vec::new();
    let mut latest: HashMap<Vec<String>, usize> = HashMap::new();
    let mut names: Vec<(String, usize)> = Vec::new();
    let mut known: HashMap<String, usize> = HashMap::new();
    for row in rows {
        let mut row = row.clone();
        let Some(key) = rule.key(columns, &row) else {
            if corrects(columns, &row).is_some() && sheet.problems.is_empty() {
                nothing(sheet, &row);
            }
            found.push(Some(row));
            continue;
        };
        let name = called.map_or_else(String::new, |at| match &row.cells[at].0 {
            Value::Text(text) => text.clone(),
            _ => String::new(),
        });
        let of = *known.entry(name.clone()).or_insert_with(|| {
            names.push((name.clone(), 0));
            names.len() - 1
        });
        let corrects = corrects(columns, &row);
        let named: Vec<usize> = own.iter().copied().filter(|at| says(&row, *at)).collect();
        let read: Vec<usize> =
            named.iter().copied().filter(|at| columns[*at].name != REMARK).collect();
        let old = latest.get(&key).copied();
        let old = old.and_then(|at| Some((at, found[at].as_mut()?)));
        match (old, corrects) {
            (None, Some(Corrects::Void)) => nothing(sheet, &row),
            (None, sure) => {
                row.sure = vec![sure == Some(Corrects::Sure); columns.len()];
                latest.insert(key, found.len());
                found.push(Some(row));
            }
            (Some(_), None) if rule.repeats => {
                latest.insert(key, found.len());
                found.push(Some(row));
            }
            (Some((at, old)), Some(Corrects::Void)) => {
                let gone = if read.is_empty() { own.clone() } else { read.clone() };
                // What is named is what stands, or another is meant.
                if read.iter().any(|at| !alike(&old.cells[*at].0, &row.cells[*at].0)) {
                    nothing(sheet, &row);
                    continue;
                }
                if !gone.iter().any(|at| says(old, *at)) && gone.len() < own.len() {
                    nothing(sheet, &row);
                    continue;
                }
                for at in &gone {
                    old.cells[*at].0 = Value::Blank;
                    old.sure[*at] = false;
                }
                if !own.iter().any(|at| says(old, *at)) {
                    found[at] = None;
                    latest.remove(&key);
                }
                names[of].1 += 1;
            }
            (Some((_, old)), None) => {
                if read.iter().any(|at| says(old, *at)) {
                    let (at, line) = (called.unwrap_or_default(), old.line);
                    sheet.tell_at(&row, at, Mistake::NameTwice(name, line, true));
                }
                let mut row = row;
                remarked(columns, old, &mut row);
                old.take(&row, &named, false);
            }
            (Some((_, old)), Some(how)) => {
                let sure = how == Corrects::Sure;
                if named.is_empty() && sure {
                    old.sure.fill(true);
                }
                old.take(&row, &named, sure);
                names[of].1 += 1;
            }
        }
    }
    Settled { rows: found.into_iter().flatten().collect(), names }
}

/// A remark is put behind the one that stands, unless it is that.
fn remarked<C>(columns: &[Column], old: &Row<C>, row: &mut Row<C>) {
    let Some(at) = columns.iter().position(|column| column.name == REMARK) else { return };
    if let (Value::Text(stands), Value::Text(more)) = (&old.cells[at].0, &row.cells[at].0) {
        let there = stands.split("; ").any(|one| one == more);
        let whole = if there { stands.clone() } else { format!("{stands}; {more}") };
        row.cells[at].0 = Value::Text(whole);
    }
}

/// Whether two cells say the same; a number may have been written in another unit.
fn alike(one: &Value, other: &Value) -> bool {
    match (one, other) {
        (Value::Number(one), Value::Number(other)) => (one - other).abs() <= 1e-9 * one.abs(),
        (one, other) => one == other,
    }
}

/// Tells of a row that takes back what is not there.
fn nothing<C>(sheet: &mut Sheet, row: &Row<C>) {
    let at = sheet.columns.iter().position(|column| column.name == NAME);
    sheet.tell_at(row, at.unwrap_or_default(), Mistake::NothingVoid);
}

impl<C> Row<C> {
    /// Takes cells of a later row of the same.
    fn take(&mut self, later: &Self, named: &[usize], sure: bool) {
        for at in named {
            self.cells[*at] = later.cells[*at].clone();
            self.sure[*at] = sure;
        }
        for cell in &later.own {
            self.own.retain(|(head, ..)| *head != cell.0);
            self.own.push(cell.clone());
        }
    }
}
