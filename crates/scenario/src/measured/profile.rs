//! Run-out along shafts, one reading to a row.

use std::collections::HashMap;
use std::path::Path;

use units::Dimension::Length;
use units::{Length as L, Role, Style};
use workbench::{Indicator, RunOut};

use super::column::{CLOCK, Columns, GAUGE, Holds, LONG, PART, SHAFT, columns, may, need};
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table, TableMistake as Mistake};
use crate::Report;

columns! { Profile {
    Shaft SHAFT;
    Station need("station", &["position", "place"], LONG);
    Clock may("clock", &["clock position"], CLOCK);
    // An indicator may stand anywhere.
    Reading may("reading", &["indicator", "dial"], Holds::Amount(Length, -0.05, 0.05, PART));
    RunOut may("run-out", &["runout", "tir", "total"], GAUGE);
    High may("high", &["run-out high", "high side"], CLOCK);
    Stock may("stock", &["shaft length", "length"], Holds::Amount(Length, 0.05, 2.0, PART));
} }

/// What was read along one shaft.
#[derive(Debug, Clone, PartialEq)]
pub enum Stations {
    /// Single readings at clock positions.
    Dial(Vec<Indicator>),
    /// Total readings with their high sides.
    RunOut(Vec<RunOut>),
}

/// One shaft of a profile.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftReadings {
    /// Its name.
    pub name: String,
    /// Its length, where the table tells.
    pub stock: Option<L>,
    /// The readings.
    pub stations: Stations,
    /// Where it was first told of, and where its length was.
    line: usize,
    stock_line: usize,
}

/// Reads run-out along shafts, in the order in which the shafts first appear.
///
/// # Errors
/// Every mistake of the file.
pub fn profiles(path: &Path, bytes: Opened) -> Result<Table<ShaftReadings>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let (mut found, mut known) = (Vec::new(), HashMap::new());
        if sheet.has_one_of(&[Profile::Reading, Profile::RunOut]) {
            for row in rows {
                reading(sheet, row, &mut found, &mut known);
            }
        }
        found
    })
}

/// Adds one row to its shaft; none where it has a mistake.
fn reading(
    sheet: &mut Sheet,
    row: &Row<Profile>,
    found: &mut Vec<ShaftReadings>,
    known: &mut HashMap<String, usize>,
) -> Option<()> {
    let of = [Profile::Reading, Profile::RunOut];
    let given = of.map(|column| !row.blank(column));
    let [dial, run_out] = given;
    if dial == run_out {
        let name = |column: &Profile| column.column().name;
        let found = if dial { of.iter().map(name).collect() } else { Vec::new() };
        sheet.tell_row(row, Mistake::OneOf(found, of.iter().map(name).collect()));
        return None;
    }
    let (column, clock) =
        if dial { (Profile::Reading, Profile::Clock) } else { (Profile::RunOut, Profile::High) };
    let word = |dial: bool| if dial { "a reading" } else { "a run-out" };
    sheet.need(row, clock, word(dial));
    let (name, station) = (row.text(Profile::Shaft)?, row.get(Profile::Station)?);
    let clock = row.get(clock)?;
    let at = *known.entry(name.to_owned()).or_insert_with(|| {
        let stations = if dial { Stations::Dial(Vec::new()) } else { Stations::RunOut(Vec::new()) };
        let (name, line) = (name.to_owned(), row.line);
        found.push(ShaftReadings { name, stock: None, stations, line, stock_line: line });
        found.len() - 1
    });
    let shaft = &mut found[at];
    if let Some(stock) = row.get::<L>(Profile::Stock) {
        match shaft.stock {
            Some(before) if before != stock => {
                let text = |length: L| Role::Part.text(length.si(), Style::Archery);
                let mistake = Mistake::Differs(
                    "the length of the shaft",
                    text(stock),
                    text(before),
                    shaft.stock_line,
                );
                sheet.tell_cell(row, Profile::Stock, mistake);
            }
            _ => (shaft.stock, shaft.stock_line) = (Some(stock), row.line),
        }
    }
    let value = row.get(column)?;
    match &mut shaft.stations {
        Stations::Dial(list) if dial => list.push(Indicator { station, clock, reading: value }),
        Stations::RunOut(list) if !dial => list.push(RunOut { station, total: value, high: clock }),
        _ => {
            let mistake = Mistake::Differs(
                "what was read of this shaft",
                word(dial).to_owned(),
                word(!dial).to_owned(),
                shaft.line,
            );
            sheet.tell_row(row, mistake);
        }
    }
    Some(())
}
