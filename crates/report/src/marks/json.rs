//! Sight marks as JSON, SI. Every other output asks for it first, so that no
//! number that is not finite reaches a reader.

use serde_json::Value;
use study::{Arc, Hill, MarkChange, MarkRow, Pin, SightMarks, TwigAnswer};

use super::MarksReport;
use crate::ReportError;
use crate::json::si;
use crate::tree::Node;

/// The marks as JSON: every number in SI with its unit; up, over and high are
/// positive, marks and drops down.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn marks_json(report: &MarksReport) -> Result<Value, ReportError> {
    let provenance = report.provenance;
    let origin = Node::Map(vec![
        ("version", Node::text(&provenance.version)),
        ("source", Node::text(&provenance.source_name)),
        ("scenario", Node::text(&provenance.scenario)),
    ]);
    Node::Map(vec![
        ("title", Node::text(report.title)),
        ("build", report.build.map_or(Node::Null, Node::text)),
        ("sight", sight(report.marks)),
        ("marks", Node::list(&report.marks.rows, row)),
        ("pins", Node::list(&report.marks.pins, pin)),
        ("arcs", Node::list(&report.marks.arcs, arc)),
        ("slopes", Node::list(&report.marks.hills, hill)),
        ("changes", Node::list(&report.marks.changes, |c| change(report.marks, c))),
        ("twigs", Node::list(&report.marks.twigs, |t| twig(report.marks, t))),
        (
            "doubts",
            Node::list(&report.marks.doubts, |doubt| {
                Node::Map(vec![
                    ("key", Node::text(&doubt.key)),
                    ("range", Node::band((doubt.low, doubt.high), si(doubt.dimension))),
                ])
            }),
        ),
        ("provenance", origin),
    ])
    .write()
}

fn maybe(value: Option<f64>, unit: &'static str) -> Node {
    value.map_or(Node::Null, |value| Node::Number(value, unit))
}

fn sight(marks: &SightMarks) -> Node {
    let geometry = marks.sighting.geometry();
    let number = Node::Number;
    Node::Map(vec![
        ("zero", number(marks.zero.si(), "m")),
        ("eye_above_arrow", number(geometry.height(), "m")),
        ("eye_to_pin", number(geometry.radius(), "m")),
        ("click", maybe(marks.plan.click.map(units::Length::si), "m")),
        ("highest_mark_at", number(marks.sighting.top(), "m")),
        ("point_on", maybe(marks.point_on.and_then(|point| point.distance), "m")),
        ("crosswind", number(marks.plan.crosswind.si(), "m/s")),
        ("arrow_mass", number(marks.built.mass.mass().si(), "kg")),
        ("departure_speed", number(marks.departure.speed, "m/s")),
        ("notes", Node::list(&marks.built.notes, |n| Node::Text(n.text(units::Style::Metric)))),
    ])
}

fn row(row: &MarkRow) -> Node {
    let number = Node::Number;
    Node::Map(vec![
        ("distance", number(row.distance, "m")),
        ("launch", number(row.launch, "rad")),
        ("line_of_sight_below_arrow", number(row.depression, "rad")),
        ("pin_above_arrow", number(row.pin, "m")),
        ("mark_below_zero", number(row.travel.value, "m")),
        ("mark_band", Node::band((row.travel.low, row.travel.high), "m")),
        ("clicks", maybe(row.clicks, "1")),
        ("drop", number(row.drop, "m")),
        ("above_sight", number(row.above_sight, "m")),
        ("holds", Node::Series(row.holds.clone(), "m")),
        ("hold_point", maybe(row.point_hold, "m")),
        ("time", number(row.time, "s")),
        ("speed", number(row.speed, "m/s")),
        ("energy", number(row.energy, "J")),
        ("momentum", number(row.momentum, "kg m/s")),
        ("drift", number(row.drift, "m")),
        ("path_pitch", number(row.path_pitch, "rad")),
        ("highest", number(row.apex, "m")),
        ("highest_at", number(row.apex_at, "m")),
    ])
}

fn pin(pin: &Pin) -> Node {
    Node::Map(vec![
        ("zero", Node::Number(pin.zero, "m")),
        ("also_right_at", maybe(pin.twin, "m")),
        ("above_arrow", Node::Number(pin.height, "m")),
    ])
}

fn arc(arc: &Arc) -> Node {
    Node::Map(vec![
        ("target", Node::Number(arc.distance, "m")),
        ("distance", Node::Series(arc.points.iter().map(|p| p.0).collect(), "m")),
        ("above_line_of_sight", Node::Series(arc.points.iter().map(|p| p.1).collect(), "m")),
        ("at_marks", Node::list(&arc.gaps, |gap| maybe(*gap, "m"))),
    ])
}

fn hill(hill: &Hill) -> Node {
    let shots = Node::list(&hill.shots, |shot| {
        let number = Node::Number;
        Node::Map(vec![
            ("distance", number(shot.distance, "m")),
            ("dial", maybe(shot.dial, "m")),
            ("pin_above_arrow", number(shot.pin, "m")),
            ("cosine_distance", number(shot.cosine, "m")),
            ("high_with_cosine", number(shot.cosine_miss, "m")),
            ("high_with_slope_distance", number(shot.slope_miss, "m")),
            ("high_with_highest_mark", number(shot.least_miss, "m")),
        ])
    });
    Node::Map(vec![("slope", Node::Number(hill.slope, "rad")), ("shots", shots)])
}

fn places(marks: &SightMarks) -> Node {
    Node::Series(marks.plan.places.iter().map(|place| place.si()).collect(), "m")
}

fn change(marks: &SightMarks, change: &MarkChange) -> Node {
    let values = Node::list(&change.values, |value| {
        Node::Map(vec![
            ("label", Node::text(&value.label)),
            ("value", Node::Number(value.value, si(change.dimension))),
            ("departure_speed", Node::Number(value.speed, "m/s")),
            ("high_with_old_mark", Node::Series(value.shifts.clone(), "m")),
            ("mark_moves_down", Node::Series(value.moves.clone(), "m")),
            ("mark_moves_down_zero_set_anew", Node::Series(value.rezeroed.clone(), "m")),
        ])
    });
    Node::Map(vec![
        ("key", Node::text(&change.key)),
        ("distances", places(marks)),
        ("values", values),
    ])
}

fn twig(marks: &SightMarks, answer: &TwigAnswer) -> Node {
    Node::Map(vec![
        ("at", Node::Number(answer.twig.distance.si(), "m")),
        ("above_line_of_sight", Node::Number(answer.twig.height.si(), "m")),
        ("reach", Node::Number(answer.reach, "m")),
        ("distances", places(marks)),
        ("arrow_above", Node::list(&answer.over, |over| maybe(*over, "m"))),
    ])
}
