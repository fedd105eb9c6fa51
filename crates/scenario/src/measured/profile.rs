//! Run-out along shafts, one reading to a row.

use std::collections::HashMap;
use std::path::Path;

use units::Dimension::Length;
use units::{Length as L, Role, Style, parse};
use workbench::{Gauged, Indicator, RunOut};

use super::column::{CLOCK, Column, Columns, GAUGE, Holds, LONG, PART, SHAFT, columns, may};
use super::likely::RUN_OUT;
use super::settle::{CORRECTION, Rule, settle};
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table, TableMistake as Mistake};
use crate::Report;

/// An indicator may stand anywhere.
const DIAL: Holds = Holds::Amount(Length, -0.05, 0.05, PART);

/// Readings of a shaft at a station, as often as it was read.
pub(super) const RULE: Rule =
    Rule { keys: &[("shaft", ""), ("station", ""), ("clock", "")], repeats: true };

columns! { Profile {
    Shaft SHAFT;
    Station may("station", &["position", "place"], LONG);
    Clock may("clock", &["clock position"], CLOCK);
    Reading may("reading", &["indicator", "dial"], DIAL);
    RunOut may("run-out", &["runout", "tir", "total"], GAUGE).gauged(Gauged::End, RUN_OUT);
    High may("high", &["run-out high", "high side"], CLOCK);
    Stock may("stock", &["shaft length", "length"], Holds::Amount(Length, 0.05, 2.0, PART));
} and CORRECTION }

/// A reading under the head of its station.
const ACROSS: Column = may("8 in", &[], DIAL);

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
    /// The line of the table where it was first told of.
    pub line: usize,
    /// The same of its length.
    stock_line: usize,
}

/// Reads run-out along shafts, in the order in which the shafts first appear.
///
/// # Errors
/// Every mistake of the file.
pub fn profiles(path: &Path, bytes: Opened) -> Result<Table<ShaftReadings>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let (mut found, mut known) = (Vec::new(), HashMap::new());
        // One row a shaft and clock position, stations across.
        let stations = sheet.claim(station);
        let rows = &settle(sheet, rows, &RULE).rows;
        if !stations.is_empty() {
            // A total of such a row is a sum of the spreadsheet's.
            sheet.disown(Profile::RunOut);
            for row in rows {
                across(sheet, row, &stations, &mut found, &mut known);
            }
            return found;
        }
        if sheet.has_one_of(&[Profile::Reading, Profile::RunOut]) {
            for row in rows {
                reading(sheet, row, &mut found, &mut known);
            }
        }
        found
    })
}

/// A head that is a station: "8 in", "at 8 in", "station 8 in".
fn station(name: &str) -> Option<f64> {
    let bare = ["at ", "station "].iter().find_map(|word| name.strip_prefix(word));
    let read = parse::<L>(bare.unwrap_or(name)).ok()?;
    Some(read.si()).filter(|at| (0.0..=2.0).contains(at))
}

/// Adds a row of readings at one clock position to its shaft.
fn across(
    sheet: &mut Sheet,
    row: &Row<Profile>,
    stations: &[(usize, f64)],
    found: &mut Vec<ShaftReadings>,
    known: &mut HashMap<String, usize>,
) -> Option<()> {
    sheet.need(row, Profile::Clock, "a row of readings at stations");
    let (name, clock) = (row.text(Profile::Shaft)?, row.get(Profile::Clock)?);
    let shaft = shaft_of(name, true, row.line, found, known);
    stock(sheet, row, shaft);
    for cell in &row.own {
        let Some((_, at)) = stations.iter().find(|(head, _)| *head == cell.0) else { continue };
        let Some(reading) = sheet.own_cell("columns of stations", &ACROSS, cell) else { continue };
        if let Stations::Dial(list) = &mut shaft.stations {
            let (station, reading) = (L::from_si(*at), L::from_si(reading));
            list.push(Indicator { station, clock, reading });
        }
    }
    Some(())
}

/// The shaft of a row, begun where it is new.
fn shaft_of<'a>(
    name: &str,
    dial: bool,
    line: usize,
    found: &'a mut Vec<ShaftReadings>,
    known: &mut HashMap<String, usize>,
) -> &'a mut ShaftReadings {
    let at = *known.entry(name.to_owned()).or_insert_with(|| {
        let stations = if dial { Stations::Dial(Vec::new()) } else { Stations::RunOut(Vec::new()) };
        let name = name.to_owned();
        found.push(ShaftReadings { name, stock: None, stations, line, stock_line: line });
        found.len() - 1
    });
    &mut found[at]
}

/// What a row says of the length of its shaft.
fn stock(sheet: &mut Sheet, row: &Row<Profile>, shaft: &mut ShaftReadings) {
    let Some(stock) = row.get::<L>(Profile::Stock) else { return };
    match shaft.stock {
        Some(before) if before != stock => {
            let text = |length: L| Role::Part.text(length.si(), Style::Archery);
            let what = "the length of the shaft";
            let mistake = Mistake::Differs(what, text(stock), text(before), shaft.stock_line);
            sheet.tell_cell(row, Profile::Stock, mistake);
        }
        _ => (shaft.stock, shaft.stock_line) = (Some(stock), row.line),
    }
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
    sheet.need(row, Profile::Station, word(dial));
    sheet.need(row, clock, word(dial));
    let (name, station) = (row.text(Profile::Shaft)?, row.get(Profile::Station)?);
    let clock = row.get(clock)?;
    let shaft = shaft_of(name, dial, row.line, found, known);
    stock(sheet, row, shaft);
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Stations across say the same as one reading to a row.
    #[test]
    fn exact_a_wide_table_is_a_long_one() {
        let read = |text: &str| {
            let table = profiles(Path::new("a.csv"), Ok(text.as_bytes().to_vec()));
            let found = table.map(|t| t.found).map_err(|wrong| wrong.to_string());
            match found.map(|all| all[0].clone()) {
                Ok(ShaftReadings { stations: Stations::Dial(list), stock, .. }) => (list, stock),
                other => panic!("{other:?}"),
            }
        };
        let (wide, a) =
            read("shaft,stock,clock,at 0 in [thou],8 in [in]\n1,32 in,3 o'clock,19.5,\"0,02\"\n");
        let (long, b) = read(
            "shaft,stock [in],station [in],clock [deg],reading [in]\n\
             1,32,0,90,0.0195\n1,32,8,90,0.02\n",
        );
        assert_eq!((a, wide.len()), (b, 2));
        for (one, other) in wide.iter().zip(&long) {
            assert!((one.station.si() - other.station.si()).abs() < 1e-15);
            assert!((one.clock.si() - other.clock.si()).abs() < 1e-12);
            assert!((one.reading.si() - other.reading.si()).abs() < 1e-18);
        }
    }
}
