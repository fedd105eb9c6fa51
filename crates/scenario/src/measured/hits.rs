//! Where shots hit, one to a row: of a group, or with nocks turned.

use std::path::Path;

use study::workbench::TurnShot;
use target::Impact;
use units::Dimension::Length;

use super::column::{ARROW, Column, Columns, Holds, TURN, columns, need};
use super::known::KnownColumn;
use super::settle::{CORRECTION, Rule, settle};
use super::{Opened, Table, sheet::read};
use crate::Report;

const HIT: [&str; 2] = ["in", "cm"];

const fn left(far: f64) -> Column {
    need("left", &[], Holds::Amount(Length, -far, far, HIT)).against(&["right"])
}

const fn up(far: f64) -> Column {
    need("up", &["high"], Holds::Amount(Length, -far, far, HIT)).against(&["down", "low"])
}

// Chosen: beyond any group, so that a unit mixed up is noticed.
columns! { Impacts {
    Left left(10.0);
    Up up(10.0);
} }

/// Shots of an arrow with its nock turned so far.
pub(super) const RULE: Rule = Rule { keys: &[("arrow", ""), ("turn", "")], repeats: true };

// Chosen: no butt is farther across.
columns! { Turns {
    Arrow ARROW;
    Turn need("turn", &["nock turn", "nock"], TURN);
    Left left(5.0);
    Up up(5.0);
} and CORRECTION }

/// The columns of a table of a group, as [`impacts`] reads them.
pub fn impact_columns() -> Vec<KnownColumn> {
    Impacts::ALL.iter().map(KnownColumn::from).collect()
}

/// Reads where the shots of a group hit.
///
/// # Errors
/// Every mistake of the file.
pub fn impacts(path: &Path, bytes: Opened) -> Result<Table<Impact>, Report> {
    let one = |row: &super::sheet::Row<Impacts>| {
        Some(Impact { left: row.si(Impacts::Left)?, up: row.si(Impacts::Up)? })
    };
    // Two shots are the smallest group.
    read(path, bytes, 2, |_, rows| rows.iter().filter_map(one).collect())
}

/// Reads shots with nocks turned.
///
/// # Errors
/// Every mistake of the file.
pub fn turns(path: &Path, bytes: Opened) -> Result<Table<TurnShot>, Report> {
    let one = |row: &super::sheet::Row<Turns>| {
        Some(TurnShot {
            arrow: row.text(Turns::Arrow)?.to_owned(),
            turn: row.get(Turns::Turn)?,
            hit: [row.si(Turns::Left)?, row.si(Turns::Up)?],
        })
    };
    read(path, bytes, 1, |sheet, rows| {
        settle(sheet, rows, &RULE).rows.iter().filter_map(one).collect()
    })
}
