//! What was seen of shots and sight, one distance and one reading to a row.

use std::path::Path;

use study::{Observed, What};
use units::Dimension::{Length, Speed};
use units::Length as L;

use super::column::{Columns, Holds, PART, columns, may, need};
use super::known::KnownColumn;
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table, TableMistake as Mistake};
use crate::Report;

const FAR: [&str; 2] = ["yd", "m"];
const FAST: [&str; 2] = ["ft/s", "m/s"];
const HIT: [&str; 2] = ["in", "cm"];

const fn span(low: f64, high: f64, units: [&'static str; 2]) -> Holds {
    Holds::Amount(Length, low, high, units)
}

// Ranges are chosen: wider than anything shot with a bow.
columns! { Shots {
    Distance need("distance", &[], span(0.0, 200.0, FAR));
    Pin may("pin", &[], span(1.0, 200.0, FAR));
    Speed may("speed", &[], Holds::Amount(Speed, 10.0, 200.0, FAST));
    SpeedError may("speed error", &[], Holds::Amount(Speed, 0.001, 20.0, FAST));
    Mark may("mark", &[], span(-1.0, 1.0, PART));
    MarkError may("mark error", &[], span(1e-6, 0.1, PART));
    Gap may("gap", &[], span(1e-4, 1.0, PART));
    GapError may("gap error", &[], span(1e-6, 0.1, PART));
    Up may("up", &["high"], span(-10.0, 10.0, HIT)).against(&["down", "low"]);
    UpError may("up error", &[], span(1e-4, 5.0, HIT));
} }

/// What makes a row a shot.
#[derive(Clone, Copy, PartialEq)]
enum Lead {
    Speed,
    Mark,
    Gap,
    Up,
}

/// Its column, that of its standard error, and what it is called.
const LEADS: [(Lead, Shots, Shots, &str); 4] = [
    (Lead::Speed, Shots::Speed, Shots::SpeedError, "a speed"),
    (Lead::Mark, Shots::Mark, Shots::MarkError, "a mark"),
    (Lead::Gap, Shots::Gap, Shots::GapError, "a gap"),
    (Lead::Up, Shots::Up, Shots::UpError, "a height"),
];

/// The columns of such a table, as [`shots`] reads them.
pub fn shot_columns() -> Vec<KnownColumn> {
    Shots::ALL.iter().map(KnownColumn::from).collect()
}

/// Reads what was seen of shots and sight. Every row is one shot: a distance and one reading, its other cells
/// blank.
///
/// # Errors
/// Every mistake of the file.
pub fn shots(path: &Path, bytes: Opened) -> Result<Table<Observed>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        if !sheet.has_one_of(&LEADS.map(|(_, column, ..)| column)) {
            return Vec::new();
        }
        rows.iter().filter_map(|row| shot(sheet, row)).collect()
    })
}

fn shot(sheet: &mut Sheet, row: &Row<Shots>) -> Option<Observed> {
    let given: Vec<_> = LEADS.into_iter().filter(|lead| !row.blank(lead.1)).collect();
    let &[(lead, column, error, reading)] = given.as_slice() else {
        let names =
            |leads: &[(Lead, Shots, _, _)]| leads.iter().map(|lead| lead.1.column().name).collect();
        sheet.tell_row(row, Mistake::OneOf(names(&given), names(&LEADS)));
        return None;
    };
    let pinned = matches!(lead, Lead::Gap | Lead::Up);
    if pinned {
        sheet.need(row, Shots::Pin, reading);
    }
    let strange = LEADS.into_iter().map(|lead| lead.2).filter(|other| *other != error);
    for column in strange.chain((!pinned).then_some(Shots::Pin)) {
        if !row.blank(column) {
            sheet.tell_cell(row, column, Mistake::Idle(reading));
        }
    }
    let distance: L = row.get(Shots::Distance)?;
    if distance == L::ZERO && lead != Lead::Speed {
        sheet.tell_cell(row, Shots::Distance, Mistake::AtBow(reading));
    }
    let what = match lead {
        Lead::Speed => What::Speed(row.get(column)?),
        Lead::Mark => What::Mark(row.get(column)?),
        Lead::Gap => What::Gap { pin: row.get(Shots::Pin)?, gap: row.get(column)? },
        Lead::Up => What::Impact { pin: row.get(Shots::Pin)?, up: row.get(column)? },
    };
    Some(Observed { line: row.line, distance, what, error: row.si(error) })
}
