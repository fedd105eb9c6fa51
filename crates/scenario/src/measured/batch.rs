//! Shafts or arrows that were measured, one to a row.

use std::collections::HashMap;
use std::path::Path;

use units::Dimension::{Length, Mass};
use units::Length as L;
use workbench::{FULL_SPAN, Measured, Spun, Stage};

use super::column::{ARROW, CLOCK, GAUGE, Holds, LONG, PART, columns, may, words};
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table, TableMistake};
use crate::Report;

/// Chosen: any arrow or shaft there is.
const WHOLE: Holds = Holds::Amount(Length, 0.1, 2.0, PART);

/// How far along it was.
const STAGES: [(&str, Stage); 5] = [
    ("raw", Stage::Raw),
    ("cut", Stage::Cut),
    ("squared", Stage::Squared),
    ("built", Stage::Built),
    ("shot", Stage::Shot),
];
const YES: [(&str, bool); 2] = [("yes", true), ("no", false)];

columns! { Batch {
    Arrow ARROW;
    Stage may("stage", &["when", "state"], Holds::Word(&words(&STAGES)));
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
    Correction may("correction", &["corrects"], Holds::Word(&words(&YES)));
} }

/// Reads a batch of measured shafts or arrows, in the order in which they first
/// appear. An arrow may stand in a row for each stage: what was read of the shaft
/// carries on. A correction is a new row over an old one of the same stage.
///
/// # Errors
/// Every mistake of the file.
pub fn batch(path: &Path, bytes: Opened) -> Result<Table<Measured>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        question(sheet, rows);
        let mut seen: HashMap<(&str, Stage), usize> = HashMap::new();
        let mut found: Vec<Vec<Measured>> = Vec::new();
        for row in rows {
            let Some(name) = row.text(Batch::Arrow) else { continue };
            let one = measured(row, name);
            let corrects = row.meaning(Batch::Correction, &YES) == Some(true);
            let known = seen.get(&(name, one.stage)).copied();
            if let (Some(line), false) = (known, corrects) {
                let mistake = TableMistake::NameTwice(name.to_owned(), line);
                sheet.tell_cell(row, Batch::Arrow, mistake);
            }
            seen.entry((name, one.stage)).or_insert(row.line);
            match found.iter_mut().find(|arrow| arrow[0].name == name) {
                None => found.push(vec![one]),
                Some(arrow) => match arrow.iter_mut().find(|old| old.stage == one.stage) {
                    Some(old) => old.over(&one),
                    None => arrow.push(one),
                },
            }
        }
        found.into_iter().filter_map(as_it_is_now).collect()
    })
}

/// How many times the middle of the others, or less than its inverse, a value of a set
/// must be to be taken for a slip. Chosen: no shafts or arrows that go into one notebook
/// scatter so far, and a slipped decimal point does.
const SLIP: f64 = 1.5;
/// Least others of one stage that say what is usual. Chosen.
const OTHERS: usize = 3;

/// Questions values far off all others of their column and stage.
fn question(sheet: &mut Sheet, rows: &[Row<Batch>]) {
    let stage = |row: &Row<Batch>| row.meaning(Batch::Stage, &STAGES).unwrap_or_default();
    for column in [Batch::Mass, Batch::Spine, Batch::Length] {
        for row in rows {
            let Some(value) = row.si(column).filter(|value| *value > 0.0) else { continue };
            let alike = rows.iter().filter(|of| of.line != row.line && stage(of) == stage(row));
            let mut others: Vec<f64> = alike.filter_map(|of| of.si(column)).collect();
            if others.len() < OTHERS {
                continue;
            }
            others.sort_by(f64::total_cmp);
            let middle = others[others.len() / 2];
            if value > SLIP * middle || value * SLIP < middle {
                let mistake = TableMistake::FarOff(format!("{:.2}", value / middle), others.len());
                sheet.tell_cell(row, column, mistake);
            }
        }
    }
}

/// The latest stage of an arrow, with what still holds of those before.
fn as_it_is_now(mut stages: Vec<Measured>) -> Option<Measured> {
    stages.sort_by_key(|one| one.stage);
    stages.into_iter().reduce(|before, now| {
        let mut held = before.carried_to(now.stage);
        held.over(&now);
        held
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
        stage: row.meaning(Batch::Stage, &STAGES).unwrap_or_default(),
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
