//! Shafts or arrows that were measured, one to a row.

use std::collections::HashMap;
use std::path::Path;

use units::Dimension::{Length, Mass};
use units::Length as L;
use workbench::{FULL_SPAN, Measured, Spun};

use super::column::{ARROW, CLOCK, GAUGE, Holds, LONG, PART, columns, may};
use super::sheet::{Row, read};
use super::{Opened, Table, TableMistake};
use crate::Report;

/// Chosen: any arrow or shaft there is.
const WHOLE: Holds = Holds::Amount(Length, 0.1, 2.0, PART);

columns! { Batch {
    Arrow ARROW;
    Mass may("mass", &["weight"], Holds::Amount(Mass, 1e-3, 0.5, ["gr", "gr"]));
    Balance may("balance", &["balance point"], LONG);
    Spine may("spine", &["deflection", "static spine"], Holds::Amount(Length, 5e-4, 0.25, PART)).spine();
    Stiff may("stiff side", &["spine clock", "stiff clock"], CLOCK);
    Length may("length", &["arrow length"], WHOLE);
    RunOut may("run-out", &["runout", "tir", "straightness"], GAUGE);
    RunOutHigh may("run-out high", &["run-out clock", "runout clock", "runout high"], CLOCK);
    RunOutSpan may("run-out span", &["span"], WHOLE);
    Tip may("tip wobble", &["wobble", "tip run-out", "tip runout"], GAUGE);
    TipHigh may("tip high", &["wobble clock", "tip clock"], CLOCK);
    Groove may("nock wobble", &["nock run-out", "groove wobble"], GAUGE);
    GrooveHigh may("nock high", &["nock clock"], CLOCK);
} }

/// Reads a batch of measured shafts or arrows.
///
/// # Errors
/// Every mistake of the file.
pub fn batch(path: &Path, bytes: Opened) -> Result<Table<Measured>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let mut seen: HashMap<&str, usize> = HashMap::new();
        let mut found = Vec::new();
        for row in rows {
            let Some(name) = row.text(Batch::Arrow) else { continue };
            if let Some(line) = seen.insert(name, row.line) {
                let mistake = TableMistake::NameTwice(name.to_owned(), line);
                sheet.tell_cell(row, Batch::Arrow, mistake);
            }
            found.push(measured(row, name));
        }
        found
    })
}

fn measured(row: &Row<Batch>, name: &str) -> Measured {
    let spun =
        |total: Batch, high: Batch| row.get(total).map(|total| Spun { total, high: row.get(high) });
    // A constant curve over another span, carried over to 28 in.
    let carried = |spun: Spun| match row.get::<L>(Batch::RunOutSpan) {
        Some(span) => {
            let by = (FULL_SPAN.si() / span.si()).powi(2);
            Spun { total: L::from_si(spun.total.si() * by), ..spun }
        }
        None => spun,
    };
    Measured {
        name: name.to_owned(),
        mass: row.get(Batch::Mass),
        balance: row.get(Batch::Balance),
        spine: row.get(Batch::Spine),
        stiff: row.get(Batch::Stiff),
        length: row.get(Batch::Length),
        run_out: spun(Batch::RunOut, Batch::RunOutHigh).map(carried),
        tip: spun(Batch::Tip, Batch::TipHigh),
        groove: spun(Batch::Groove, Batch::GrooveHigh),
    }
}
