//! What is seen of a shot, in words.

use body::State;
use serde_json::{Value, json};
use study::{PushTrace, Touch};
use units::{Role, Style};

use super::shot::{Factors, Shot};

/// What arrow is shown.
pub(super) const TYPICAL: &str = "Whatever is drawn by chance has its median; a fault that may \
    lie on any side lies toward the index vane.";
/// How the shaft bends in flight.
pub(super) const SWINGS: &str = "After the string the shaft swings on freely from its last shape \
    in the push; the air acts on the arrow as if it were straight.";
/// Share of the largest lean at which it counts as gone.
const GONE: f64 = 0.1;
/// How far out a place is told as a length and not yet as a distance, m. Chosen: two arrow
/// lengths.
const NEAR: f64 = 1.5;
/// Least gap between push and flight worth a word, m. Chosen: a hair's width.
const LEAST_GAP: f64 = 1e-4;
/// Least lean worth a word, rad. Chosen: a hundredth of a degree, the last digit told.
const LEAST: f64 = 0.000_17;

/// Units of a picture's scale bar and of its distances, with their lengths in metres.
pub(super) fn bars(style: Style) -> [Value; 2] {
    [Role::Impact, Role::Range]
        .map(|role| json!({ "name": role.symbol(style), "long": role.unit(style).0.to_si(1.0) }))
}

/// How large things are drawn, and which arrow it is.
pub(super) fn seen(shots: &[Shot], factors: &Factors, style: Style) -> Vec<String> {
    let mut all = vec![format!(
        "Sideways the push and every bend are drawn {}, the lean in flight {}, vanes twice as \
         large. {TYPICAL} {SWINGS}",
        times(factors.bend),
        times(factors.lean),
    )];
    for shot in shots {
        let name = if shots.len() > 1 { format!("{}: ", shot.name) } else { String::new() };
        all.push(format!("{name}{}", told(shot, style).join(" ")));
    }
    all
}

fn times(factor: f64) -> String {
    if (factor - 1.0).abs() < 1e-9 {
        "as large as it is".to_owned()
    } else {
        format!("{factor} times as large")
    }
}

/// One shot from full draw to the target, told.
pub(super) fn told(shot: &Shot, style: Style) -> Vec<String> {
    let story = &shot.reel.story;
    let mut all = Vec::new();
    let bent = bend(shot);
    let bends = if bent > 0.0 {
        format!("bends by up to {}", Role::Impact.text(bent, style))
    } else {
        "stays straight".to_owned()
    };
    all.push(format!(
        "In the push the shaft {bends}{}. It leaves the string {} after release at {}.",
        rest(story, style),
        Role::Instant.text(story.moments.last().map_or(0.0, |m| m.time), style),
        Role::Speed.text(story.departure.speed, style),
    ));
    if shot.gap().iter().flatten().any(|gap| gap.abs() > LEAST_GAP) {
        all.push(
            "The rest still touches after that: how the shaft comes off it is drawn as an even \
             passage, for what it leaves behind."
                .to_owned(),
        );
    }
    all.push(lean(shot, style));
    let turns = (shot.states().last()).map_or(0.0, |s| s.roll - shot.flown.start.roll);
    if turns.abs() > 0.5 {
        let way = if turns < 0.0 { "anticlockwise" } else { "clockwise" };
        let turns = (turns / std::f64::consts::TAU).abs();
        all.push(format!("On its way it turns {turns:.1} times {way}, seen from behind."));
    }
    if shot.flown.states.last().is_none_or(|last| last.position.x < 0.99 * way(shot)) {
        all.push("It does not reach the target.".to_owned());
    }
    if story.given {
        all.push(
            "The scenario gives values for how the arrow leaves; the flight takes them, the push \
             shown does not."
                .to_owned(),
        );
    }
    all
}

fn way(shot: &Shot) -> f64 {
    shot.distance - (shot.long() - shot.balance())
}

/// Farthest that any place comes off the straight line from nock to tip in the push, m.
fn bend(shot: &Shot) -> f64 {
    let stations = &shot.reel.stations;
    let long = shot.long();
    let off = |step: &Vec<[f64; 2]>| {
        let (Some(nock), Some(tip)) = (step.first(), step.last()) else { return 0.0 };
        let bow = |(at, place): (&f64, &[f64; 2])| {
            let share = at / long;
            let off = [0, 1].map(|p| place[p] - nock[p] - share * (tip[p] - nock[p]));
            off[0].hypot(off[1])
        };
        stations.iter().zip(step).map(bow).fold(0.0, f64::max)
    };
    shot.reel.steps.iter().map(off).fold(0.0, f64::max)
}

/// When the arrow is free of the rest.
fn rest(story: &PushTrace, style: Style) -> String {
    let touches = story.rest.into_iter().flatten();
    let last: Option<Touch> = touches.max_by(|a, b| a.until.total_cmp(&b.until));
    let end = story.moments.last().map_or(0.0, |m| m.time);
    match last {
        None => " and the rest does not press on it".to_owned(),
        Some(touch) if touch.until >= end => " and the rest touches it to the end".to_owned(),
        Some(touch) => format!(
            ", and it is free of the rest after {}, when the nock has come {}",
            Role::Instant.text(touch.until, style),
            Role::Impact.text(touch.travel, style)
        ),
    }
}

/// How far the nose is off its path, and by when that has died down.
fn lean(shot: &Shot, style: Style) -> String {
    let angle = |state: &State| Shot::lean(state)[0].hypot(Shot::lean(state)[1]);
    let states: Vec<&State> = shot.states().collect();
    let (mut at, mut most) = (0, 0.0);
    for (i, state) in states.iter().enumerate() {
        if angle(state) > most {
            (at, most) = (i, angle(state));
        }
    }
    let place = |i: usize| Role::Range.text(states[i].position.x.max(0.0), style);
    if most < LEAST {
        return "In flight its nose stays on its path.".to_owned();
    }
    let first = format!(
        "In flight its nose is at most {} off its path, {}",
        Role::Angle.text(most, style),
        if at == 0 { "as it leaves".to_owned() } else { format!("{} out", place(at)) }
    );
    let over = states.iter().rposition(|state| angle(state) > GONE * most).unwrap_or(0);
    if over + 1 < states.len() {
        format!("{first}; from {} on it is less than a tenth of that.", place(over + 1))
    } else {
        let left = Role::Angle.text(states.last().map_or(0.0, |s| angle(s)), style);
        format!("{first}; at the target {left} are left.")
    }
}

/// Every instant of push and flight.
pub(super) fn instants(shot: &Shot, style: Style) -> [Vec<String>; 2] {
    let push = shot.kept().map(|at| {
        let moment = &shot.reel.story.moments[at];
        format!(
            "{} after release, the nock has come {}",
            Role::Instant.text(moment.time, style),
            Role::Impact.text(moment.travel, style)
        )
    });
    let start = shot.flown.start.roll;
    let side = |value: f64, role: Role, [one, other]: [&str; 2]| {
        format!("{} {}", role.text(value.abs(), style), if value < 0.0 { other } else { one })
    };
    let flight = shot.states().map(|state| {
        let [left, up] = Shot::lean(state);
        let out = state.position.x.max(0.0);
        let role = if out < NEAR { Role::Impact } else { Role::Range };
        format!(
            "{} out at {}; {}, {} of the line; nose {}, {} of its path; turned {:.1} times",
            role.text(out, style),
            Role::Speed.text(state.velocity.norm(), style),
            side(state.position.z, Role::Impact, ["above", "below"]),
            side(state.position.y, Role::Impact, ["left", "right"]),
            side(left, Role::Angle, ["left", "right"]),
            side(up, Role::Angle, ["up", "down"]),
            (state.roll - start) / std::f64::consts::TAU,
        )
    });
    [push.collect(), flight.collect()]
}
