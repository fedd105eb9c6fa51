//! The tables.

use study::{Moment, PushTrace, Touch};
use units::{Role, Style};

use super::words::clean;
use crate::document::{Cell, Kind, Table, facts, table_of};

fn own(role: Role, si: f64) -> Cell {
    Cell::Quantity(role, si)
}

/// The arrow as it leaves, across the line of the push.
pub(super) fn leaves(story: &PushTrace) -> Table {
    let d = &story.departure;
    let rows = [
        ("balance point", Role::Gauge, [d.left, d.up]),
        ("its velocity", Role::Speed, [d.velocity_left, d.velocity_up]),
        ("nose", Role::Angle, [d.yaw, d.pitch]),
        ("nose turning", Role::Rate, [d.yaw_rate, d.pitch_rate]),
        ("tip by bending", Role::Gauge, d.flex.tip_at(0.0)),
        ("nock by bending", Role::Gauge, d.flex.nock_at(0.0)),
    ];
    table_of("departure-across", rows)
        .words("at departure", |(name, ..)| *name)
        .cells("left", Kind::Own, |(_, role, pair)| own(*role, clean(*pair)[0]))
        .cells("up", Kind::Own, |(_, role, pair)| own(*role, clean(*pair)[1]))
        .done()
}

/// Speed, time and energy.
pub(super) fn along(story: &PushTrace) -> Table {
    let push = story.moments.iter().map(|m| m.push).fold(0.0, f64::max);
    let time = story.moments.last().map_or(0.0, |m| m.time);
    let rows = [
        ("arrow mass", own(Role::Mass, story.built.mass.mass().si())),
        ("stroke", own(Role::Part, story.stroke)),
        ("time in the bow", own(Role::Instant, time)),
        ("greatest push", own(Role::Force, push)),
        ("speed at departure", own(Role::Speed, story.departure.speed)),
        ("bending energy at departure", own(Role::Energy, story.flex_energy)),
    ];
    facts("along", ["along the push", "value"], rows)
}

/// Where the stored energy goes.
pub(super) fn energy(story: &PushTrace) -> Table {
    let budget = &story.budget;
    let rows = [
        ("stored in the drawn bow", budget.stored),
        ("to the arrow", budget.arrow),
        ("to the string", budget.string),
        ("to limbs and cams", budget.limbs),
        ("not returned", budget.lost),
    ];
    table_of("energy", rows)
        .words("energy", |(name, _)| *name)
        .quantity("amount", Role::Energy, |(_, energy)| *energy)
        .quantity("of stored", Role::Percent, |(_, energy)| energy / budget.stored)
        .done()
}

/// The bending modes and where their nodes lie, from the nock groove.
pub(super) fn modes(story: &PushTrace, style: Style) -> Table {
    let most = story.modes.iter().map(|mode| mode.nodes.len()).max().unwrap_or(0);
    // To a tenth of an inch or a millimetre.
    let decimals = usize::from(style == Style::Archery);
    table_of("swings", story.modes.iter().enumerate())
        .words("mode", |(at, _)| (at + 1).to_string())
        .quantity("frequency", Role::Frequency, |(_, mode)| mode.frequency)
        .each(0..most, |t, node| {
            let head = format!("node {}", node + 1);
            t.quantity(head, Role::Part, |(_, mode)| mode.nodes.get(node).copied())
                .decimals(decimals)
        })
        .done()
}

/// The tables that only files hold.
pub(super) fn data(story: &PushTrace) -> Vec<Table> {
    vec![departure(story), rest(story), frames(story), shapes(story), shape(story), stroke(story)]
}

fn departure(story: &PushTrace) -> Table {
    let of = |flag: bool| Cell::from(if flag { "yes" } else { "no" });
    let rows = [
        ("own speed of the bow", own(Role::Speed, story.own_speed)),
        ("works sideways", of(story.sideways)),
        ("departure given", of(story.given)),
        ("peak acceleration", own(Role::Acceleration, story.buckling.peak)),
        ("buckling acceleration", own(Role::Acceleration, story.buckling.limit)),
        ("rest ahead of the nock", own(Role::Part, story.rest_place)),
        ("rest holds all round", of(story.rest_holds)),
    ];
    facts("departure", ["of the push", "value"], rows)
}

fn rest(story: &PushTrace) -> Table {
    type Holds = (&'static str, Option<Touch>);
    let rows: [Holds; 2] = [("side", story.rest[0]), ("support below", story.rest[1])];
    table_of("rest", rows)
        .words("rest", |(name, _)| *name)
        .quantity("until", Role::Time, |(_, touch)| touch.map(|t| t.until))
        .quantity("travel", Role::Part, |(_, touch)| touch.map(|t| t.travel))
        .counts("contacts", "", |(_, touch)| touch.map_or(0, |t| t.times as u64))
        .done()
}

/// A column of the steps.
type Field = (&'static str, Role, fn(&Moment) -> f64);

const FRAMES: [Field; 16] = [
    ("time", Role::Time, |m| m.time),
    ("travel", Role::Part, |m| m.travel),
    ("speed", Role::Speed, |m| m.speed),
    ("push", Role::Force, |m| m.push),
    ("string left", Role::Force, |m| m.string[0]),
    ("string up", Role::Force, |m| m.string[1]),
    ("rest left", Role::Force, |m| m.rest[0]),
    ("rest up", Role::Force, |m| m.rest[1]),
    ("nock left", Role::Gauge, |m| m.nock[0]),
    ("nock up", Role::Gauge, |m| m.nock[1]),
    ("tip left", Role::Gauge, |m| m.tip[0]),
    ("tip up", Role::Gauge, |m| m.tip[1]),
    ("balance left", Role::Gauge, |m| m.balance[0]),
    ("balance up", Role::Gauge, |m| m.balance[1]),
    ("yaw", Role::Angle, |m| m.angle[0]),
    ("pitch", Role::Angle, |m| m.angle[1]),
];

fn frames(story: &PushTrace) -> Table {
    table_of("frames", &story.moments)
        .each(FRAMES, |t, (head, role, read)| t.quantity(head, role, |m| read(m)))
        .done()
}

fn shapes(story: &PushTrace) -> Table {
    let all = story.shapes.iter().enumerate();
    let places = all.flat_map(|(at, shape)| shape.places.iter().map(move |p| (at, shape, p)));
    table_of("shapes", places)
        .words("instant", |(at, ..)| (at + 1).to_string())
        .quantity("time", Role::Time, |(_, shape, _)| shape.time)
        .quantity("travel", Role::Part, |(_, shape, _)| shape.travel)
        .quantity("station", Role::Part, |(.., place)| place.station)
        .quantity("left", Role::Gauge, |(.., place)| place.off[0])
        .quantity("up", Role::Gauge, |(.., place)| place.off[1])
        .done()
}

/// Shape and nodes of every mode, one below the other.
fn shape(story: &PushTrace) -> Table {
    let mut rows = Vec::new();
    for (at, mode) in story.modes.iter().enumerate() {
        let shape = mode.shape.iter().map(|&(station, by)| ("shape", station, by));
        let nodes = mode.nodes.iter().map(|&station| ("node", station, 0.0));
        rows.extend(shape.chain(nodes).map(|place| (at, mode.frequency, place)));
    }
    table_of("modes", rows)
        .words("mode", |(at, ..)| (at + 1).to_string())
        .quantity("frequency", Role::Frequency, |(_, frequency, _)| *frequency)
        .words("what", |(.., (what, ..))| *what)
        .quantity("station", Role::Part, |(.., (_, station, _))| *station)
        .quantity("displacement over the largest", Role::Number, |(.., (.., by))| *by)
        .done()
}

fn stroke(story: &PushTrace) -> Table {
    table_of("stroke", &story.forces)
        .quantity("travel", Role::Part, |point| point.travel)
        .quantity("draw force", Role::Force, |point| point.draw)
        .quantity("push on the arrow", Role::Force, |point| point.push)
        .done()
}
