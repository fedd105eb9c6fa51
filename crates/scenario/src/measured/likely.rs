//! What hardly any arrow has: not refused, but asked about. A slipped decimal point or
//! another unit lands here; what is so is noted as sure.

use super::TableMistake as Mistake;
use super::column::{Columns, Holds, Value};
use super::ends::{meant, round_ends};
use super::sheet::{Row, Sheet};

/// One grain and one inch in SI, exact.
const GRAIN: f64 = 6.479_891e-5;
const INCH: f64 = 0.0254;

// Chosen, wider than what the trade sells or builds (common practice, no source); a slip
// by ten or a unit mixed up mostly lies beyond.

/// Of a bare shaft: a youth's cut short, a heavy one of metal as sold.
pub(super) const SHAFT_MASS: (f64, f64) = (60.0 * GRAIN, 1000.0 * GRAIN);
/// Of an arrow: a youth's, one that is shot at fish.
pub(super) const ARROW_MASS: (f64, f64) = (120.0 * GRAIN, 2000.0 * GRAIN);
/// Of a point, an insert and a nock.
pub(super) const POINT_MASS: (f64, f64) = (20.0 * GRAIN, 600.0 * GRAIN);
pub(super) const INSERT_MASS: (f64, f64) = (3.0 * GRAIN, 250.0 * GRAIN);
pub(super) const NOCK_MASS: (f64, f64) = (2.0 * GRAIN, 60.0 * GRAIN);
/// From spines of 150 to those of a child's bow.
pub(super) const SPINE: (f64, f64) = (0.1 * INCH, 2.5 * INCH);
/// Of a shaft or an arrow, and where it balances.
pub(super) const ARROW_LENGTH: (f64, f64) = (14.0 * INCH, 40.0 * INCH);
pub(super) const BALANCE: (f64, f64) = (5.0 * INCH, 35.0 * INCH);
/// Of what turns true: a shaft is sold within six thousandths and sorted out far below
/// this.
pub(super) const RUN_OUT: (f64, f64) = (0.0, 0.02 * INCH);

/// Asks about a cell, unless it is noted as sure.
pub(super) fn asked<C: Columns>(sheet: &mut Sheet, row: &Row<C>, column: C, mistake: Mistake) {
    if !row.sure[column.at()] {
        sheet.tell_cell(row, column, mistake);
    }
}

/// Asks about a value beyond two ends.
pub(super) fn unlikely<C: Columns>(sheet: &mut Sheet, row: &Row<C>, column: C, ends: (f64, f64)) {
    if !row.sure[column.at()] {
        beyond(sheet, row, column.at(), ends);
    }
}

/// Whether a value lies between two ends; rounding of a unit must not ask about an end.
pub(super) fn within(si: f64, (low, high): (f64, f64)) -> bool {
    si >= low * (1.0 - 1e-9) && si <= high * (1.0 + 1e-9)
}

/// Asks about every value of a row beyond the ends of its column, and about readings that
/// no sound part gives; of those a strict reader takes none for sure. Some columns are
/// skipped.
pub(super) fn likely<C>(sheet: &mut Sheet, row: &Row<C>, strict: bool, skip: &[usize]) {
    let columns = sheet.columns;
    for (at, column) in columns.iter().enumerate() {
        let Value::Number(si) = row.cells[at].0 else { continue };
        let sure = row.sure[at];
        match column.gauged.map(|of| of.sound(si)) {
            Some(Err(why)) if strict || !sure => {
                sheet.tell_at(row, at, Mistake::Unsound(why.to_string()));
            }
            Some(Err(_)) => {}
            _ => {
                if let Some(ends) = column.likely.filter(|_| !sure && !skip.contains(&at)) {
                    beyond(sheet, row, at, ends);
                }
            }
        }
    }
}

fn beyond<C>(sheet: &mut Sheet, row: &Row<C>, at: usize, (low, high): (f64, f64)) {
    // What is asked about already is asked about once.
    if sheet.problems.iter().any(|told| told.place == Some(row.cells[at].1)) {
        return;
    }
    let Value::Number(si) = row.cells[at].0 else { return };
    if within(si, (low, high)) {
        return;
    }
    let column = sheet.columns[at];
    let Holds::Amount(dimension, .., [usual, _]) = column.holds else { return };
    let own = dimension.unit(usual).unwrap_or(&dimension.units()[0]);
    let unit = sheet.head_of(at).and_then(|head| sheet.heads[head].unit()).unwrap_or(own);
    let text = sheet.written(row, at);
    let bare = text.ends_with(|c: char| c.is_ascii_digit() || c == '.');
    let said = if bare { format!("{text} {}", unit.symbol) } else { text.clone() };
    let meant = meant((low, high), column.spine, &text, unit);
    let mistake = Mistake::Unlikely(said, round_ends((low, high), unit), meant);
    sheet.tell_at(row, at, mistake);
}
