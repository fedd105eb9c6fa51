//! Tables of bench steps.

use study::{Bench, Done, WorthBuild};
use target::Estimate;
use units::{Role, Style};

use super::say;
use crate::show;
use crate::table::{Cell, Column, Table};

fn money(cost: f64) -> Cell {
    Cell::text(show::figures(cost, 4))
}

/// One less the inverse of a ratio of sigmas: how much tighter.
fn tighter(ratio: Option<&Estimate>, style: Style) -> Cell {
    match ratio {
        None => Cell::text("to one point"),
        Some(ratio) => {
            let less = |value: f64| if value > 0.0 { 1.0 - 1.0 / value } else { 0.0 };
            let part =
                Estimate { value: less(ratio.value), low: less(ratio.low), high: less(ratio.high) };
            Cell::estimate(Role::Percent, &part, style)
        }
    }
}

fn part(build: &WorthBuild, gain: f64) -> Cell {
    Cell::text(
        say::part(build, gain)
            .map_or_else(|| "-".to_owned(), |p| Role::Percent.number(p, Style::Metric)),
    )
}

/// Steps alone at the farthest distance, the best for its time first.
pub(super) fn steps(found: &Bench, build: &WorthBuild, style: Style) -> Table {
    let impact = Role::Impact.symbol(style);
    let columns = vec![
        Column::new("step", ""),
        Column::new("time a dozen", "min"),
        Column::new("cost a dozen", ""),
        Column::new("gain in R50", impact),
        Column::new("gain a minute", format!("{impact}/min")),
        Column::new("shown", ""),
        Column::new("tighter from a machine", "%"),
    ];
    let row = |at: usize| {
        let done = &build.tried[at];
        let mark = say::far(done);
        vec![
            Cell::text(say::numbered(found, build, done.steps[0])),
            Cell::text(say::minutes(done.time)),
            money(done.cost),
            Cell::estimate(Role::Impact, &mark.gain, style),
            Cell::text(if mark.gain.low > 0.0 {
                say::rate(mark.gain.value, done.time, style)
            } else {
                "-".to_owned()
            }),
            Cell::text(say::verdict(&mark.gain)),
            tighter(say::far(&build.machine[at]).ratio.as_ref(), style),
        ]
    };
    Table { columns, rows: say::ranked(found, build).into_iter().map(row).collect() }
}

/// R50 before, and what each step alone and all together bring, by distance.
pub(super) fn distances(found: &Bench, build: &WorthBuild, style: Style) -> Table {
    let mut columns = vec![Column::new("", "")];
    for distance in &found.distances {
        let range = show::plain(Role::Range, distance.si(), style);
        columns.push(Column::new(range, Role::Impact.symbol(style)));
    }
    let line = |name: String, done: &Done, read: fn(&study::DoneMark) -> &Estimate| {
        let mut cells = vec![Cell::text(name)];
        cells.extend(done.marks.iter().map(|m| Cell::estimate(Role::Impact, read(m), style)));
        cells
    };
    let mut rows = vec![line("R50 before".to_owned(), &build.tried[0], |m| &m.r50)];
    for at in say::ranked(found, build) {
        let done = &build.tried[at];
        let name = format!("gain: {}", found.steps[done.steps[0]].name);
        rows.push(line(name, done, |m| &m.gain));
    }
    rows.push(line("gain: all steps".to_owned(), &build.tried[build.all], |m| &m.gain));
    rows.push(line("R50 after all".to_owned(), &build.tried[build.all], |m| &m.r50));
    Table { columns, rows }
}

/// The steps one after another.
pub(super) fn chain(found: &Bench, build: &WorthBuild, style: Style) -> Table {
    let columns = vec![
        Column::new("then", ""),
        Column::new("minutes so far", "min"),
        Column::new("cost so far", ""),
        Column::of("R50", Role::Impact, style),
        Column::of("this step adds", Role::Impact, style),
        Column::of("alone it brings", Role::Impact, style),
        Column::new("of all there is", "%"),
    ];
    let row = |link: &study::Link| {
        let done = &build.tried[link.done];
        let mark = say::far(done);
        vec![
            Cell::text(say::numbered(found, build, link.step)),
            Cell::text(say::minutes(done.time)),
            money(done.cost),
            Cell::estimate(Role::Impact, &mark.r50, style),
            link.gain
                .last()
                .map_or_else(|| Cell::text("-"), |gain| Cell::estimate(Role::Impact, gain, style)),
            Cell::number(Role::Impact, say::far(&build.tried[link.step + 1]).gain.value, style),
            part(build, mark.gain.value),
        ]
    };
    Table { columns, rows: build.chain.iter().map(row).collect() }
}

/// The choices that no other beats.
pub(super) fn front(found: &Bench, build: &WorthBuild, style: Style) -> Table {
    let columns = vec![
        Column::new("choice", ""),
        Column::new("time a dozen", "min"),
        Column::new("cost a dozen", ""),
        Column::of("R50", Role::Impact, style),
        Column::of("gain", Role::Impact, style),
        Column::new("of all there is", "%"),
    ];
    let row = |at: &usize| {
        let done = &build.tried[*at];
        let mark = say::far(done);
        let mut numbers: Vec<usize> =
            done.steps.iter().map(|step| say::number(found, build, *step)).collect();
        numbers.sort_unstable();
        let numbers: Vec<String> = numbers.iter().map(ToString::to_string).collect();
        vec![
            Cell::text(numbers.join(" + ")),
            Cell::text(say::minutes(done.time)),
            money(done.cost),
            Cell::number(Role::Impact, mark.r50.value, style),
            Cell::estimate(Role::Impact, &mark.gain, style),
            part(build, mark.gain.value),
        ]
    };
    Table { columns, rows: build.front.iter().map(row).collect() }
}
