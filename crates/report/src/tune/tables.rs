//! The tables of a tuning answer.

use study::{Banded, Offset, Trend, TrendShot, Tuned, TunedBuild};
use units::{Role, Style};

use super::say::{bare_value, degrees, direction, name, value};
use crate::show::{of_dimension, plain, plain_number};
use crate::table::{Cell, Column, Table};

/// What stands where the bare shaft did not get.
const LOST: &str = "turns over";

fn banded(role: Role, banded: &Banded, style: Style) -> Cell {
    Cell::Interval {
        value: role.number(banded.value, style),
        low: role.number(banded.low, style),
        high: role.number(banded.high, style),
    }
}

/// Size, left and up of an offset, or three times that it is lost.
fn offset(offset: Option<&Offset>, style: Style) -> [Cell; 3] {
    match offset {
        Some(o) => [&o.size, &o.left, &o.up].map(|part| banded(Role::Impact, part, style)),
        None => [LOST, LOST, LOST].map(Cell::text),
    }
}

/// Bare against fletched at each distance.
pub(super) fn bare(build: &TunedBuild, style: Style) -> Table {
    let role = Role::Impact;
    let mut columns = vec![Column::of("distance", Role::Range, style)];
    for head in ["apart", "bare to the left", "bare up", "apart with tape"] {
        columns.push(Column::of(head, role, style));
    }
    let row = |mark: &study::BareMark| {
        let mut cells = vec![Cell::text(plain_number(Role::Range, mark.distance.si(), style))];
        cells.extend(offset(mark.apart.as_ref(), style));
        cells.push(mark.taped.map_or_else(
            || Cell::text(LOST),
            |[left, up]| Cell::number(role, left.hypot(up), style),
        ));
        cells
    };
    Table { columns, rows: build.bare.iter().map(row).collect() }
}

/// The tear at each sheet.
pub(super) fn paper(build: &TunedBuild, style: Style) -> Table {
    let mut columns = vec![Column::of("sheet at", Role::Range, style), Column::new("nock", "")];
    columns.push(Column::of("tear", Role::Impact, style));
    columns.push(Column::of("nose to the left", Role::Angle, style));
    columns.push(Column::of("nose up", Role::Angle, style));
    let row = |tear: &study::Tear| {
        let nock = [tear.nock.left.value, tear.nock.up.value];
        vec![
            Cell::text(plain_number(Role::Range, tear.distance.si(), style)),
            Cell::text(direction(nock, style).unwrap_or_else(|| "in the hole".to_owned())),
            banded(Role::Impact, &tear.nock.size, style),
            Cell::number(Role::Angle, tear.yaw, style),
            Cell::number(Role::Angle, tear.pitch, style),
        ]
    };
    Table { columns, rows: build.paper.iter().map(row).collect() }
}

/// What each change does, one row a change, at the mark of neutral.
pub(super) fn changes(build: &TunedBuild, mark: usize, style: Style) -> Table {
    let columns = vec![
        Column::new("change", ""),
        Column::new("as it is", ""),
        Column::new("tried", ""),
        Column::of("apart", Role::Impact, style),
        Column::new("nearest at", ""),
        Column::of("apart", Role::Impact, style),
    ];
    let row = |trend: &Trend| {
        let flown = || {
            trend.points.iter().filter_map(|point| {
                let [left, up] = point.shot.as_ref().ok()?.apart[mark]?;
                Some((point.value, left.hypot(up)))
            })
        };
        let number = |si: f64| Role::Impact.number(si, style);
        let mut cells = vec![Cell::text(name(&trend.key)), Cell::text(value(trend, trend.own))];
        let near = flown().min_by(|a, b| a.1.total_cmp(&b.1));
        match (flown().next(), flown().next_back(), near) {
            (Some(from), Some(to), Some(near)) => cells.extend([
                Cell::text(format!("{} to {}", bare_value(trend, from.0), value(trend, to.0))),
                Cell::text(format!("{} to {}", number(from.1), number(to.1))),
                Cell::text(value(trend, near.0)),
                Cell::text(number(near.1)),
            ]),
            _ => cells.extend([(); 4].map(|()| Cell::text("no shot"))),
        }
        cells
    };
    Table { columns, rows: build.trends.iter().map(row).collect() }
}

/// Every value of one trend.
pub(super) fn trend(tuned: &Tuned, trend: &Trend, style: Style) -> Table {
    let mut columns = vec![
        Column::new(name(&trend.key), ""),
        Column::of("speed", Role::Speed, style),
        Column::of("nose left", Role::Angle, style),
        Column::of("nose up", Role::Angle, style),
        Column::of("turning left", Role::Rate, style),
        Column::of("turning up", Role::Rate, style),
        Column::of("going left", Role::Speed, style),
        Column::of("going up", Role::Speed, style),
        Column::of("tip swings left-right", Role::Gauge, style),
        Column::of("tip swings up-down", Role::Gauge, style),
    ];
    for distance in &tuned.distances {
        let range = plain(Role::Range, distance.si(), style);
        columns.push(Column::of(format!("apart at {range}"), Role::Impact, style));
    }
    let width = columns.len();
    let row = |point: &study::TrendPoint| {
        let mut cells = vec![Cell::text(value(trend, point.value))];
        match &point.shot {
            Ok(shot) => cells.extend(shot_cells(shot, style)),
            Err(_) => cells.extend((1..width).map(|_| Cell::text("no shot"))),
        }
        cells
    };
    Table { columns, rows: trend.points.iter().map(row).collect() }
}

fn shot_cells(shot: &TrendShot, style: Style) -> Vec<Cell> {
    let d = &shot.departure;
    let mut cells: Vec<Cell> = [
        (Role::Speed, d.speed),
        (Role::Angle, d.yaw),
        (Role::Angle, d.pitch),
        (Role::Rate, d.yaw_rate),
        (Role::Rate, d.pitch_rate),
        (Role::Speed, d.velocity_left),
        (Role::Speed, d.velocity_up),
        (Role::Gauge, shot.swing[0]),
        (Role::Gauge, shot.swing[1]),
    ]
    .map(|(role, si)| Cell::number(role, si, style))
    .into();
    cells.extend(shot.apart.iter().map(|apart| match apart {
        Some([left, up]) => Cell::number(Role::Impact, left.hypot(*up), style),
        None => Cell::text(LOST),
    }));
    cells
}

/// A build's impacts less those of the first.
pub(super) fn against(tuned: &Tuned, build: &TunedBuild, style: Style) -> Table {
    let mut columns = vec![Column::of("distance", Role::Range, style)];
    for head in ["apart", "to the left", "up"] {
        columns.push(Column::of(head, Role::Impact, style));
    }
    let row = |(at, distance): (usize, &units::Length)| {
        let mut cells = vec![Cell::text(plain_number(Role::Range, distance.si(), style))];
        cells.extend(offset(build.against[at].as_ref(), style));
        cells
    };
    Table { columns, rows: tuned.distances.iter().enumerate().map(row).collect() }
}

/// How far each step of the nock moves the impact at some of the distances.
pub(super) fn nock(
    tuned: &Tuned,
    build: &TunedBuild,
    marks: std::ops::Range<usize>,
    style: Style,
) -> Table {
    let mut columns = vec![Column::new("nock turned", "deg")];
    for distance in &tuned.distances[marks.clone()] {
        let range = plain(Role::Range, distance.si(), style);
        for way in ["left", "up"] {
            columns.push(Column::of(format!("{range}, {way}"), Role::Impact, style));
        }
    }
    let row = |turn: &study::Turn| {
        let mut cells = vec![Cell::text(degrees(turn.angle))];
        for moved in &turn.moved[marks.clone()] {
            match moved {
                Some(o) => {
                    cells.extend([&o.left, &o.up].map(|part| banded(Role::Impact, part, style)));
                }
                None => cells.extend([LOST, LOST].map(Cell::text)),
            }
        }
        cells
    };
    Table { columns, rows: build.turns.steps.iter().map(row).collect() }
}

/// The arrows as built and as they leave.
pub(super) fn card(tuned: &Tuned, style: Style) -> Table {
    type Row = (&'static str, Role, fn(&TunedBuild) -> f64);
    const ROWS: [Row; 11] = [
        ("mass", Role::Mass, |b| b.built.mass.mass().si()),
        ("mass, bare", Role::Mass, |b| b.bare_mass),
        ("arrow length", Role::Part, |b| b.built.length.si()),
        ("balance point from groove", Role::Part, |b| b.built.mass.balance().si()),
        ("front of centre (FOC)", Role::Percent, |b| b.built.foc.si()),
        ("bending stiffness", Role::BendingStiffness, |b| b.built.stiffness.si()),
        ("departure speed", Role::Speed, |b| b.departure.speed),
        ("nose turning left", Role::Rate, |b| b.departure.yaw_rate),
        ("nose turning up", Role::Rate, |b| b.departure.pitch_rate),
        ("first bending mode", Role::Rate, |b| b.departure.flex.frequency[0]),
        ("tip swings left-right", Role::Gauge, |b| b.swing[0]),
    ];
    let alone = tuned.builds.len() == 1;
    let mut columns = vec![Column::new("arrow", "")];
    for build in &tuned.builds {
        columns.push(Column::new(if alone { "as built" } else { &build.name }, ""));
    }
    let row = |(head, role, read): &Row| {
        let mut cells = vec![Cell::text(*head)];
        cells.extend(tuned.builds.iter().map(|build| {
            let si = read(build);
            Cell::text(match *head {
                "first bending mode" => format!("{:.1} Hz", si / std::f64::consts::TAU),
                _ => role.text(si, style),
            })
        }));
        cells
    };
    Table { columns, rows: ROWS.iter().map(row).collect() }
}

/// The poorly known values of a build.
pub(super) fn doubts(build: &TunedBuild, style: Style) -> Table {
    let unit = "with its unit, or a pure number";
    let columns =
        vec![Column::new("value", ""), Column::new("from", unit), Column::new("to", unit)];
    let row = |doubt: &study::Doubt| {
        vec![
            Cell::text(&doubt.key),
            Cell::text(of_dimension(doubt.dimension, doubt.low, style)),
            Cell::text(of_dimension(doubt.dimension, doubt.high, style)),
        ]
    };
    Table { columns, rows: build.doubts.iter().map(row).collect() }
}
