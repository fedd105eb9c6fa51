//! The tables.

use study::{MarkChange, Passing, SightMarks};
use units::{Role, Style};

use super::super::common::uncertain;
use crate::document::{Cell, Kind, Table, facts, table_of};
use crate::show::plain;

/// Decimals of a height, however small, so that a column stands even.
fn even(style: Style) -> usize {
    Role::Impact.unit(style).1
}

/// The marks, the flight, and how far over or under to hold each pin and the
/// point: one row a distance.
pub(super) fn marks(marks: &SightMarks, style: Style) -> Table {
    table_of("marks", &marks.rows)
        .quantity("distance", Role::Range, |r| r.distance)
        .quantity("mark", Role::Sight, |r| r.travel.value)
        .quantity("clicks", Role::Number, |r| r.clicks)
        .decimals(0)
        .filed_if(marks.plan.click.is_none())
        .quantity("above sight", Role::Impact, |r| r.above_sight)
        .decimals(even(style))
        .quantity("drop", Role::Impact, |r| r.drop)
        .decimals(even(style))
        .quantity("highest", Role::Impact, |r| r.apex)
        .decimals(even(style))
        .quantity("highest at", Role::Range, |r| r.apex_at)
        .decimals(1)
        .quantity("time", Role::Time, |r| r.time)
        .quantity("speed", Role::Speed, |r| r.speed)
        .quantity("energy", Role::Energy, |r| r.energy)
        .quantity("momentum", Role::Momentum, |r| r.momentum)
        .quantity("drift", Role::Impact, |r| r.drift)
        .decimals(even(style))
        .quantity("arrives", Role::Angle, |r| r.path_pitch)
        .decimals(2)
        .each(marks.pins.iter().enumerate(), |t, (at, pin)| {
            let head = format!("hold {} pin", plain(Role::Range, pin.zero, style));
            t.quantity(head, Role::Impact, |r| r.holds[at]).decimals(1).signed()
        })
        .quantity("hold point", Role::Impact, |r| r.point_hold)
        .decimals(1)
        .signed()
        .filed_if(marks.point_on.is_none())
        .quantity("pin above arrow", Role::Sight, |r| r.pin)
        .filed()
        .quantity("launch above line to target", Role::Angle, |r| r.launch)
        .filed()
        .quantity("line of sight below arrow", Role::Angle, |r| r.depression)
        .filed()
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

/// What to dial on a slope, and where the arrow goes when something else is.
pub(super) fn slopes(marks: &SightMarks) -> Table {
    let all = marks.hills.iter().flat_map(|hill| hill.shots.iter().map(move |s| (hill.slope, s)));
    let dial = |dial| Cell::Quantity(Role::Range, dial);
    table_of("slopes", all)
        .quantity("slope", Role::Angle, |(slope, _)| *slope)
        .decimals(1)
        .signed()
        .quantity("distance", Role::Range, |(_, s)| s.distance)
        .cells("dial", Kind::Quantities(Role::Range), |(_, s)| {
            s.dial.map_or(Cell::None("none"), dial)
        })
        .decimals(1)
        .quantity("pin above arrow", Role::Sight, |(_, s)| s.pin)
        .filed()
        .quantity("cosine distance", Role::Range, |(_, s)| s.cosine)
        .decimals(1)
        .quantity("high with cosine distance", Role::Impact, |(_, s)| s.cosine_miss)
        .decimals(1)
        .signed()
        .quantity("high with slope distance", Role::Impact, |(_, s)| s.slope_miss)
        .decimals(1)
        .signed()
        .quantity("high with highest mark", Role::Impact, |(_, s)| s.least_miss)
        .filed()
        .done()
}

/// One changed value at every place.
pub(super) fn change(marks: &SightMarks, change: &MarkChange) -> Table {
    let places = || marks.plan.places.iter().enumerate();
    let all = change.values.iter().flat_map(|v| places().map(move |place| (v, place)));
    table_of("changes", all)
        .words("to", |(v, _)| &v.label)
        .cells("value", Kind::Own, |(v, _)| Cell::Quantity(Role::of(change.dimension), v.value))
        .filed()
        .quantity("speed", Role::Speed, |(v, _)| v.speed)
        .quantity("distance", Role::Range, |(_, (_, place))| place.si())
        .quantity("high with old mark", Role::Impact, |(v, (at, _))| v.shifts[*at])
        .decimals(1)
        .signed()
        .quantity("mark moves down", Role::Sight, |(v, (at, _))| v.moves[*at])
        .signed()
        .quantity("mark moves down with zero set anew", Role::Sight, |(v, (at, _))| v.rezeroed[*at])
        .signed()
        .done()
        .of("changed", &change.key)
}

/// The way past twigs.
pub(super) fn twigs(marks: &SightMarks) -> Table {
    let all = marks.twigs.iter().flat_map(|answer| {
        let places = marks.plan.places.iter().zip(&answer.over);
        places.filter_map(move |(place, over)| Some((answer, place, (*over)?)))
    });
    table_of("twigs", all)
        .quantity("twig at", Role::Range, |(answer, ..)| answer.twig.distance.si())
        .quantity("twig above line of sight", Role::Impact, |(answer, ..)| answer.twig.height.si())
        .decimals(1)
        .signed()
        .quantity("reach", Role::Impact, |(answer, ..)| answer.reach)
        .quantity("target", Role::Range, |(_, place, _)| place.si())
        .quantity("arrow above twig", Role::Impact, |(.., over)| *over)
        .decimals(1)
        .signed()
        .words("passes", |(answer, _, over)| match answer.passing(*over) {
            Passing::Over => "over",
            Passing::Under => "under",
            Passing::Touching => "touches",
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

/// The tables that only files hold.
pub(super) fn data(marks: &SightMarks) -> [Table; 3] {
    [setup(marks), arcs(marks), uncertain(&marks.uncertain)]
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
