//! The tables of a tuning answer.

use study::{Nearest, Offset, Trend, TrendPoint, TrendShot, Tuned, TunedBuild};
use units::{Role, Style};

use super::words::{bare_value, direction, name, value};
use crate::document::{Cell, Kind, Rows, Table, table, table_of};
use crate::show::plain;

/// What stands where the bare shaft did not get.
const LOST: Cell = Cell::None("turns over");
/// What stands where a change allows no shot.
const NO_SHOT: Cell = Cell::None("no shot");

/// One part of an offset.
type Read = fn(&Offset) -> study::Banded;
const SIZE: (&str, Read) = ("size", |o| o.size);
const LEFT: (&str, Read) = ("left", |o| o.left);
const UP: (&str, Read) = ("up", |o| o.up);

impl<T> Rows<T> {
    /// A part of an offset.
    fn offset(
        self,
        head: impl Into<String>,
        part: Read,
        read: impl Fn(&T) -> Option<&Offset>,
    ) -> Self {
        self.cells(head, Kind::Bandeds(Role::Impact), |thing| {
            read(thing).map_or(LOST, |offset| Cell::Banded(Role::Impact, part(offset)))
        })
    }

    /// Left, up and size of an offset.
    fn offsets(self, read: impl Fn(&T) -> Option<&Offset>) -> Self {
        [LEFT, UP, SIZE].into_iter().fold(self, |rows, (head, part)| rows.offset(head, part, &read))
    }

    /// A place, left and up.
    fn place(self, [left, up]: [&str; 2], read: impl Fn(&T) -> Option<[f64; 2]>) -> Self {
        self.quantity(left, Role::Impact, |thing| read(thing).map(|place| place[0])).quantity(
            up,
            Role::Impact,
            |thing| read(thing).map(|place| place[1]),
        )
    }
}

fn far([left, up]: [f64; 2]) -> f64 {
    left.hypot(up)
}

/// Bare against fletched at each distance.
pub(super) fn bare(build: &TunedBuild) -> Table {
    table_of("bare-apart", &build.bare)
        .quantity("distance", Role::Range, |mark| mark.distance.si())
        .offset("apart", SIZE.1, |mark| mark.apart.as_ref())
        .offset("bare to the left", LEFT.1, |mark| mark.apart.as_ref())
        .offset("bare up", UP.1, |mark| mark.apart.as_ref())
        .cells("apart with tape", Kind::Quantities(Role::Impact), |mark| {
            mark.taped.map_or(LOST, |taped| Cell::Quantity(Role::Impact, far(taped)))
        })
        .done()
}

/// The tear at each sheet.
pub(super) fn paper(build: &TunedBuild, style: Style) -> Table {
    table_of("tears", &build.paper)
        .quantity("sheet at", Role::Range, |tear| tear.distance.si())
        .words("nock", |tear| {
            let nock = [tear.nock.left.value, tear.nock.up.value];
            direction(nock, style).unwrap_or_else(|| "in the hole".to_owned())
        })
        .banded("tear", Role::Impact, |tear| tear.nock.size)
        .quantity("nose to the left", Role::Angle, |tear| tear.yaw)
        .quantity("nose up", Role::Angle, |tear| tear.pitch)
        .done()
}

/// What each change does, one row a change, at the mark of neutral.
pub(super) fn changes(build: &TunedBuild, mark: usize) -> Table {
    let apart = |found: Option<(f64, f64)>| {
        found.map_or(NO_SHOT, |(_, apart)| Cell::Quantity(Role::Impact, apart))
    };
    let role = Kind::Quantities(Role::Impact);
    table_of("changes", &build.trends)
        .words("change", |trend| name(&trend.key))
        .words("as it is", |trend| value(trend, trend.own))
        .words("tried", |trend| match &trend.apart(mark)[..] {
            [first, .., last] => {
                format!("{} to {}", bare_value(trend, first.0), value(trend, last.0))
            }
            [only] => value(trend, only.0),
            [] => "no shot".to_owned(),
        })
        .cells("apart at the first", role, |trend| apart(trend.apart(mark).first().copied()))
        .cells("apart at the last", role, |trend| apart(trend.apart(mark).last().copied()))
        .words("nearest at", |t| {
            t.nearest(mark).map_or("no shot".to_owned(), |near| value(t, near.0))
        })
        .cells("apart there", role, |trend| apart(trend.nearest(mark)))
        .done()
}

/// What is told of the shot of a trend.
type PowerRow = (&'static str, Role, fn(&TrendShot) -> f64);
const TOLD: [PowerRow; 9] = [
    ("speed", Role::Speed, |shot| shot.departure.speed),
    ("nose left", Role::Angle, |shot| shot.departure.yaw),
    ("nose up", Role::Angle, |shot| shot.departure.pitch),
    ("turning left", Role::Rate, |shot| shot.departure.yaw_rate),
    ("turning up", Role::Rate, |shot| shot.departure.pitch_rate),
    ("going left", Role::Speed, |shot| shot.departure.velocity_left),
    ("going up", Role::Speed, |shot| shot.departure.velocity_up),
    ("tip swings left-right", Role::Gauge, |shot| shot.swing[0]),
    ("tip swings up-down", Role::Gauge, |shot| shot.swing[1]),
];

/// Every value of one trend.
pub(super) fn trend(tuned: &Tuned, trend: &Trend, style: Style) -> Table {
    let shot = |point: &&TrendPoint, of: &dyn Fn(&TrendShot) -> Cell| {
        point.shot.as_ref().map_or(NO_SHOT, of)
    };
    let apart = |shot: &TrendShot, at: usize| {
        shot.apart[at].map_or(LOST, |place| Cell::Quantity(Role::Impact, far(place)))
    };
    table_of("tried", &trend.points)
        .words("value", |point| value(trend, point.value))
        .each(TOLD, |rows, (head, role, read)| {
            rows.cells(head, Kind::Quantities(role), |point| {
                shot(point, &|shot| Cell::Quantity(role, read(shot)))
            })
        })
        .each(tuned.distances.iter().enumerate(), |rows, (at, distance)| {
            let head = format!("apart at {}", plain(Role::Range, distance.si(), style));
            rows.cells(head, Kind::Quantities(Role::Impact), |point| {
                shot(point, &|shot| apart(shot, at))
            })
        })
        .done()
        .of("changed", name(&trend.key))
}

/// A build's impacts less those of the first.
pub(super) fn against(tuned: &Tuned, build: &TunedBuild) -> Table {
    table_of("against-first", tuned.distances.iter().enumerate())
        .quantity("distance", Role::Range, |(_, distance)| distance.si())
        .offset("apart", SIZE.1, |(at, _)| build.against[*at].as_ref())
        .offset("to the left", LEFT.1, |(at, _)| build.against[*at].as_ref())
        .offset("up", UP.1, |(at, _)| build.against[*at].as_ref())
        .done()
}

/// How far each step of the nock moves the impact at some of the distances.
pub(super) fn nock(
    name: &str,
    tuned: &Tuned,
    build: &TunedBuild,
    marks: std::ops::Range<usize>,
    style: Style,
) -> Table {
    table_of(name, &build.turns.steps)
        .quantity("nock turned", Role::Angle, |turn| turn.angle)
        .decimals(0)
        .each(marks, |rows, at| {
            let range = plain(Role::Range, tuned.distances[at].si(), style);
            rows.offset(format!("{range}, left"), LEFT.1, |turn| turn.moved[at].as_ref()).offset(
                format!("{range}, up"),
                UP.1,
                |turn| turn.moved[at].as_ref(),
            )
        })
        .done()
        .of("build", &build.name)
}

/// The arrows as built and as they leave.
pub(super) fn card(builds: &[TunedBuild]) -> Table {
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
        ("first bending mode", Role::Spin, |b| b.departure.flex.frequency[0]),
        ("tip swings left-right", Role::Gauge, |b| b.swing[0]),
    ];
    let alone = builds.len() == 1;
    let name = |build: &TunedBuild| if alone { "as built".to_owned() } else { build.name.clone() };
    let mut columns = vec![("arrow".to_owned(), Kind::Words)];
    columns.extend(builds.iter().map(|build| (name(build), Kind::Own)));
    let row = |(head, role, read): &Row| {
        let cells = builds.iter().map(|build| Cell::Quantity(*role, read(build)));
        std::iter::once(Cell::from(*head)).chain(cells).collect()
    };
    table("arrows", columns, ROWS.iter().map(row).collect())
}

/// What only files hold.
pub(super) fn data(tuned: &Tuned) -> impl Iterator<Item = Table> {
    [
        bare_data(tuned),
        clearance(tuned),
        nock_data(tuned),
        paper_data(tuned),
        trends(tuned),
        against_data(tuned),
        leaving(tuned),
        refused(tuned),
        drawn(tuned),
    ]
    .into_iter()
    .filter(|table| !table.rows().is_empty())
}

/// Everything of one kind, with the build it belongs to.
fn all<'a, T: 'a, I: IntoIterator<Item = T>>(
    tuned: &'a Tuned,
    of: impl Fn(&'a TunedBuild) -> I,
) -> Vec<(&'a TunedBuild, T)> {
    let each = tuned.builds.iter().flat_map(|build| of(build).into_iter().map(move |t| (build, t)));
    each.collect()
}

fn bare_data(tuned: &Tuned) -> Table {
    table_of("bare", all(tuned, |build| &build.bare))
        .words("build", |(build, _)| &build.name)
        .quantity("distance", Role::Range, |(_, mark)| mark.distance.si())
        .offsets(|(_, mark)| mark.apart.as_ref())
        .place(["with tape left", "with tape up"], |(_, mark)| mark.taped)
        .done()
}

fn paper_data(tuned: &Tuned) -> Table {
    table_of("paper", all(tuned, |build| &build.paper))
        .words("build", |(build, _)| &build.name)
        .quantity("sheet", Role::Range, |(_, tear)| tear.distance.si())
        .offsets(|(_, tear)| Some(&tear.nock))
        .quantity("nose left", Role::Angle, |(_, tear)| tear.yaw)
        .quantity("nose up", Role::Angle, |(_, tear)| tear.pitch)
        .each(
            0..tuned.builds.iter().flat_map(|b| &b.paper).map(|t| t.vanes.len()).max().unwrap_or(0),
            |rows, at| {
                rows.quantity(format!("vane {}", at + 1), Role::Angle, |(_, tear)| {
                    tear.vanes.get(at).copied()
                })
            },
        )
        .done()
}

fn trends(tuned: &Tuned) -> Table {
    let rows = all(tuned, |build| {
        let mut rows = Vec::new();
        for trend in &build.trends {
            for point in &trend.points {
                let Ok(shot) = &point.shot else { continue };
                let marks = tuned.distances.iter().zip(&shot.apart);
                rows.extend(marks.map(|(distance, apart)| (trend, point, shot, distance, *apart)));
            }
        }
        rows
    });
    let heads = ["speed", "yaw", "pitch", "yaw rate", "pitch rate", "going left", "going up"];
    let named = heads.into_iter().chain(TOLD[7..].iter().map(|told| told.0)).zip(TOLD);
    table_of("trends", rows)
        .words("build", |(build, _)| &build.name)
        .words("changed", |(_, r)| &r.0.key)
        .words("value", |(_, r)| &r.1.label)
        .cells("as it is", Kind::Own, |(_, r)| Cell::Quantity(Role::of(r.0.dimension), r.0.own))
        .cells("is", Kind::Own, |(_, r)| Cell::Quantity(Role::of(r.0.dimension), r.1.value))
        .quantity("mass", Role::Mass, |(_, r)| r.2.mass)
        .each(named, |rows, (head, (_, role, read))| rows.quantity(head, role, |(_, r)| read(r.2)))
        .quantity("distance", Role::Range, |(_, r)| r.3.si())
        .place(["bare left", "bare up"], |(_, r)| r.4)
        .done()
}

fn against_data(tuned: &Tuned) -> Table {
    let first = tuned.builds.first().map_or("", |build| build.name.as_str());
    let rows = all(tuned, |build| tuned.distances.iter().zip(&build.against));
    table_of("against", rows)
        .words("build", |(build, _)| &build.name)
        .words("less", |_| first)
        .quantity("distance", Role::Range, |(_, (distance, _))| distance.si())
        .offsets(|(_, (_, moved))| moved.as_ref())
        .done()
}

fn nock_data(tuned: &Tuned) -> Table {
    let rows = all(tuned, |build| {
        let mut rows = Vec::new();
        for turn in &build.turns.steps {
            let marks = tuned.distances.iter().zip(&turn.moved);
            rows.extend(marks.map(|(distance, moved)| (turn, distance, moved.as_ref())));
        }
        rows
    });
    table_of("nock", rows)
        .words("build", |(build, _)| &build.name)
        .quantity("nock turned", Role::Angle, |(_, r)| r.0.angle)
        .quantity("distance", Role::Range, |(_, r)| r.1.si())
        .offsets(|(_, r)| r.2)
        .done()
}

fn clearance(tuned: &Tuned) -> Table {
    let rows = all(tuned, |build| {
        let found = [("riser", build.clearance.riser), ("rest", build.clearance.rest)];
        found.into_iter().filter_map(|(what, nearest)| Some((what, nearest?)))
    });
    table_of::<(&TunedBuild, (&str, Nearest))>("clearance", rows)
        .words("build", |(build, _)| &build.name)
        .words("to", |(_, (what, _))| *what)
        .banded("room", Role::Part, |(_, (_, found))| found.gap)
        .quantity("nock moved", Role::Part, |(_, (_, found))| found.travel)
        .quantity("ahead of groove", Role::Part, |(_, (_, found))| found.station)
        .quantity("vane", Role::Angle, |(_, (_, found))| found.clock)
        .words("string has let go", |(_, (_, found))| if found.after { "yes" } else { "no" })
        .done()
}

/// Values that were tried and allowed no shot.
fn refused(tuned: &Tuned) -> Table {
    let rows = all(tuned, |build| {
        build.trends.iter().flat_map(|trend| {
            trend
                .points
                .iter()
                .filter_map(move |point| Some((trend, point, point.shot.as_ref().err()?)))
        })
    });
    table_of("refused", rows)
        .words("build", |(build, _)| &build.name)
        .words("changed", |(_, r)| &r.0.key)
        .cells("to", Kind::Own, |(_, r)| Cell::Quantity(Role::of(r.0.dimension), r.1.value))
        .words("why", |(_, r)| r.2.to_string())
        .done()
}

/// How each arrow leaves.
fn leaving(tuned: &Tuned) -> Table {
    const HEADS: [(&str, Role); 7] = [
        ("departure speed", Role::Speed),
        ("going left", Role::Speed),
        ("going up", Role::Speed),
        ("nose left", Role::Angle),
        ("nose up", Role::Angle),
        ("turning left", Role::Rate),
        ("turning up", Role::Rate),
    ];
    table_of("departure", &tuned.builds)
        .words("build", |build| &build.name)
        .each(HEADS.into_iter().enumerate(), |rows, (at, (head, role))| {
            rows.quantity(head, role, |build| study::leaving(&build.departure)[at])
        })
        .quantity("tip swings left-right", Role::Gauge, |build| build.swing[0])
        .quantity("tip swings up-down", Role::Gauge, |build| build.swing[1])
        .quantity("shaft radius", Role::Part, |build| build.shaft_radius)
        .quantity("vane radius", Role::Part, |build| build.vane_radius)
        .words("nearest with", |build| super::words::change(build).map_or("", |(_, t)| &t.key))
        .offsets(|build| Some(&super::words::change(build)?.0.left_over))
        .done()
}

/// What turning the nock does to arrows as they are drawn.
fn drawn(tuned: &Tuned) -> Table {
    let rows = all(tuned, |build| tuned.distances.iter().zip(build.turns.drawn.iter().flatten()));
    table_of("nock-drawn", rows)
        .words("build", |(build, _)| &build.name)
        .quantity("distance", Role::Range, |(_, (distance, _))| distance.si())
        .quantity("widest, median arrow", Role::Impact, |(_, (_, widest))| **widest)
        .done()
}
