//! Tables of builds held side by side.

use study::{Answer, Measure, SidePair, Sides, Told};
use target::Estimate;
use units::{Role, Style};

use super::{Shown, hits, say};
use crate::show::{holds, numbers, plain};
use crate::table::{Cell, Column, Table};

/// The unit of a column whose rows measure different things.
const ROW_UNIT: &str = "in the row's unit";

/// Measures in the order shown.
const MEASURES: [Measure; 9] = [
    Measure::Drop,
    Measure::Drift,
    Measure::Time,
    Measure::Speed,
    Measure::Energy,
    Measure::Momentum,
    Measure::R50,
    Measure::Hit,
    Measure::Score,
];

/// Every build at one distance: a row a measure, a column a build.
pub(crate) fn builds(answer: &Answer, sides: &Sides, at: usize, style: Style) -> Table {
    let alone = answer.builds.len() == 1;
    let mut columns = vec![Column::new("at this distance", "")];
    for build in &answer.builds {
        columns.push(Column::new(if alone { "this build" } else { &build.name }, ROW_UNIT));
    }
    let mut rows: Vec<Vec<Cell>> = Vec::new();
    let scored = answer.builds[0].marks[at].score.is_some();
    for of in MEASURES {
        if of == Measure::Score && !scored {
            continue;
        }
        let shown = Shown::of(of, answer, style);
        let unit = shown.role.symbol(style);
        let name =
            if unit.is_empty() { shown.name.to_owned() } else { format!("{}, {unit}", shown.name) };
        let mut cells = vec![Cell::text(name)];
        for build in 0..answer.builds.len() {
            cells.push(measured(answer, sides, build, at, shown, style));
        }
        rows.push(cells);
    }
    rows.extend(rounds(sides, at));
    rows.extend(misjudged(answer, sides, at, style));
    Table { columns, rows }
}

fn measured(
    answer: &Answer,
    sides: &Sides,
    build: usize,
    at: usize,
    shown: Shown,
    style: Style,
) -> Cell {
    let mark = &answer.builds[build].marks[at];
    let drift = sides.builds[build].marks[at].drift;
    let band = |value: f64, (low, high): (f64, f64)| Estimate { value, low, high };
    let estimate = match shown.of {
        Measure::Drop => band(mark.nominal.drop, mark.nominal.drop_band),
        Measure::Drift => band(drift.value, (drift.low, drift.high)),
        Measure::R50 => mark.full.stats.r50,
        Measure::Hit => mark.hit,
        Measure::Score => match mark.score {
            Some(score) => score,
            None => return Cell::text("-"),
        },
        Measure::Time | Measure::Speed | Measure::Energy | Measure::Momentum => {
            let value = say::number(answer, sides, build, at, shown.of);
            return Cell::number(shown.role, value, style);
        }
    };
    Cell::estimate(shown.role, &shown.estimate(&estimate), style)
}

/// The total of a round, if one was asked for.
fn rounds(sides: &Sides, at: usize) -> Vec<Vec<Cell>> {
    let marks = || sides.builds.iter().map(|build| build.marks[at].round);
    let Some(first) = marks().flatten().next() else { return Vec::new() };
    let mut mean = vec![Cell::text(format!("round of {} arrows, points", first.arrows))];
    let mut spread = vec![Cell::text("19 rounds in 20 score")];
    for round in marks() {
        let Some(round) = round else {
            mean.push(Cell::text("-"));
            spread.push(Cell::text("-"));
            continue;
        };
        let whole = |value: f64| format!("{value:.1}");
        mean.push(Cell::Interval {
            value: whole(round.mean.value),
            low: whole(round.mean.low),
            high: whole(round.mean.high),
        });
        spread.push(Cell::text(format!("{} to {}", round.low, round.high)));
    }
    vec![mean, spread]
}

/// Hits when something is misjudged, a row a misjudgement.
fn misjudged(answer: &Answer, sides: &Sides, at: usize, style: Style) -> Vec<Vec<Cell>> {
    let first = &sides.builds[0].marks[at].misjudged;
    let rows = first.iter().enumerate().map(|(which, misjudged)| {
        let wrong = say::wrong(misjudged.what, &sides.stated, style);
        let name = match misjudged.score {
            Some(_) => format!("score, {wrong}"),
            None => format!("{} %, {wrong}", hits(answer)),
        };
        let mut cells = vec![Cell::text(name)];
        for build in &sides.builds {
            let found = &build.marks[at].misjudged[which];
            cells.push(found.score.map_or_else(
                || Cell::estimate(Role::Percent, &found.hit, style),
                |score| Cell::estimate(Role::Number, &score, style),
            ));
        }
        cells
    });
    rows.collect()
}

/// Differences at one distance, a column a pair.
pub(crate) fn differences(answer: &Answer, pairs: &[&SidePair], at: usize, style: Style) -> Table {
    let mut columns = vec![Column::new("difference", "")];
    for pair in pairs {
        let (one, other) = (&answer.builds[pair.one].name, &answer.builds[pair.other].name);
        columns.push(Column::new(format!("{other} less {one}"), ROW_UNIT));
    }
    let Some(first) = pairs.first() else { return Table { columns, rows: Vec::new() } };
    let rows = first.marks[at].differences.iter().enumerate().map(|(which, difference)| {
        let shown = Shown::of(difference.of, answer, style);
        let unit = shown.unit(style);
        let name =
            if unit.is_empty() { shown.name.to_owned() } else { format!("{}, {unit}", shown.name) };
        let mut cells = vec![Cell::text(name)];
        for pair in pairs {
            let difference = &pair.marks[at].differences[which];
            let [value, low, high] = numbers(shown.role, &shown.estimate(&difference.value), style);
            let value = if difference.shown() { signed(value) } else { "none shown".to_owned() };
            cells.push(Cell::Interval { value, low, high });
        }
        cells
    });
    Table { columns, rows: rows.collect() }
}

fn signed(number: String) -> String {
    if number.starts_with('-') { number } else { format!("+{number}") }
}

/// How often a comparison misleads, by shots with each build.
pub(crate) fn after(pair: &SidePair, at: usize, style: Style) -> Table {
    let mark = &pair.marks[at];
    let mut columns = vec![Column::new("with each", "shots")];
    for who in ["archer", "machine"] {
        columns.push(Column::of(
            format!("{who}: smaller group is the wrong build's"),
            Role::Percent,
            style,
        ));
        columns.push(Column::of(format!("{who}: test sees nothing"), Role::Percent, style));
    }
    let rows = mark.archer.after.iter().zip(&mark.machine.after).map(|(archer, machine)| {
        let mut cells = vec![Cell::text(archer.shots.to_string())];
        for (told, after) in [(&mark.archer, archer), (&mark.machine, machine)] {
            let wrong = if unknown(told) { None } else { Some(after.odds.wrong) };
            let chance = |chance: f64| Role::Percent.number(chance, style);
            cells.push(Cell::text(wrong.map_or_else(|| "-".to_owned(), chance)));
            cells.push(Cell::text(chance(after.odds.missed)));
        }
        cells
    });
    Table { columns, rows: rows.collect() }
}

/// Whether it is not known which group is the wider.
fn unknown(told: &Told) -> bool {
    told.ratio.is_some_and(|ratio| holds(&ratio, 1.0))
}

/// How a distance heads its tables.
pub(crate) fn at(answer: &Answer, place: usize, style: Style) -> String {
    format!("At {}", plain(Role::Range, answer.builds[0].marks[place].distance.si(), style))
}
