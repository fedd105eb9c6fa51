//! An answer as JSON: every number in SI with its unit.

use serde_json::Value;
use study::{Answer, BuildAnswer, MarkAnswer, Nominal, Sampled, SweepAnswer, TargetChoice};
use units::{Dimension, Style};

use crate::json_pairs::{ends, pair, trade};
use crate::tree::Node;
use crate::{Provenance, ReportError, matters, sides, tune, words, worth};

/// The whole answer with its provenance. Numbers are in SI, each with its
/// unit ("1" for a pure number).
///
/// # Errors
/// [`ReportError::NotFinite`] where a number is not finite, and the shape
/// errors of an answer whose lists do not fit together.
pub fn json(answer: &Answer, provenance: &Provenance) -> Result<Value, ReportError> {
    check(answer)?;
    let mut value = tree(answer).write()?;
    let origin = Node::Map(vec![
        ("version", Node::text(&provenance.version)),
        ("source", Node::text(&provenance.source_name)),
        ("seed", Node::Count(provenance.seed, "1")),
        ("scenario", Node::text(&provenance.scenario)),
    ]);
    if let Value::Object(map) = &mut value {
        map.insert("provenance".to_owned(), origin.write()?);
    }
    Ok(value)
}

/// Refuses an answer that holds a number that is not finite, or lists that do
/// not fit together.
pub(crate) fn check(answer: &Answer) -> Result<(), ReportError> {
    tree(answer).write()?;
    if let Some(tuned) = &answer.tuned {
        return tune::json::check(tuned);
    }
    if let Some(found) = &answer.matters {
        return matters::json::check(found);
    }
    if let Some(found) = &answer.worth {
        return worth::json::check(found);
    }
    let points = answer.sweeps.iter().flat_map(|sweep| &sweep.points);
    let builds: Vec<&BuildAnswer> =
        answer.builds.iter().chain(points.map(|point| &point.build)).collect();
    let expected = builds.first().map_or(0, |build| build.marks.len());
    if expected == 0 {
        return Err(ReportError::NoBuild);
    }
    let fits = |path: String, found: usize| {
        if found == expected { Ok(()) } else { Err(ReportError::Ragged { path, found, expected }) }
    };
    for build in builds {
        fits(format!("marks of {}", build.name), build.marks.len())?;
        for cause in &build.causes {
            let owner = words::owner(cause.owner);
            fits(format!("cause {owner} of {}", build.name), cause.r50.len())?;
        }
    }
    if let Some(sides) = &answer.sides {
        sides::check(answer, sides, &fits)?;
    }
    for (at, pair) in answer.pairs.iter().enumerate() {
        fits(format!("pairs[{at}].marks"), pair.marks.len())?;
        let builds = answer.builds.len();
        if let Some(&build) = [pair.base, pair.other].iter().find(|&&index| index >= builds) {
            return Err(ReportError::NoSuchBuild { pair: at, build, builds });
        }
    }
    Ok(())
}

/// The SI symbol of a dimension, "1" for a pure number.
pub(crate) fn si(dimension: Dimension) -> &'static str {
    match dimension.units()[0].symbol {
        "" => "1",
        symbol => symbol,
    }
}

/// What impacts are measured from.
const IMPACTS: &str = "from the fault-free arrow's impact at the same distance, seen from the \
    archer; left and up positive";

fn tree(answer: &Answer) -> Node {
    let mut entries = vec![
        ("title", Node::text(&answer.title)),
        ("seed", Node::Count(answer.seed, "1")),
        ("flown", Node::size(answer.flown, "flights")),
        ("target", target(answer.target)),
        ("impacts", Node::text(IMPACTS)),
        ("builds", Node::list(&answer.builds, build)),
        ("pairs", Node::list(&answer.pairs, pair)),
        ("sides", answer.sides.as_ref().map_or(Node::Null, sides::json::tree)),
        ("trade", Node::list(&answer.trade, trade)),
        ("ends", answer.ends.as_ref().map_or(Node::Null, ends)),
        ("sweeps", Node::list(&answer.sweeps, sweep)),
    ];
    entries.extend(answer.tuned.as_ref().map(|tuned| ("tuned", tune::json::tree(tuned))));
    entries.extend(answer.matters.as_ref().map(|m| ("matters", matters::json::tree(m))));
    entries.extend(answer.worth.as_ref().map(|worth| ("worth", worth::json::tree(worth))));
    Node::Map(entries)
}

fn target(target: TargetChoice) -> Node {
    match target {
        TargetChoice::Zone { diameter } => Node::Map(vec![
            ("kind", Node::text("zone")),
            ("diameter", Node::Number(diameter.si(), "m")),
        ]),
        TargetChoice::Ellipse { width, height } => Node::Map(vec![
            ("kind", Node::text("ellipse")),
            ("width", Node::Number(width.si(), "m")),
            ("height", Node::Number(height.si(), "m")),
        ]),
        TargetChoice::Face { diameter, inner_ten } => Node::Map(vec![
            ("kind", Node::text("face")),
            ("diameter", Node::Number(diameter.si(), "m")),
            ("inner_ten", Node::Flag(inner_ten)),
        ]),
    }
}

fn build(build: &BuildAnswer) -> Node {
    let (arrow, mass) = (&build.built, &build.built.mass);
    let leave = &build.departure;
    Node::Map(vec![
        ("name", Node::text(&build.name)),
        ("mass", Node::Number(mass.mass().si(), "kg")),
        ("balance", Node::Number(mass.balance().si(), "m")),
        ("inertia_across", Node::Number(mass.transverse().si(), "kg m2")),
        ("inertia_along", Node::Number(mass.axial().si(), "kg m2")),
        ("length", Node::Number(arrow.length.si(), "m")),
        ("foc", Node::Number(arrow.foc.si(), "1")),
        ("stiffness", Node::Number(arrow.stiffness.si(), "N m2")),
        ("mass_per_force", Node::Number(build.mass_per_force, "kg/N")),
        (
            "departure",
            Node::Map(vec![
                ("speed", Node::Number(leave.speed, "m/s")),
                ("velocity_left", Node::Number(leave.velocity_left, "m/s")),
                ("velocity_up", Node::Number(leave.velocity_up, "m/s")),
                ("yaw", Node::Number(leave.yaw, "rad")),
                ("pitch", Node::Number(leave.pitch, "rad")),
                ("yaw_rate", Node::Number(leave.yaw_rate, "rad/s")),
                ("pitch_rate", Node::Number(leave.pitch_rate, "rad/s")),
                ("spin", Node::Number(leave.spin, "rad/s")),
                ("roll", Node::Number(leave.roll, "rad")),
            ]),
        ),
        ("launch_pitch", Node::Number(build.launch_pitch, "rad")),
        ("flights", Node::size(build.flights, "flights")),
        ("steps", Node::Count(build.steps.into(), "steps of a flight")),
        ("notes", Node::list(&arrow.notes, |n| Node::Text(n.text(Style::Metric)))),
        ("marks", Node::list(&build.marks, mark)),
        (
            "causes",
            Node::list(&build.causes, |cause| {
                Node::Map(vec![
                    ("owner", Node::text(words::owner(cause.owner))),
                    ("r50", Node::list(&cause.r50, |r50| Node::estimate(r50, "m"))),
                ])
            }),
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

fn mark(mark: &MarkAnswer) -> Node {
    Node::Map(vec![
        ("distance", Node::Number(mark.distance.si(), "m")),
        ("nominal", nominal(&mark.nominal)),
        ("full", sampled(&mark.full)),
        ("machine", sampled(&mark.machine)),
        ("form", sampled(&mark.form)),
        ("machine_r50_band", Node::band(mark.machine_band, "m")),
        ("hit", Node::estimate(&mark.hit, "1")),
        ("score", Node::maybe(mark.score.as_ref(), "points")),
    ])
}

fn nominal(nominal: &Nominal) -> Node {
    Node::Map(vec![
        ("time", Node::Number(nominal.time, "s")),
        ("speed", Node::Number(nominal.speed, "m/s")),
        ("energy", Node::Number(nominal.energy, "J")),
        ("momentum", Node::Number(nominal.momentum, "kg m/s")),
        ("drop", Node::Number(nominal.drop, "m")),
        ("drop_band", Node::band(nominal.drop_band, "m")),
        ("above_sight", Node::Number(nominal.above_sight, "m")),
        ("left", Node::Number(nominal.left, "m")),
        ("path_pitch", Node::Number(nominal.path_pitch, "rad")),
        ("spin", Node::Number(nominal.spin, "rad/s")),
    ])
}

fn sampled(sampled: &Sampled) -> Node {
    Node::Map(vec![
        ("stats", Node::group(&sampled.stats)),
        ("sample", Node::impacts(&sampled.sample)),
    ])
}

fn sweep(sweep: &SweepAnswer) -> Node {
    Node::Map(vec![
        ("key", Node::text(&sweep.key)),
        ("build", Node::text(&sweep.build)),
        (
            "points",
            Node::list(&sweep.points, |point| {
                Node::Map(vec![
                    ("label", Node::text(&point.label)),
                    ("value", Node::Number(point.value, si(sweep.dimension))),
                    ("build", build(&point.build)),
                ])
            }),
        ),
    ])
}
