//! Three readings of a shaft, one shaft to a row.

use std::path::Path;

use units::Dimension::Length;
use units::Length as L;
use workbench::{Gauged, Spun, ThreeReadings};

use super::column::{CLOCK, GAUGE, Holds, PART, SHAFT, columns, may};
use super::likely::RUN_OUT;
use super::settle::{CORRECTION, Rule, settle};
use super::sheet::read;
use super::{Opened, Table};
use crate::Report;

/// One row of a shaft.
pub(super) const RULE: Rule = Rule { keys: &[("shaft", "")], repeats: false };

columns! { Three {
    Shaft SHAFT;
    Stock may("stock", &["shaft length", "length"], Holds::Amount(Length, 0.05, 2.0, PART));
    Middle may("middle", &["run-out", "runout", "tir", "straightness"], GAUGE).gauged(Gauged::Middle, RUN_OUT);
    MiddleHigh may("middle high", &["middle clock", "run-out high", "high"], CLOCK);
    Nock may("nock end", &["rear end", "rear"], GAUGE).gauged(Gauged::End, RUN_OUT);
    NockHigh may("nock end high", &["nock high", "nock end clock", "rear high"], CLOCK);
    Point may("point end", &["front end", "front"], GAUGE).gauged(Gauged::End, RUN_OUT);
    PointHigh may("point end high", &["point high", "point end clock", "front high"], CLOCK);
} and CORRECTION }

/// A shaft that was read in the middle and at its ends.
#[derive(Debug, Clone, PartialEq)]
pub struct ShaftThree {
    /// Its name.
    pub name: String,
    /// Its length, where the table tells.
    pub stock: Option<L>,
    /// The readings; a blank cell is none.
    pub readings: ThreeReadings,
    /// Its line of the table.
    pub line: usize,
}

/// Reads up to three readings of each shaft.
///
/// # Errors
/// Every mistake of the file.
pub fn three(path: &Path, bytes: Opened) -> Result<Table<ShaftThree>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let mut found = Vec::new();
        if !sheet.has_one_of(&[Three::Middle, Three::Nock, Three::Point]) {
            return found;
        }
        for row in &settle(sheet, rows, &RULE).rows {
            let Some(name) = row.text(Three::Shaft) else { continue };
            let spun =
                |total, high| row.get(total).map(|total| Spun { total, high: row.get(high) });
            let readings = ThreeReadings {
                middle: spun(Three::Middle, Three::MiddleHigh),
                nock_end: spun(Three::Nock, Three::NockHigh),
                point_end: spun(Three::Point, Three::PointHigh),
            };
            found.push(ShaftThree {
                name: name.to_owned(),
                stock: row.get(Three::Stock),
                readings,
                line: row.line,
            });
        }
        found
    })
}
