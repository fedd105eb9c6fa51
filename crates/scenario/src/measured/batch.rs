//! Shafts or arrows that were measured, one to a row.

use std::collections::HashMap;
use std::path::Path;

use units::Dimension::{Length, Mass};
use units::Length as L;
use workbench::{FULL_SPAN, Gauged, Measured, Spun, Stage, Worked};

use super::column::{ARROW, CLOCK, Columns, GAUGE, Holds, LONG, PART, Value, columns, may, words};
use super::far_off::far_off;
use super::likely::{
    ARROW_LENGTH, ARROW_MASS, BALANCE, RUN_OUT, SHAFT_MASS, SPINE, asked, likely, unlikely, within,
};
use super::settle::{CORRECTION, Rule, Settled, settle};
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table, TableMistake};
use crate::Report;

/// Chosen: any arrow or shaft there is.
const WHOLE: Holds = Holds::Amount(Length, 0.1, 2.0, PART);

/// How far along it was.
pub(super) const STAGES: [(&str, Stage); 5] = [
    ("raw", Stage::Raw),
    ("cut", Stage::Cut),
    ("squared", Stage::Squared),
    ("built", Stage::Built),
    ("shot", Stage::Shot),
];
/// One row of an arrow at a stage.
pub(super) const RULE: Rule = Rule { keys: &[("arrow", ""), ("stage", "built")], repeats: false };
/// In the column of what is out: it is not.
const NOT_OUT: &str = "no";

columns! { Batch {
    Arrow ARROW;
    Stage may("stage", &["when", "state"], Holds::Word(&words(&STAGES)));
    Mass may("mass", &["weight", "wt"], Holds::Amount(Mass, 1e-3, 0.5, ["gr", "gr"]));
    Balance may("balance", &["balance point"], LONG).likely(BALANCE);
    Spine may("spine", &["deflection", "static spine"], Holds::Amount(Length, 5e-4, 0.25, PART)).spine().likely(SPINE);
    Stiff may("stiff side", &["spine clock", "stiff clock"], CLOCK);
    Length may("length", &["arrow length"], WHOLE).likely(ARROW_LENGTH);
    RunOut may("run-out", &["runout", "tir", "straightness"], GAUGE).gauged(Gauged::End, RUN_OUT);
    RunOutHigh may("run-out high", &["run-out clock", "runout clock", "runout high", "high side"], CLOCK);
    RunOutSpan may("run-out span", &["span"], WHOLE);
    Tip may("tip wobble", &["wobble", "tip run-out", "tip runout"], GAUGE).gauged(Gauged::Wobble, RUN_OUT);
    TipHigh may("tip high", &["wobble clock", "tip clock"], CLOCK);
    Groove may("nock wobble", &["nock run-out", "groove wobble"], GAUGE).gauged(Gauged::Wobble, RUN_OUT);
    GrooveHigh may("nock high", &["nock clock"], CLOCK);
    Out may("out", &["taken out", "broken", "rejected"], Holds::Text);
} and CORRECTION }

/// Reads a batch of measured shafts or arrows, in the order in which they first
/// appear; those that were taken out are left out. An arrow may stand in a row for each
/// stage: what was read of the shaft carries on.
///
/// # Errors
/// Every mistake of the file.
pub fn batch(path: &Path, bytes: Opened) -> Result<Table<Measured>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let settled = settle(sheet, rows, &RULE);
        let arrows = entered(&settled);
        let out: Vec<&str> =
            arrows.iter().filter(|a| a.out.is_some()).map(|a| a.name.as_str()).collect();
        question(sheet, &settled.rows, &out);
        let mut found = Vec::new();
        for arrow in &arrows {
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
    read(path, bytes, 0, |sheet, rows| entered(&settle(sheet, rows, &RULE)))
}

/// The arrows of some rows.
fn entered(settled: &Settled<Batch>) -> Vec<Worked> {
    let mut places: HashMap<&str, usize> = HashMap::new();
    let mut found: Vec<Worked> = Vec::new();
    for (name, superseded) in &settled.names {
        places.insert(name, found.len());
        let (name, superseded) = (name.clone(), *superseded);
        found.push(Worked { name, superseded, ..Worked::default() });
    }
    for row in &settled.rows {
        let Some(name) = row.text(Batch::Arrow) else { continue };
        let Some(arrow) = places.get(name).map(|at| &mut found[*at]) else { continue };
        let read = measured(row, name);
        let out = row.text(Batch::Out).filter(|why| !why.eq_ignore_ascii_case(NOT_OUT));
        if let (Some(why), None) = (out, &arrow.out) {
            (arrow.out, arrow.out_at) = (Some(why.to_owned()), Some(read.stage));
        }
        // The last column of every notebook.
        if let Some((Value::Text(remark), _)) = row.cells.last() {
            arrow.remarks.push((read.stage, remark.clone()));
        }
        arrow.stages.push(read);
    }
    for arrow in &mut found {
        arrow.stages.sort_by_key(|read| read.stage);
        arrow.remarks.sort_by_key(|(stage, _)| *stage);
    }
    found
}

/// Questions values that hardly any arrow has, readings that no sound one gives, of arrows
/// that are not taken out, and values far off all others of their column and stage.
fn question(sheet: &mut Sheet, rows: &[Row<Batch>], out: &[&str]) {
    const COLUMNS: [Batch; 3] = [Batch::Mass, Batch::Spine, Batch::Length];
    let mut standing: HashMap<Stage, [Vec<(f64, usize)>; 3]> = HashMap::new();
    for (line, row) in rows.iter().enumerate() {
        let stage = row.meaning(Batch::Stage, &STAGES).unwrap_or_default();
        for (at, column) in COLUMNS.into_iter().enumerate() {
            if let Some(value) = row.si(column).filter(|value| *value > 0.0) {
                standing.entry(stage).or_default()[at].push((value, line));
            }
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
        asked(sheet, &rows[far.line], column, TableMistake::FarOff(far.times, far.others));
    }
    let mixed_up = mixed_up(rows);
    for row in rows {
        let stage = row.meaning(Batch::Stage, &STAGES).unwrap_or_default();
        let skip: Vec<usize> =
            mixed_up.iter().filter(|(of, _)| *of == stage).map(|(_, at)| *at).collect();
        if !skip.contains(&Batch::Mass.at()) {
            unlikely(sheet, row, Batch::Mass, mass_of(stage));
        }
        if row.text(Batch::Arrow).is_some_and(|name| !out.contains(&name)) {
            likely(sheet, row, true, &skip);
        }
    }
}

fn mass_of(stage: Stage) -> (f64, f64) {
    if stage.finished() { ARROW_MASS } else { SHAFT_MASS }
}

/// Columns of a stage in which most values are unlikely: that is no slip of one arrow but
/// the unit of the column, which is asked about once, beside the scenario's arrow.
fn mixed_up(rows: &[Row<Batch>]) -> Vec<(Stage, usize)> {
    /// Fewest values that say so. Chosen.
    const FEWEST: usize = 3;
    let mut counts: HashMap<(Stage, usize), [usize; 2]> = HashMap::new();
    for row in rows {
        let stage = row.meaning(Batch::Stage, &STAGES).unwrap_or_default();
        let ends =
            [(Batch::Mass, mass_of(stage)), (Batch::Spine, SPINE), (Batch::Length, ARROW_LENGTH)];
        for (column, ends) in ends {
            let Some(value) = row.si(column) else { continue };
            let [all, odd] = counts.entry((stage, column.at())).or_default();
            *all += 1;
            *odd += usize::from(!within(value, ends) && !row.sure[column.at()]);
        }
    }
    let most = |(_, [all, odd]): &(_, [usize; 2])| *odd >= FEWEST && 2 * odd > *all;
    counts.into_iter().filter(most).map(|(key, _)| key).collect()
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
        ..Measured::default()
    }
}
