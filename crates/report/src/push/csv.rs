//! The push as CSV: one header row with units, numbers unrounded.

use study::{Moment, PushStory};
use units::{Role, Style};

use crate::csv::Sheet;

/// Every table, with its file name.
pub(super) fn all(story: &PushStory, style: Style) -> Vec<(&'static str, String)> {
    vec![
        ("frames.csv", frames(story, style)),
        ("shapes.csv", shapes(story, style)),
        ("modes.csv", modes(story, style)),
        ("stroke.csv", stroke(story, style)),
    ]
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

fn frames(story: &PushStory, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    for (name, role, _) in FRAMES {
        sheet.head(name, role);
    }
    sheet.end();
    for moment in &story.moments {
        for (_, role, read) in FRAMES {
            sheet.number(role, read(moment));
        }
        sheet.end();
    }
    sheet.finish()
}

fn shapes(story: &PushStory, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("instant").head("time", Role::Time).head("travel", Role::Part);
    sheet.head("station", Role::Part).head("left", Role::Gauge).head("up", Role::Gauge).end();
    for (at, shape) in story.shapes.iter().enumerate() {
        for place in &shape.places {
            sheet.field(&(at + 1).to_string());
            sheet.number(Role::Time, shape.time).number(Role::Part, shape.travel);
            sheet.number(Role::Part, place.station);
            sheet.number(Role::Gauge, place.off[0]).number(Role::Gauge, place.off[1]).end();
        }
    }
    sheet.finish()
}

/// Shape and nodes of every mode, one below the other.
fn modes(story: &PushStory, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("mode").field("frequency [Hz]").field("what").head("station", Role::Part);
    sheet.field("displacement over the largest [1]").end();
    for (at, mode) in story.modes.iter().enumerate() {
        let shape = mode.shape.iter().map(|&(station, value)| ("shape", station, value));
        let nodes = mode.nodes.iter().map(|&station| ("node", station, 0.0));
        for (what, station, value) in shape.chain(nodes) {
            sheet.field(&(at + 1).to_string()).field(&mode.frequency.to_string()).field(what);
            sheet.number(Role::Part, station).field(&value.to_string()).end();
        }
    }
    sheet.finish()
}

fn stroke(story: &PushStory, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.head("travel", Role::Part).head("draw force", Role::Force);
    sheet.head("push on the arrow", Role::Force).end();
    for point in &story.forces {
        sheet.number(Role::Part, point.travel).number(Role::Force, point.draw);
        sheet.number(Role::Force, point.push).end();
    }
    sheet.finish()
}
