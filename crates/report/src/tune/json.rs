//! A tuning answer as JSON, in SI.

use study::{
    Banded, BareMark, Nearest, Offset, Tear, Trend, TrendPoint, Tuned, TunedBuild, Turn, leaving,
};
use units::{Dimension, Style};

use super::say;
use crate::ReportError;
use crate::json::si;
use crate::tree::Node;

/// Refuses lists that do not fit together.
pub(crate) fn check(tuned: &Tuned) -> Result<(), ReportError> {
    let expected = tuned.distances.len();
    if expected == 0 || tuned.builds.is_empty() {
        return Err(ReportError::NoBuild);
    }
    for (at, build) in tuned.builds.iter().enumerate() {
        let fits = |list: &str, found: usize| {
            let path = format!("tuned.builds[{at}].{list}");
            if found == expected {
                Ok(())
            } else {
                Err(ReportError::Ragged { path, found, expected })
            }
        };
        fits("bare", build.bare.len())?;
        if at > 0 {
            fits("against", build.against.len())?;
        }
        for turn in &build.turns.steps {
            fits("turns.moved", turn.moved.len())?;
        }
        if let Some(drawn) = &build.turns.drawn {
            fits("turns.drawn", drawn.len())?;
        }
        for trend in &build.trends {
            for shot in trend.points.iter().filter_map(|point| point.shot.as_ref().ok()) {
                fits("trends.apart", shot.apart.len())?;
            }
        }
    }
    Ok(())
}

/// The tree of an answer.
pub(crate) fn tree(tuned: &Tuned) -> Node {
    Node::Map(vec![
        ("distances", Node::Series(tuned.distances.iter().map(|d| d.si()).collect(), "m")),
        ("builds", Node::list(&tuned.builds, build)),
    ])
}

fn banded(banded: &Banded, unit: &'static str) -> Node {
    Node::Map(vec![
        ("value", Node::Number(banded.value, unit)),
        ("low", Node::Number(banded.low, unit)),
        ("high", Node::Number(banded.high, unit)),
    ])
}

fn offset(offset: &Offset) -> Node {
    Node::Map(vec![
        ("left", banded(&offset.left, "m")),
        ("up", banded(&offset.up, "m")),
        ("size", banded(&offset.size, "m")),
        ("open", Node::Flag(offset.open)),
    ])
}

fn maybe(found: Option<&Offset>) -> Node {
    found.map_or(Node::Null, offset)
}

fn pair(place: Option<[f64; 2]>) -> Node {
    place.map_or(Node::Null, |place| Node::Series(place.to_vec(), "m"))
}

fn build(build: &TunedBuild) -> Node {
    let (mass, leave) = (&build.built.mass, &build.departure);
    let neutral = build.neutral.as_ref().map_or(Node::Null, |neutral| {
        Node::Map(vec![
            ("mark", Node::size(neutral.mark, "index")),
            (
                "change",
                say::change(build).map_or(Node::Null, |(change, trend)| {
                    Node::Map(vec![
                        ("key", Node::text(&trend.key)),
                        ("value", Node::Number(change.value, si(trend.dimension))),
                        ("left_over", offset(&change.left_over)),
                    ])
                }),
            ),
        ])
    });
    Node::Map(vec![
        ("name", Node::text(&build.name)),
        ("mass", Node::Number(mass.mass().si(), "kg")),
        ("bare_mass", Node::Number(build.bare_mass, "kg")),
        ("balance", Node::Number(mass.balance().si(), "m")),
        ("foc", Node::Number(build.built.foc.si(), "1")),
        ("stiffness", Node::Number(build.built.stiffness.si(), "N m2")),
        ("shaft_radius", Node::Number(build.shaft_radius, "m")),
        ("vane_radius", Node::Number(build.vane_radius, "m")),
        ("departure", departure(leaving(leave))),
        ("swing", Node::Series(build.swing.to_vec(), "m")),
        ("notes", Node::list(&build.built.notes, |n| Node::Text(n.text(Style::Metric)))),
        ("bare", Node::list(&build.bare, bare)),
        ("paper", Node::list(&build.paper, tear)),
        ("trends", Node::list(&build.trends, trend)),
        ("neutral", neutral),
        ("against", Node::list(&build.against, |found| maybe(found.as_ref()))),
        (
            "clearance",
            Node::Map(vec![
                ("riser", build.clearance.riser.as_ref().map_or(Node::Null, nearest)),
                ("rest", build.clearance.rest.as_ref().map_or(Node::Null, nearest)),
            ]),
        ),
        (
            "turns",
            Node::Map(vec![
                ("steps", Node::list(&build.turns.steps, turn)),
                (
                    "drawn",
                    build.turns.drawn.as_ref().map_or(Node::Null, |d| Node::Series(d.clone(), "m")),
                ),
            ]),
        ),
        (
            "doubts",
            Node::list(&build.doubts, |doubt| {
                Node::Map(vec![
                    ("key", Node::text(&doubt.key)),
                    ("range", Node::band((doubt.low, doubt.high), si(doubt.dimension))),
                ])
            }),
        ),
    ])
}

/// Speed, sideways velocities, angles and rates as the arrow leaves.
fn departure(leave: [f64; 7]) -> Node {
    const NAMES: [(&str, &str); 7] = [
        ("speed", "m/s"),
        ("velocity_left", "m/s"),
        ("velocity_up", "m/s"),
        ("yaw", "rad"),
        ("pitch", "rad"),
        ("yaw_rate", "rad/s"),
        ("pitch_rate", "rad/s"),
    ];
    let number = |((name, unit), value)| (name, Node::Number(value, unit));
    Node::Map(NAMES.into_iter().zip(leave).map(number).collect())
}

fn bare(mark: &BareMark) -> Node {
    Node::Map(vec![
        ("distance", Node::Number(mark.distance.si(), "m")),
        ("apart", maybe(mark.apart.as_ref())),
        ("taped", pair(mark.taped)),
    ])
}

fn tear(tear: &Tear) -> Node {
    Node::Map(vec![
        ("distance", Node::Number(tear.distance.si(), "m")),
        ("nock", offset(&tear.nock)),
        ("yaw", Node::Number(tear.yaw, "rad")),
        ("pitch", Node::Number(tear.pitch, "rad")),
        ("vanes", Node::Series(tear.vanes.clone(), "rad")),
    ])
}

fn trend(trend: &Trend) -> Node {
    let unit = si(trend.dimension);
    Node::Map(vec![
        ("key", Node::text(&trend.key)),
        ("own", Node::Number(trend.own, unit)),
        ("points", Node::list(&trend.points, |point| self::point(point, trend.dimension))),
    ])
}

fn point(point: &TrendPoint, dimension: Dimension) -> Node {
    let mut entries = vec![
        ("label", Node::text(&point.label)),
        ("value", Node::Number(point.value, si(dimension))),
    ];
    match &point.shot {
        Ok(shot) => entries.extend([
            ("mass", Node::Number(shot.mass, "kg")),
            ("departure", departure(leaving(&shot.departure))),
            ("swing", Node::Series(shot.swing.to_vec(), "m")),
            ("apart", Node::list(&shot.apart, |place| pair(*place))),
        ]),
        Err(error) => entries.push(("refused", Node::Text(error.to_string()))),
    }
    Node::Map(entries)
}

fn nearest(found: &Nearest) -> Node {
    Node::Map(vec![
        ("gap", banded(&found.gap, "m")),
        ("travel", Node::Number(found.travel, "m")),
        ("station", Node::Number(found.station, "m")),
        ("clock", Node::Number(found.clock, "rad")),
        ("after", Node::Flag(found.after)),
    ])
}

fn turn(turn: &Turn) -> Node {
    Node::Map(vec![
        ("angle", Node::Number(turn.angle, "rad")),
        ("moved", Node::list(&turn.moved, |moved| maybe(moved.as_ref()))),
    ])
}
