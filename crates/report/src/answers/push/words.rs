//! The words.

use study::{Departure, Joint, PushTrace, Touch};
use units::{Dimension, Role, Style};

use crate::show::{share, three};

/// What the numbers rest on.
pub(super) const SURE: [&str; 3] = [
    "These are computed numbers, not measured ones. What works along the push (speed, time, \
     energy, the great force) follows from the bow's readings and is well known.",
    "What works across it is not: how stiff a rest is and when it falls away can turn a nose the \
     other way, and how firmly the string holds the nock moves it too. Measure the rest, pin the \
     string down with one measured shift of impact, and compare builds rather than trust one.",
    "The draw force between full draw and brace is the bow's own readings where the scenario has \
     them, else a shape chosen for its kind.",
];

/// How to read the table of the departure.
pub(super) const LEAVES: &str = "Left and up are from the line along which the bow pushes. Nose: \
    the line about which the arrow would spin. By bending: on top of the straight arrow, at the \
    instant it leaves.";

/// The push in one sentence or two.
pub(super) fn sentence(
    story: &PushTrace,
    unknown: Option<&Joint<Departure>>,
    style: Style,
) -> String {
    let kept = kept(story);
    let time = Role::Instant.text(story.moments.last().map_or(0.0, |m| m.time), style);
    let d = &story.departure;
    let speed = Role::Speed.text(d.speed, style);
    if !story.sideways {
        return format!(
            "The arrow leaves at {speed} after {time} in the bow, straight: nothing works on it \
             sideways.{kept}"
        );
    }
    let size = |rate: f64| three(Role::Rate.value(rate.abs(), style));
    let turn = |rate: f64, read: fn(&Departure) -> f64, words: [&str; 2]| {
        let sense = |rate: f64| if rate < 0.0 { words[1] } else { words[0] };
        let band = unknown.and_then(|joint| joint.band(rate, |of| Some(read(of))));
        let band = band.map_or_else(String::new, |band| {
            let (low, high) = (size(band.low), size(band.high));
            format!(" (from {low} {} to {high} {})", sense(band.low), sense(band.high))
        });
        format!("{} {} {}{band}", size(rate), Role::Rate.symbol(style), sense(rate))
    };
    let [left, up] = clean([d.yaw_rate, d.pitch_rate]);
    let side = unknown.and_then(|joint| joint.standing(|of| of.yaw_rate > 0.0)).map(|of| {
        if (OPEN..=1.0 - OPEN).contains(&of.share) {
            format!(
                " To which side is open: of what is poorly known, {} turns it left. Measure the \
                 rest, or shoot a bare shaft.",
                share(of.share)
            )
        } else {
            String::new()
        }
    });
    format!(
        "The arrow leaves at {speed} after {time} in the bow, its nose turning {} and {}. The \
         vanes take the turn out, and until then it carries the arrow aside: a tune question \
         says how far that lands, fletched and bare.{}{kept}",
        turn(left, |of| of.yaw_rate, ["to the left", "to the right"]),
        turn(up, |of| of.pitch_rate, ["up", "down"]),
        side.unwrap_or_default()
    )
}

/// A side that holds in less than this share of what is poorly known, or in more than all
/// but this, is none to speak of. Chosen: where the word "likely" begins.
const OPEN: f64 = 0.2;

/// The share of the stored energy that may go where nothing accounts for it without a
/// remark. Chosen: a quarter, above the fifth that readings of ordinary recurves leave
/// (common practice, no source); compounds leave a few per cent.
const KEPT: f64 = 0.25;

/// What to say where far more energy vanishes than bows keep.
fn kept(story: &PushTrace) -> String {
    let lost = story.budget.lost / story.budget.stored;
    if lost <= KEPT {
        return String::new();
    }
    format!(
        " Of the energy stored in the drawn bow {} is not returned, far more than bows keep: the \
         speed is low for this draw. Look at draw length and draw weight as you really draw, at \
         the arrow that was read, and at a string too heavy or too long (common practice, no \
         source).",
        share(lost)
    )
}

/// What the reader should know beside the numbers.
pub(super) fn remarks(story: &PushTrace, style: Style) -> Vec<String> {
    let mut out = vec![rest(story, style), buckling(story)];
    if !story.sideways {
        out.push(
            "This build has no fixed fault, and no release or path that is not straight. Values \
             drawn by chance stand at their centre here; give a fault a fixed size to see what it \
             does."
                .to_owned(),
        );
    }
    if story.given {
        out.push(
            "The scenario gives departure values directly. They replace the push in flight; this \
             shows the push as computed."
                .to_owned(),
        );
    }
    out
}

/// Where the rest lets go.
fn rest(story: &PushTrace, style: Style) -> String {
    let until = |touch: &Touch| {
        format!(
            "{} after release, the string {} on its way",
            Role::Instant.text(touch.until, style),
            Role::Part.text(touch.travel, style)
        )
    };
    let one = |touch: Option<&Touch>, name: &str| match touch {
        None => format!("{name} never touches the shaft"),
        Some(touch) => {
            let times = match touch.times {
                1 => "once".to_owned(),
                2 => "twice".to_owned(),
                n => format!("{n} times"),
            };
            format!("{name} touches the shaft {times}, until {}", until(touch))
        }
    };
    let [side, below] = &story.rest;
    match side {
        Some(touch) if story.rest_holds => format!("The rest holds until {}.", until(touch)),
        None if story.rest_holds => "The rest never holds the shaft.".to_owned(),
        side => format!(
            "{}; {}.",
            one(side.as_ref(), "The rest's side"),
            one(below.as_ref(), "its support below")
        ),
    }
}

fn buckling(story: &PushTrace) -> String {
    let gee =
        |si: f64| Dimension::Acceleration.unit("gee").map_or(si, |unit| unit.of_si(si)).round();
    let (peak, limit) = (story.buckling.peak, story.buckling.limit);
    format!(
        "The push peaks at {} times free fall; held sideways at nock and point and pushed for long, \
         this shaft would buckle at {} times.{}",
        gee(peak),
        gee(limit),
        if peak > limit {
            " It is not pushed for long enough to buckle, but each bend grows as long as it is."
        } else {
            ""
        }
    )
}

/// A pair without rounding noise: what is a billionth of the other is zero.
pub(super) fn clean(pair: [f64; 2]) -> [f64; 2] {
    let most = pair[0].abs().max(pair[1].abs());
    // A number that is none stays one, so that it is refused.
    let tiny = |value: f64| most.is_finite() && value.abs() <= 1e-9 * most;
    pair.map(|value| if tiny(value) { 0.0 } else { value })
}
