//! A push as JSON, SI. Every other output asks for it first, so that no number
//! that is not finite reaches a reader.

use serde_json::Value;
use study::{Moment, PushStory};

use super::PushReport;
use crate::ReportError;
use crate::tree::Node;

/// The push as JSON: the numbers in SI with their units, the steps as lists.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn push_json(report: &PushReport) -> Result<Value, ReportError> {
    let provenance = report.provenance;
    let origin = Node::Map(vec![
        ("version", Node::text(&provenance.version)),
        ("source", Node::text(&provenance.source_name)),
        ("scenario", Node::text(&provenance.scenario)),
    ]);
    Node::Map(vec![
        ("title", Node::text(report.title)),
        ("build", report.build.map_or(Node::Null, Node::text)),
        ("push", story(report.story)),
        ("provenance", origin),
    ])
    .write()
}

fn story(story: &PushStory) -> Node {
    let number = Node::Number;
    Node::Map(vec![
        ("mass", number(story.built.mass.mass().si(), "kg")),
        ("stroke", number(story.stroke, "m")),
        ("own_speed", number(story.own_speed, "m/s")),
        ("time", number(story.moments.last().map_or(0.0, |m| m.time), "s")),
        ("works_sideways", Node::Flag(story.sideways)),
        ("departure_given", Node::Flag(story.given)),
        ("departure", departure(story)),
        ("energy", energy(story)),
        ("peak_acceleration", number(story.buckling.peak, "m/s2")),
        ("buckling_acceleration", number(story.buckling.limit, "m/s2")),
        ("rest", rest(story)),
        ("modes", modes(story)),
        ("stroke_points", forces(story)),
        ("frames", frames(&story.moments)),
        ("shapes", shapes(story)),
    ])
}

fn departure(story: &PushStory) -> Node {
    let d = &story.departure;
    let number = Node::Number;
    Node::Map(vec![
        ("speed", number(d.speed, "m/s")),
        ("left", number(d.left, "m")),
        ("up", number(d.up, "m")),
        ("velocity_left", number(d.velocity_left, "m/s")),
        ("velocity_up", number(d.velocity_up, "m/s")),
        ("yaw", number(d.yaw, "rad")),
        ("pitch", number(d.pitch, "rad")),
        ("yaw_rate", number(d.yaw_rate, "rad/s")),
        ("pitch_rate", number(d.pitch_rate, "rad/s")),
        ("bending", number(story.flex_energy, "J")),
        ("tip_by_bending", pair(d.flex.tip_at(0.0), "m")),
        ("nock_by_bending", pair(d.flex.nock_at(0.0), "m")),
    ])
}

fn pair([left, up]: [f64; 2], unit: &'static str) -> Node {
    Node::Map(vec![("left", Node::Number(left, unit)), ("up", Node::Number(up, unit))])
}

fn energy(story: &PushStory) -> Node {
    let budget = &story.budget;
    Node::Map(vec![
        ("stored", Node::Number(budget.stored, "J")),
        ("arrow", Node::Number(budget.arrow, "J")),
        ("string", Node::Number(budget.string, "J")),
        ("limbs_and_cams", Node::Number(budget.limbs, "J")),
        ("not_returned", Node::Number(budget.lost, "J")),
    ])
}

fn rest(story: &PushStory) -> Node {
    let touch = |plane: usize| {
        story.rest[plane].map_or(Node::Null, |touch| {
            Node::Map(vec![
                ("until", Node::Number(touch.until, "s")),
                ("travel", Node::Number(touch.travel, "m")),
                ("contacts", Node::size(touch.times, "contacts")),
            ])
        })
    };
    Node::Map(vec![
        ("holds", Node::Flag(story.rest_holds)),
        ("place", Node::Number(story.rest_place, "m")),
        ("left", touch(0)),
        ("up", touch(1)),
    ])
}

fn modes(story: &PushStory) -> Node {
    Node::list(&story.modes, |mode| {
        Node::Map(vec![
            ("frequency", Node::Number(mode.frequency, "Hz")),
            ("nodes", Node::Series(mode.nodes.clone(), "m")),
            ("station", Node::Series(mode.shape.iter().map(|p| p.0).collect(), "m")),
            ("displacement", Node::Series(mode.shape.iter().map(|p| p.1).collect(), "1")),
        ])
    })
}

fn forces(story: &PushStory) -> Node {
    let list = |read: fn(&study::StrokePoint) -> f64, unit| {
        Node::Series(story.forces.iter().map(read).collect(), unit)
    };
    Node::Map(vec![
        ("travel", list(|p| p.travel, "m")),
        ("draw", list(|p| p.draw, "N")),
        ("push", list(|p| p.push, "N")),
    ])
}

fn frames(moments: &[Moment]) -> Node {
    let list =
        |read: fn(&Moment) -> f64, unit| Node::Series(moments.iter().map(read).collect(), unit);
    Node::Map(vec![
        ("time", list(|m| m.time, "s")),
        ("travel", list(|m| m.travel, "m")),
        ("speed", list(|m| m.speed, "m/s")),
        ("push", list(|m| m.push, "N")),
        ("string_left", list(|m| m.string[0], "N")),
        ("string_up", list(|m| m.string[1], "N")),
        ("rest_left", list(|m| m.rest[0], "N")),
        ("rest_up", list(|m| m.rest[1], "N")),
        ("nock_left", list(|m| m.nock[0], "m")),
        ("nock_up", list(|m| m.nock[1], "m")),
        ("tip_left", list(|m| m.tip[0], "m")),
        ("tip_up", list(|m| m.tip[1], "m")),
        ("balance_left", list(|m| m.balance[0], "m")),
        ("balance_up", list(|m| m.balance[1], "m")),
        ("yaw", list(|m| m.angle[0], "rad")),
        ("pitch", list(|m| m.angle[1], "rad")),
    ])
}

fn shapes(story: &PushStory) -> Node {
    Node::list(&story.shapes, |shape| {
        let list = |read: fn(&study::ShaftPlace) -> f64| {
            Node::Series(shape.places.iter().map(read).collect(), "m")
        };
        Node::Map(vec![
            ("time", Node::Number(shape.time, "s")),
            ("travel", Node::Number(shape.travel, "m")),
            ("station", list(|p| p.station)),
            ("left", list(|p| p.off[0])),
            ("up", list(|p| p.off[1])),
        ])
    })
}
