//! The tables.

use study::{MarkChange, Passing, SightMarks, TwigAnswer};
use units::{Role, Style};

use super::mm;
use super::say::{tenth, up_or_down};
use crate::show::{plain, plain_number};
use crate::table::{Cell, Column, Table};

/// The marks: one row a distance.
pub(super) fn marks(marks: &SightMarks, style: Style) -> Table {
    let banded = !marks.doubts.is_empty();
    let clicks = marks.plan.click.is_some();
    let of = |head: &str, role: Role| Column::of(head, role, style);
    let mut columns = vec![of("distance", Role::Range), Column::new("mark", "mm")];
    if banded {
        columns.push(Column::new("mark band", "mm"));
    }
    if clicks {
        columns.push(Column::new("clicks", ""));
    }
    columns.extend([
        of("above sight", Role::Impact),
        of("drop", Role::Impact),
        of("highest", Role::Impact),
        of("highest at", Role::Range),
    ]);
    let row = |row: &study::MarkRow| {
        let height = |value: f64| Cell::text(even(Role::Impact, value, style));
        let mut cells = vec![
            Cell::text(plain_number(Role::Range, row.distance, style)),
            Cell::text(mm(row.travel.value)),
        ];
        if banded {
            cells.push(Cell::text(format!("{} to {}", mm(row.travel.low), mm(row.travel.high))));
        }
        if let Some(clicks) = row.clicks {
            cells.push(Cell::text(format!("{:.0}", clicks.round() + 0.0)));
        }
        cells.extend([
            height(row.above_sight),
            height(row.drop),
            height(row.apex),
            Cell::text(tenth(row.apex_at, style)),
        ]);
        cells
    };
    Table { columns, rows: marks.rows.iter().map(row).collect() }
}

/// The flight: one row a distance.
pub(super) fn flight(marks: &SightMarks, style: Style) -> Table {
    let of = |head: &str, role: Role| Column::of(head, role, style);
    let columns = vec![
        of("distance", Role::Range),
        of("time", Role::Time),
        of("speed", Role::Speed),
        of("energy", Role::Energy),
        of("momentum", Role::Momentum),
        of("drift", Role::Impact),
        Column::new("arrives", "deg"),
    ];
    let row = |row: &study::MarkRow| {
        let number = |role: Role, value: f64| Cell::number(role, value, style);
        vec![
            Cell::text(plain_number(Role::Range, row.distance, style)),
            number(Role::Time, row.time),
            number(Role::Speed, row.speed),
            number(Role::Energy, row.energy),
            number(Role::Momentum, row.momentum),
            Cell::text(even(Role::Impact, row.drift, style)),
            Cell::text(format!("{:.2}", row.path_pitch.to_degrees())),
        ]
    };
    Table { columns, rows: marks.rows.iter().map(row).collect() }
}

/// How far over or under to hold each pin, and the point.
pub(super) fn holds(marks: &SightMarks, style: Style) -> Table {
    let mut columns = vec![Column::of("distance", Role::Range, style)];
    for pin in &marks.pins {
        let name = format!("{} pin", plain(Role::Range, pin.zero, style));
        columns.push(Column::of(name, Role::Impact, style));
    }
    if marks.point_on.is_some() {
        columns.push(Column::of("arrow's point", Role::Impact, style));
    }
    let row = |row: &study::MarkRow| {
        let mut cells = vec![Cell::text(plain_number(Role::Range, row.distance, style))];
        let holds = row.holds.iter().copied().chain(row.point_hold);
        cells.extend(holds.map(|hold| Cell::text(signed(hold, style))));
        cells
    };
    Table { columns, rows: marks.rows.iter().map(row).collect() }
}

/// The fixed pins.
pub(super) fn pins(marks: &SightMarks, style: Style) -> Table {
    let columns = vec![
        Column::of("pin", Role::Range, style),
        Column::new("above the arrow", "mm"),
        Column::new("below the pin before", "mm"),
        Column::of("right at", Role::Range, style),
    ];
    let before = std::iter::once(None).chain(marks.pins.iter().map(Some));
    let row = |(pin, before): (&study::Pin, Option<&study::Pin>)| {
        vec![
            Cell::text(plain_number(Role::Range, pin.zero, style)),
            Cell::text(mm(pin.height)),
            Cell::text(before.map_or_else(|| "-".to_owned(), |b| mm(b.height - pin.height))),
            Cell::text(pin.twin.map_or_else(
                || plain_number(Role::Range, pin.zero, style),
                |twin| {
                    let own = plain_number(Role::Range, pin.zero, style);
                    format!("{own} and {}", tenth(twin, style))
                },
            )),
        ]
    };
    Table { columns, rows: marks.pins.iter().zip(before).map(row).collect() }
}

/// A table with a row a slope and a column a place.
fn slopes(
    marks: &SightMarks,
    (role, style): (Role, Style),
    cell: impl Fn(&study::HillShot) -> String,
) -> Table {
    let mut columns = vec![Column::new("slope", "")];
    for place in &marks.plan.places {
        let at = format!("at {}", plain(Role::Range, place.si(), style));
        columns.push(Column::of(at, role, style));
    }
    let row = |hill: &study::Hill| {
        let shots = hill.shots.iter().map(|shot| Cell::text(cell(shot)));
        std::iter::once(Cell::text(up_or_down(hill.slope))).chain(shots).collect()
    };
    Table { columns, rows: marks.hills.iter().map(row).collect() }
}

/// What to dial on a slope.
pub(super) fn dial(marks: &SightMarks, style: Style) -> Table {
    slopes(marks, (Role::Range, style), |shot| {
        shot.dial.map_or_else(|| "-".to_owned(), |dial| tenth(dial, style))
    })
}

/// Where the arrow goes when the cosine rule is dialled.
pub(super) fn cosine(marks: &SightMarks, style: Style) -> Table {
    slopes(marks, (Role::Impact, style), |shot| signed(shot.cosine_miss, style))
}

/// Where it goes when the slope is left out.
pub(super) fn ignored(marks: &SightMarks, style: Style) -> Table {
    slopes(marks, (Role::Impact, style), |shot| signed(shot.slope_miss, style))
}

/// One changed value.
pub(super) fn change(marks: &SightMarks, change: &MarkChange, style: Style) -> Table {
    let mut columns = vec![
        Column::new(crate::words::value(&change.key), ""),
        Column::of("speed", Role::Speed, style),
    ];
    for place in &marks.plan.places {
        let at = format!("at {}", plain(Role::Range, place.si(), style));
        columns.push(Column::of(at, Role::Impact, style));
    }
    columns.push(Column::new("mark, zero anew", "mm"));
    let row = |value: &study::ChangeValue| {
        let mut cells =
            vec![Cell::text(&value.label), Cell::number(Role::Speed, value.speed, style)];
        let shifts = value.shifts.iter();
        cells.extend(shifts.map(|shift| Cell::text(signed(*shift, style))));
        let last = value.rezeroed.last().copied().unwrap_or_default();
        cells.push(Cell::text(plus(mm(last))));
        cells
    };
    Table { columns, rows: change.values.iter().map(row).collect() }
}

/// The way past twigs.
pub(super) fn twigs(marks: &SightMarks, style: Style) -> Table {
    let mut columns =
        vec![Column::of("at", Role::Range, style), Column::of("height", Role::Impact, style)];
    for place in &marks.plan.places {
        let range = plain(Role::Range, place.si(), style);
        columns.push(Column::of(format!("shot at {range}"), Role::Impact, style));
    }
    let row = |answer: &TwigAnswer| {
        let mut cells = vec![
            Cell::text(plain_number(Role::Range, answer.twig.distance.si(), style)),
            Cell::text(signed(answer.twig.height.si(), style)),
        ];
        cells.extend(answer.over.iter().map(|over| {
            Cell::text(over.map_or_else(
                || "-".to_owned(),
                |over| {
                    let size = tenth_impact(over.abs(), style);
                    match answer.passing(over) {
                        Passing::Over => format!("{size} over"),
                        Passing::Under => format!("{size} under"),
                        Passing::Touching => "touches".to_owned(),
                    }
                },
            ))
        }));
        cells
    };
    Table { columns, rows: marks.twigs.iter().map(row).collect() }
}

/// The gap between arc and line of sight at every distance.
pub(super) fn gaps(marks: &SightMarks, style: Style) -> Table {
    let mut columns = vec![Column::of("at", Role::Range, style)];
    for arc in &marks.arcs {
        let range = plain(Role::Range, arc.distance, style);
        columns.push(Column::of(format!("shot at {range}"), Role::Impact, style));
    }
    let row = |(at, row): (usize, &study::MarkRow)| {
        let mut cells = vec![Cell::text(plain_number(Role::Range, row.distance, style))];
        let gap = |arc: &study::Arc| arc.gaps.get(at).copied().flatten();
        cells.extend(marks.arcs.iter().map(|arc| {
            let gap = gap(arc).map(|gap| signed(gap, style));
            Cell::text(gap.unwrap_or_else(|| "-".to_owned()))
        }));
        cells
    };
    Table { columns, rows: marks.rows.iter().enumerate().map(row).collect() }
}

/// A number with the decimals of its role, however small, so that a column
/// stands even.
fn even(role: Role, si: f64, style: Style) -> String {
    role.rounded(si, role.unit(style).1, style)
}

/// An impact to a tenth.
fn tenth_impact(si: f64, style: Style) -> String {
    Role::Impact.rounded(si, 1, style)
}

/// The same with its sign, a plus too.
fn signed(si: f64, style: Style) -> String {
    plus(tenth_impact(si, style))
}

fn plus(number: String) -> String {
    let nothing = number.bytes().all(|b| matches!(b, b'0' | b'.'));
    if nothing || number.starts_with('-') { number } else { format!("+{number}") }
}
