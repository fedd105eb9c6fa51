//! Shafts or arrows that were measured, one to a row.

use std::collections::HashMap;
use std::path::Path;

use units::Dimension::{Length, Mass};
use units::Length as L;
use workbench::{FULL_SPAN, Gauged, Measured, Spun, Stage, Worked};

use super::column::{ARROW, CLOCK, GAUGE, Holds, LONG, PART, columns, may, words};
use super::far_off::far_off;
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
/// What a row does to the one before of its arrow and stage.
#[derive(Clone, Copy)]
enum Corrects {
    /// What it says holds in place of that.
    Over,
    /// That does not hold: it was of another arrow, or another stage.
    Void,
}
const CORRECTS: [(&str, Corrects); 2] = [("yes", Corrects::Over), ("void", Corrects::Void)];

/// What stands of an arrow at a stage.
struct Entry {
    read: Measured,
    out: Option<String>,
    line: usize,
}

columns! { Batch {
    Arrow ARROW;
    Stage may("stage", &["when", "state"], Holds::Word(&words(&STAGES)));
    Mass may("mass", &["weight", "wt"], Holds::Amount(Mass, 1e-3, 0.5, ["gr", "gr"]));
    Balance may("balance", &["balance point"], LONG);
    Spine may("spine", &["deflection", "static spine"], Holds::Amount(Length, 5e-4, 0.25, PART)).spine();
    Stiff may("stiff side", &["spine clock", "stiff clock"], CLOCK);
    Length may("length", &["arrow length"], WHOLE);
    RunOut may("run-out", &["runout", "tir", "straightness"], GAUGE);
    RunOutHigh may("run-out high", &["run-out clock", "runout clock", "runout high", "high side"], CLOCK);
    RunOutSpan may("run-out span", &["span"], WHOLE);
    Tip may("tip wobble", &["wobble", "tip run-out", "tip runout"], GAUGE);
    TipHigh may("tip high", &["wobble clock", "tip clock"], CLOCK);
    Groove may("nock wobble", &["nock run-out", "groove wobble"], GAUGE);
    GrooveHigh may("nock high", &["nock clock"], CLOCK);
    Out may("out", &["taken out", "broken", "rejected"], Holds::Text);
    Correction may("correction", &["corrects"], Holds::Word(&words(&CORRECTS)));
} }

/// Reads a batch of measured shafts or arrows, in the order in which they first
/// appear; those that were taken out are left out. An arrow may stand in a row for each
/// stage: what was read of the shaft carries on.
///
/// # Errors
/// Every mistake of the file.
pub fn batch(path: &Path, bytes: Opened) -> Result<Table<Measured>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        question(sheet, rows);
        gauged(sheet, rows);
        let mut found = Vec::new();
        for arrow in entered(sheet, rows) {
            match &arrow.out {
                Some(why) => sheet.leave_out(format!("arrow {} ({why})", arrow.name)),
                None => found.extend(arrow.now()),
            }
        }
        found
    })
}

/// Reads how far each arrow is, in the order in which they first appear; a table of
/// heads alone says of none.
///
/// # Errors
/// Every mistake of the file.
pub fn worked(path: &Path, bytes: Opened) -> Result<Table<Worked>, Report> {
    read(path, bytes, 0, entered)
}

/// The arrows of some rows. A row of an arrow and stage that has one adds what that left
/// blank, or corrects it, or makes it void; the old row stays in the file.
fn entered(sheet: &mut Sheet, rows: &[Row<Batch>]) -> Vec<Worked> {
    let mut found: Vec<(String, Vec<Entry>)> = Vec::new();
    let mut places: HashMap<String, usize> = HashMap::new();
    let mut superseded: HashMap<String, usize> = HashMap::new();
    for row in rows {
        let Some(name) = row.text(Batch::Arrow) else { continue };
        let out = row.text(Batch::Out).map(str::to_owned);
        let new = Entry { read: measured(row, name), out, line: row.line };
        let at = *places.entry(name.to_owned()).or_insert_with(|| {
            found.push((name.to_owned(), Vec::new()));
            found.len() - 1
        });
        let entries = &mut found[at].1;
        let old = entries.iter().position(|old| old.read.stage == new.read.stage);
        let corrects = row.meaning(Batch::Correction, &CORRECTS);
        if let (Some(_), Some(_)) = (old, corrects) {
            *superseded.entry(name.to_owned()).or_default() += 1;
        }
        match (old, corrects) {
            (Some(old), Some(Corrects::Void)) => {
                entries.remove(old);
            }
            (None, Some(Corrects::Void)) => {
                sheet.tell_cell(row, Batch::Correction, TableMistake::NothingVoid);
            }
            (None, _) => entries.push(new),
            (Some(old), corrects) => {
                let old = &mut entries[old];
                if corrects.is_none() && old.read.clashes(&new.read) {
                    let mistake = TableMistake::NameTwice(name.to_owned(), old.line, true);
                    sheet.tell_cell(row, Batch::Arrow, mistake);
                }
                old.read.over(&new.read);
                old.out = new.out.or(old.out.take());
            }
        }
    }
    let one = |(name, mut entries): (String, Vec<Entry>)| {
        entries.sort_by_key(|entry| entry.read.stage);
        let out = entries.iter().find_map(|entry| entry.out.clone());
        let superseded = superseded.get(&name).copied().unwrap_or(0);
        let stages = entries.into_iter().map(|entry| entry.read).collect();
        Worked { name, stages, out, superseded }
    };
    found.into_iter().map(one).collect()
}

/// Questions values far off all others of their column and stage.
fn question(sheet: &mut Sheet, rows: &[Row<Batch>]) {
    const COLUMNS: [Batch; 3] = [Batch::Mass, Batch::Spine, Batch::Length];
    let stage = |row: &Row<Batch>| row.meaning(Batch::Stage, &STAGES).unwrap_or_default();
    // A slip that a later row corrects or voids is none.
    let mut replaced: HashMap<(&str, Stage), [bool; 3]> = HashMap::new();
    let mut standing: HashMap<Stage, [Vec<(f64, usize)>; 3]> = HashMap::new();
    for (line, row) in rows.iter().enumerate().rev() {
        let Some(name) = row.text(Batch::Arrow) else { continue };
        let corrects = row.meaning(Batch::Correction, &CORRECTS);
        let later = replaced.entry((name, stage(row))).or_default();
        for (at, column) in COLUMNS.into_iter().enumerate() {
            let value = row.si(column).filter(|value| *value > 0.0);
            if let (Some(value), false) = (value, later[at]) {
                standing.entry(stage(row)).or_default()[at].push((value, line));
            }
            later[at] |= match corrects {
                Some(Corrects::Void) => true,
                Some(_) => value.is_some(),
                None => false,
            };
        }
    }
    let mut found = Vec::new();
    for (at, column) in COLUMNS.into_iter().enumerate() {
        for values in standing.values_mut().map(|of| std::mem::take(&mut of[at])) {
            found.extend(far_off(values).into_iter().map(|far| (far, at, column)));
        }
    }
    found.sort_by_key(|(far, at, _)| (far.line, *at));
    for (far, _, column) in found {
        let mistake = TableMistake::FarOff(far.times, far.others);
        sheet.tell_cell(&rows[far.line], column, mistake);
    }
}

/// Questions readings that no sound arrow gives, of arrows that are not taken out.
fn gauged(sheet: &mut Sheet, rows: &[Row<Batch>]) {
    const COLUMNS: [(Batch, Gauged); 3] = [
        (Batch::RunOut, Gauged::End),
        (Batch::Tip, Gauged::Wobble),
        (Batch::Groove, Gauged::Wobble),
    ];
    let stage = |row: &Row<Batch>| row.meaning(Batch::Stage, &STAGES).unwrap_or_default();
    // What a later row corrects, voids or takes out is asked about no more.
    let mut settled: Vec<(&str, Option<Stage>)> = Vec::new();
    let mut found = Vec::new();
    for (line, row) in rows.iter().enumerate().rev() {
        let Some(name) = row.text(Batch::Arrow) else { continue };
        if row.text(Batch::Out).is_some() {
            settled.push((name, None));
        }
        if !settled.iter().any(|(of, at)| *of == name && at.is_none_or(|at| at == stage(row))) {
            let wrong = |(column, of): &(Batch, Gauged)| {
                let why = of.sound(row.si(*column)?).err()?;
                Some((line, *column, why.to_string()))
            };
            found.extend(COLUMNS.iter().filter_map(wrong));
        }
        if row.meaning(Batch::Correction, &CORRECTS).is_some() {
            settled.push((name, Some(stage(row))));
        }
    }
    for (line, column, why) in found.into_iter().rev() {
        sheet.tell_cell(&rows[line], column, TableMistake::Unsound(why));
    }
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
