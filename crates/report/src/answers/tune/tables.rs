//! The tables of a tuning answer.

use study::{Finding, Nearest, Offset, Trend, TrendPoint, TrendShot, Tuned, TunedBuild};
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

    /// Size of an offset, and its parts.
    fn offsets(self, size: &str, parts: bool, read: impl Fn(&T) -> Option<&Offset>) -> Self {
        self.offset(size, |o| o.size, &read)
            .offset("left", |o| o.left, &read)
            .filed_if(!parts)
            .offset("up", |o| o.up, &read)
            .filed_if(!parts)
    }

    /// A place, left and up, for files.
    fn place(self, [left, up]: [String; 2], read: impl Fn(&T) -> Option<[f64; 2]>) -> Self {
        self.quantity(left, Role::Impact, |thing| read(thing).map(|place| place[0]))
            .filed()
            .quantity(up, Role::Impact, |thing| read(thing).map(|place| place[1]))
            .filed()
    }
}

fn far([left, up]: [f64; 2]) -> f64 {
    left.hypot(up)
}

/// Bare against fletched at each distance.
pub(super) fn bare(build: &TunedBuild) -> Table {
    table_of("bare", &build.bare)
        .quantity("distance", Role::Range, |mark| mark.distance.si())
        .offsets("apart", true, |mark| mark.apart.as_ref())
        .cells("apart with tape", Kind::Quantities(Role::Impact), |mark| {
            mark.taped.map_or(LOST, |taped| Cell::Quantity(Role::Impact, far(taped)))
        })
        .place(["left", "up"].map(|way| format!("with tape {way}")), |mark| mark.taped)
        .done()
}

/// The tear at each sheet.
pub(super) fn paper(build: &TunedBuild, style: Style) -> Table {
    let vanes = build.paper.iter().map(|tear| tear.vanes.len()).max().unwrap_or(0);
    table_of("paper", &build.paper)
        .about(|tear| tear.distance.si())
        .quantity("sheet", Role::Range, |tear| tear.distance.si())
        .words("nock", |tear| {
            let nock = [tear.nock.left.value, tear.nock.up.value];
            direction(nock, style).unwrap_or_else(|| "in the hole".to_owned())
        })
        .offsets("tear", false, |tear| Some(&tear.nock))
        .quantity("nose left", Role::Angle, |tear| tear.yaw)
        .quantity("nose up", Role::Angle, |tear| tear.pitch)
        .each(0..vanes, |rows, at| {
            let head = format!("vane {}", at + 1);
            rows.quantity(head, Role::Angle, |tear| tear.vanes.get(at).copied()).filed()
        })
        .done()
}

/// To which side the bare shaft goes at each distance.
pub(super) fn side_there(build: &TunedBuild) -> Table {
    table_of("bare-left", &build.bare)
        .quantity("distance", Role::Range, |mark| mark.distance.si())
        .quantity("bare left in", Role::Percent, |mark| mark.left_in)
        .over_all()
        .words("so", |mark| mark.left_in.map_or("", side))
        .over_all()
        .done()
}

/// To which side the bare shaft goes by spine, at the mark of neutral.
pub(super) fn sides(build: &TunedBuild, mark: usize) -> Option<Table> {
    let known = |trend: &&Trend| trend.points.iter().any(|point| !point.left_in.is_empty());
    let trend = build.trends.iter().find(known)?;
    let apart = |point: &TrendPoint| point.shot.as_ref().ok()?.apart[mark];
    let left_in = |point: &TrendPoint| point.left_in.get(mark).copied().flatten();
    let table = table_of("bare-side", &trend.points)
        .words("spine", |point| value(trend, point.value))
        .cells("bare to the left", Kind::Quantities(Role::Impact), |point| {
            apart(point).map_or(LOST, |[left, _]| Cell::Quantity(Role::Impact, left))
        })
        .quantity("left in", Role::Percent, |point| left_in(point))
        .over_all()
        .words("so", |point| left_in(point).map_or("", side))
        .over_all()
        .done();
    Some(table)
}

/// A side as far as it holds over what is poorly known.
pub(super) fn side(left_in: f64) -> &'static str {
    match Finding::of_share(left_in) {
        Finding::Agrees => "left",
        Finding::LikelyAgrees => "most likely left",
        Finding::LikelyDisagrees => "most likely right",
        Finding::Disagrees => "right",
        Finding::Open | Finding::InDirection => "open",
    }
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
type ShotColumn = (&'static str, Role, fn(&TrendShot) -> f64);
const TOLD: [ShotColumn; 9] = [
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
    let own = |si| Cell::Quantity(Role::of(trend.dimension), si);
    table_of("trends", &trend.points)
        .words("value", |point| value(trend, point.value))
        .words("written", |point| &point.label)
        .filed()
        .cells("as it is", Kind::Own, |_| own(trend.own))
        .filed()
        .cells("is", Kind::Own, |point| own(point.value))
        .filed()
        .cells("mass", Kind::Quantities(Role::Mass), |point| {
            shot(point, &|shot| Cell::Quantity(Role::Mass, shot.mass))
        })
        .filed()
        .each(TOLD, |rows, (head, role, read)| {
            rows.cells(head, Kind::Quantities(role), |point| {
                shot(point, &|shot| Cell::Quantity(role, read(shot)))
            })
        })
        .each(tuned.distances.iter().enumerate(), |rows, (at, distance)| {
            let range = plain(Role::Range, distance.si(), style);
            rows.cells(format!("apart at {range}"), Kind::Quantities(Role::Impact), |point| {
                shot(point, &|shot| apart(shot, at))
            })
            .place(["left", "up"].map(|way| format!("bare {way} at {range}")), |point| {
                point.shot.as_ref().ok().and_then(|shot| shot.apart[at])
            })
        })
        .words("no shot for", |point| {
            point.shot.as_ref().err().map_or_else(String::new, ToString::to_string)
        })
        .filed()
        .done()
        .of("changed", &trend.key)
}

/// A build's impacts less those of the first.
pub(super) fn against(tuned: &Tuned, build: &TunedBuild) -> Table {
    table_of("against", tuned.distances.iter().zip(&build.against))
        .quantity("distance", Role::Range, |(distance, _)| distance.si())
        .offsets("apart", true, |(_, moved)| moved.as_ref())
        .done()
        .of("less", &tuned.builds[0].name)
}

/// How far each step of the nock moves the impact at some of the distances.
pub(super) fn nock(tuned: &Tuned, build: &TunedBuild, marks: std::ops::Range<usize>) -> Table {
    let rows = marks.flat_map(|at| build.turns.steps.iter().map(move |turn| (turn, at)));
    table_of("nock", rows)
        .quantity("nock turned", Role::Angle, |(turn, _)| turn.angle)
        .decimals(0)
        .quantity("distance", Role::Range, |(_, at)| tuned.distances[*at].si())
        .offsets("apart", true, |(turn, at)| turn.moved[*at].as_ref())
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
    let tables = [clearance(tuned), leaving(tuned), nearest(tuned), drawn(tuned)].into_iter();
    tables.filter(|table| !table.rows().is_empty())
}

/// Everything of one kind, with the build it belongs to.
fn all<'a, T: 'a, I: IntoIterator<Item = T>>(
    tuned: &'a Tuned,
    of: impl Fn(&'a TunedBuild) -> I,
) -> Vec<(&'a TunedBuild, T)> {
    let each = tuned.builds.iter().flat_map(|build| of(build).into_iter().map(move |t| (build, t)));
    each.collect()
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
        .done()
}

/// Of each value tried the one that brings bare and fletched nearest.
fn nearest(tuned: &Tuned) -> Table {
    let rows = all(tuned, |build| {
        let changes = build.neutral.iter().flat_map(|neutral| &neutral.changes);
        changes.filter_map(|change| Some((change, build.trends.get(change.trend)?)))
    });
    table_of("nearest", rows)
        .words("build", |(build, _)| &build.name)
        .words("change", |(_, (_, trend))| &trend.key)
        .cells("to", Kind::Own, |(_, (change, trend))| {
            Cell::Quantity(Role::of(trend.dimension), change.value)
        })
        .quantity("left over", Role::Impact, |(_, (change, _))| change.left_over)
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
