//! The tables.

use study::{MarkChange, MarkRow, ObstacleClearance, Passing, SightMarks};
use units::{Role, Style};

use crate::document::{Cell, Kind, Table, facts, table_of};
use crate::show::plain;
use crate::words::value;

/// Decimals of a height, however small, so that a column stands even.
fn even(style: Style) -> usize {
    Role::Impact.unit(style).1
}

/// The marks: one row a distance.
pub(super) fn marks(marks: &SightMarks, style: Style) -> Table {
    table_of("marks-sight", &marks.rows)
        .quantity("distance", Role::Range, |r| r.distance)
        .quantity("mark", Role::Sight, |r| r.travel.value)
        .when(!marks.uncertain.is_empty(), |t| {
            t.band("mark band", Role::Sight, |r| (r.travel.low, r.travel.high))
        })
        .when(marks.plan.click.is_some(), |t| {
            t.quantity("clicks", Role::Number, |r| r.clicks).decimals(0)
        })
        .quantity("above sight", Role::Impact, |r| r.above_sight)
        .decimals(even(style))
        .quantity("drop", Role::Impact, |r| r.drop)
        .decimals(even(style))
        .quantity("highest", Role::Impact, |r| r.apex)
        .decimals(even(style))
        .quantity("highest at", Role::Range, |r| r.apex_at)
        .decimals(1)
        .done()
}

/// The flight: one row a distance.
pub(super) fn flight(marks: &SightMarks, style: Style) -> Table {
    table_of("marks-flight", &marks.rows)
        .quantity("distance", Role::Range, |r| r.distance)
        .quantity("time", Role::Time, |r| r.time)
        .quantity("speed", Role::Speed, |r| r.speed)
        .quantity("energy", Role::Energy, |r| r.energy)
        .quantity("momentum", Role::Momentum, |r| r.momentum)
        .quantity("drift", Role::Impact, |r| r.drift)
        .decimals(even(style))
        .quantity("arrives", Role::Angle, |r| r.path_pitch)
        .decimals(2)
        .done()
}

/// How far over or under to hold each pin, and the point.
pub(super) fn holds(marks: &SightMarks, style: Style) -> Table {
    table_of("marks-holds", &marks.rows)
        .quantity("distance", Role::Range, |r| r.distance)
        .each(marks.pins.iter().enumerate(), |t, (at, pin)| {
            let head = format!("{} pin", plain(Role::Range, pin.zero, style));
            t.quantity(head, Role::Impact, |r| r.holds[at]).decimals(1).signed()
        })
        .when(marks.point_on.is_some(), |t| {
            t.quantity("arrow's point", Role::Impact, |r| r.point_hold).decimals(1).signed()
        })
        .done()
}

/// The fixed pins.
pub(super) fn pins(marks: &SightMarks) -> Table {
    let before = std::iter::once(None).chain(marks.pins.iter().map(Some));
    table_of("pins", marks.pins.iter().zip(before))
        .quantity("pin", Role::Range, |(pin, _)| pin.zero)
        .quantity("above the arrow", Role::Sight, |(pin, _)| pin.height)
        .quantity("below the pin before", Role::Sight, |(pin, before)| {
            before.map(|before| before.height - pin.height)
        })
        .quantity("right too at", Role::Range, |(pin, _)| pin.twin)
        .decimals(1)
        .done()
}

/// What to dial on a slope: a row a slope and a column a place.
pub(super) fn dial(marks: &SightMarks, style: Style) -> Table {
    table_of("slopes-dial", &marks.hills)
        .quantity("slope", Role::Angle, |hill| hill.slope)
        .decimals(1)
        .signed()
        .each(places(marks, style), |t, (at, head)| {
            let dial = |dial| Cell::Quantity(Role::Range, dial);
            t.cells(head, Kind::Quantities(Role::Range), |hill| {
                hill.shots[at].dial.map_or(Cell::None("none"), dial)
            })
            .decimals(1)
        })
        .done()
}

/// Where the arrow goes when something else is dialled on a slope.
pub(super) fn missed(
    name: &str,
    marks: &SightMarks,
    style: Style,
    read: fn(&study::SlopeShot) -> f64,
) -> Table {
    table_of(name, &marks.hills)
        .quantity("slope", Role::Angle, |hill| hill.slope)
        .decimals(1)
        .signed()
        .each(places(marks, style), |t, (at, head)| {
            t.quantity(head, Role::Impact, |hill| read(&hill.shots[at])).decimals(1).signed()
        })
        .done()
}

/// Each place with the head of its column.
fn places(marks: &SightMarks, style: Style) -> impl Iterator<Item = (usize, String)> {
    let head = move |place: &units::Length| format!("at {}", plain(Role::Range, place.si(), style));
    marks.plan.places.iter().map(head).enumerate()
}

/// One changed value.
pub(super) fn change(marks: &SightMarks, change: &MarkChange, style: Style) -> Table {
    table_of(format!("changes-{}", change.key.replace('.', "-")), &change.values)
        .words(value(&change.key), |v| &v.label)
        .quantity("speed", Role::Speed, |v| v.speed)
        .each(places(marks, style), |t, (at, head)| {
            t.quantity(head, Role::Impact, |v| v.shifts[at]).decimals(1).signed()
        })
        .quantity("mark with zero anew", Role::Sight, |v| v.rezeroed.last().copied())
        .signed()
        .done()
}

/// The way past twigs.
pub(super) fn passing(marks: &SightMarks, style: Style) -> Table {
    let cell = |answer: &ObstacleClearance, at: usize| match answer.over[at] {
        None => Cell::None(""),
        Some(over) if answer.passing(over) == Passing::Touching => "touches".into(),
        Some(over) => Cell::Quantity(Role::Impact, over),
    };
    table_of("twigs-passed", &marks.twigs)
        .quantity("at", Role::Range, |answer| answer.twig.distance.si())
        .quantity("height", Role::Impact, |answer| answer.twig.height.si())
        .decimals(1)
        .signed()
        .each(marks.plan.places.iter().enumerate(), |t, (at, place)| {
            let head = format!("shot at {}", plain(Role::Range, place.si(), style));
            t.cells(head, Kind::Quantities(Role::Impact), |answer| cell(answer, at))
                .decimals(1)
                .signed()
        })
        .done()
}

/// The gap between arc and line of sight at every distance.
pub(super) fn gaps(marks: &SightMarks, style: Style) -> Table {
    table_of("gaps", marks.rows.iter().enumerate())
        .quantity("at", Role::Range, |(_, row)| row.distance)
        .each(&marks.arcs, |t, arc| {
            let head = format!("shot at {}", plain(Role::Range, arc.distance, style));
            t.quantity(head, Role::Impact, |(at, _)| arc.gaps.get(*at).copied().flatten())
                .decimals(1)
                .signed()
        })
        .done()
}

/// A column of the rows.
type Field = (&'static str, Role, fn(&MarkRow) -> f64);

const FIELDS: [Field; 12] = [
    ("launch above line to target", Role::Angle, |r| r.launch),
    ("line of sight below arrow", Role::Angle, |r| r.depression),
    ("drop", Role::Impact, |r| r.drop),
    ("above sight", Role::Impact, |r| r.above_sight),
    ("time", Role::Time, |r| r.time),
    ("speed", Role::Speed, |r| r.speed),
    ("energy", Role::Energy, |r| r.energy),
    ("momentum", Role::Momentum, |r| r.momentum),
    ("drift", Role::Impact, |r| r.drift),
    ("path pitch", Role::Angle, |r| r.path_pitch),
    ("highest", Role::Impact, |r| r.apex),
    ("highest at", Role::Range, |r| r.apex_at),
];

/// All of every mark.
fn rows(marks: &SightMarks, style: Style) -> Table {
    table_of("marks", &marks.rows)
        .quantity("distance", Role::Range, |r| r.distance)
        .quantity("pin above arrow", Role::Sight, |r| r.pin)
        .quantity("mark below zero", Role::Sight, |r| r.travel.value)
        .quantity("mark low", Role::Sight, |r| r.travel.low)
        .quantity("mark high", Role::Sight, |r| r.travel.high)
        .quantity("clicks", Role::Number, |r| r.clicks)
        .each(FIELDS, |t, (head, role, read)| t.quantity(head, role, |r| read(r)))
        .each(marks.pins.iter().enumerate(), |t, (at, pin)| {
            let head = format!("hold {} pin", plain(Role::Range, pin.zero, style));
            t.quantity(head, Role::Impact, |r| r.holds[at])
        })
        .quantity("hold point", Role::Impact, |r| r.point_hold)
        .done()
}

/// The tables that only files hold.
pub(super) fn data(marks: &SightMarks, style: Style) -> Vec<Table> {
    let mut tables = vec![setup(marks), rows(marks, style), arcs(marks)];
    if !marks.hills.is_empty() {
        tables.push(slopes(marks));
    }
    if !marks.changes.is_empty() {
        tables.extend([changes(marks), changed(marks)]);
    }
    if !marks.twigs.is_empty() {
        tables.extend([twigs(marks), reaches(marks)]);
    }
    if !marks.uncertain.is_empty() {
        let uncertain = table_of("doubts", &marks.uncertain)
            .words("key", |doubt| &doubt.key)
            .cells("range", Kind::Own, |d| Cell::Band(Role::of(d.dimension), d.low, d.high));
        tables.push(uncertain.done());
    }
    tables
}

/// What the marks hold for.
fn setup(marks: &SightMarks) -> Table {
    let geometry = marks.sighting.geometry();
    let mut rows = vec![
        ("zero", Role::Range, marks.zero.si()),
        ("eye above arrow", Role::Part, geometry.height()),
        ("eye to pin", Role::Part, geometry.radius()),
        ("highest mark at", Role::Range, marks.sighting.top()),
        ("crosswind", Role::Wind, marks.plan.crosswind.si()),
        ("arrow mass", Role::Mass, marks.built.mass.mass().si()),
        ("departure speed", Role::Speed, marks.departure.speed),
    ];
    rows.extend(marks.plan.click.map(|click| ("click", Role::Sight, click.si())));
    let point_on = marks.point_on.and_then(|point| point.distance);
    rows.extend(point_on.map(|at| ("point-on", Role::Range, at)));
    facts(
        "setup",
        ["of the sight", "value"],
        rows.into_iter().map(|(name, role, si)| (name, Cell::Quantity(role, si))),
    )
}

fn arcs(marks: &SightMarks) -> Table {
    let all = marks.arcs.iter().flat_map(|arc| arc.points.iter().map(move |p| (arc, *p)));
    table_of("arcs", all)
        .quantity("target", Role::Range, |(arc, _)| arc.distance)
        .quantity("distance", Role::Range, |(_, (at, _))| *at)
        .quantity("above line of sight", Role::Impact, |(_, (_, above))| *above)
        .done()
}

fn slopes(marks: &SightMarks) -> Table {
    let all = marks.hills.iter().flat_map(|hill| hill.shots.iter().map(move |s| (hill.slope, s)));
    table_of("slopes", all)
        .quantity("slope", Role::Angle, |(slope, _)| *slope)
        .quantity("distance", Role::Range, |(_, s)| s.distance)
        .quantity("dial", Role::Range, |(_, s)| s.dial)
        .quantity("pin above arrow", Role::Sight, |(_, s)| s.pin)
        .quantity("cosine distance", Role::Range, |(_, s)| s.cosine)
        .quantity("high with cosine distance", Role::Impact, |(_, s)| s.cosine_miss)
        .quantity("high with slope distance", Role::Impact, |(_, s)| s.slope_miss)
        .quantity("high with highest mark", Role::Impact, |(_, s)| s.least_miss)
        .done()
}

/// Every changed value at every place.
fn changes(marks: &SightMarks) -> Table {
    let values = marks.changes.iter().flat_map(|c| c.values.iter().map(move |v| (c, v)));
    let places = || marks.plan.places.iter().enumerate();
    let all = values.flat_map(|(c, v)| places().map(move |place| (c, v, place)));
    table_of("changes", all)
        .words("changed", |(change, ..)| &change.key)
        .words("to", |(_, v, _)| &v.label)
        .quantity("speed", Role::Speed, |(_, v, _)| v.speed)
        .quantity("distance", Role::Range, |(.., (_, place))| place.si())
        .quantity("high with old mark", Role::Impact, |(_, v, (at, _))| v.shifts[*at])
        .quantity("mark moves down", Role::Sight, |(_, v, (at, _))| v.moves[*at])
        .quantity("mark moves down with zero set anew", Role::Sight, |(_, v, (at, _))| {
            v.rezeroed[*at]
        })
        .done()
}

/// The changed values as numbers.
fn changed(marks: &SightMarks) -> Table {
    let values = marks.changes.iter().flat_map(|c| c.values.iter().map(move |v| (c, v)));
    table_of("changed", values)
        .words("changed", |(change, _)| &change.key)
        .words("to", |(_, v)| &v.label)
        .cells("value", Kind::Own, |(c, v)| Cell::Quantity(Role::of(c.dimension), v.value))
        .done()
}

fn twigs(marks: &SightMarks) -> Table {
    let all = marks.twigs.iter().flat_map(|answer| {
        let places = marks.plan.places.iter().zip(&answer.over);
        places.filter_map(move |(place, over)| Some((answer, place, (*over)?)))
    });
    table_of("twigs", all)
        .quantity("twig at", Role::Range, |(answer, ..)| answer.twig.distance.si())
        .quantity("twig above line of sight", Role::Impact, |(answer, ..)| answer.twig.height.si())
        .quantity("target", Role::Range, |(_, place, _)| place.si())
        .quantity("arrow above twig", Role::Impact, |(.., over)| *over)
        .words("passes", |(answer, _, over)| match answer.passing(*over) {
            Passing::Over => "over",
            Passing::Under => "under",
            Passing::Touching => "touches",
        })
        .done()
}

/// The room that the arrow takes at each twig.
fn reaches(marks: &SightMarks) -> Table {
    table_of("twigs-reach", &marks.twigs)
        .quantity("twig at", Role::Range, |answer| answer.twig.distance.si())
        .quantity("reach", Role::Impact, |answer| answer.reach)
        .done()
}
