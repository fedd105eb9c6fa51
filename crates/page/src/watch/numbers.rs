//! A shot in numbers, SI, for a picture that moves.
//!
//! Pairs are to the left and up: in the push from the line along which the bow pushes,
//! in flight from the arrow's path. The swing after departure stands as what it is, a sum
//! of dying swings `exp(-decay t) (cos(turn t) c + sin(turn t) s)` of shapes, so that the
//! picture may stop at any instant.

use serde_json::{Value, json};
use study::{Side, UpperHalf};
use units::Style;

use super::shot::Shot;
use super::words;
use crate::PageError;

/// Digits behind the point that are sent of a metre, a radian or a second, as a power of
/// ten. Chosen: a ten-thousandth of a millimetre is less than any screen shows.
const PLACES: f64 = 1e7;

pub(super) fn of(shot: &Shot, style: Style) -> Result<Value, PageError> {
    let (story, flown) = (&shot.reel.story, &shot.flown);
    let start = &flown.start;
    let moments = || shot.kept().map(|at| &story.moments[at]);
    let steps = || shot.kept().map(|at| &shot.reel.steps[at]);
    let [push, flight] = words::instants(shot, style);
    let states: Vec<&body::State> = shot.states().collect();
    let departure = &flown.departure;
    let balance = shot.balance();
    let x = |state: &body::State| state.position.x;
    let rest = story.rest.map(|touch| touch.map_or(0.0, |touch| touch.until));
    Ok(json!({
        "name": shot.name,
        "at": shot.at,
        "arrow": arrow(shot)?,
        "bow": {
            "cams": shot.reel.bow.first().is_some_and(|half| half.track > 0.0),
            "hinge": shot.reel.bow.first().and_then(|half| half.hinge).map(few).transpose()?
                .unwrap_or_else(|| json!([])),
            "track": number(shot.reel.bow.first().map_or(0.0, |half| half.track))?,
            "grip": number(story.stroke + shot.setup.bow.brace_height.si())?,
            "stroke": number(story.stroke)?,
            "rest": number(story.rest_place)?,
            "holds": story.rest_holds,
            // On which side a point that only pushes stands.
            "point": if shot.setup.bow.rest.side == Side::Left { -1 } else { 1 },
            "until": few(rest)?,
        },
        "push": {
            "time": list(moments().map(|m| m.time))?,
            "travel": list(moments().map(|m| m.travel))?,
            "speed": list(moments().map(|m| m.speed))?,
            "off": rows(steps().map(|step| step.iter().flatten().copied()))?,
            "limb": rows(shot.kept().map(|at| limb(&shot.reel.bow[at])))?,
            "says": push,
        },
        "flight": {
            "time": list(states.iter().map(|s| s.time))?,
            "place": rows(states.iter().map(|s| [x(s), s.position.y, s.position.z]))?,
            "lean": rows(states.iter().map(|s| Shot::lean(s)))?,
            "roll": list(states.iter().map(|s| s.roll))?,
            "speed": list(states.iter().map(|s| s.velocity.norm()))?,
            "says": flight,
        },
        "leaves": { "place": few([departure.left, departure.up])?, "path": few(shot.leaves())? },
        "passes": { "time": number(shot.passes())?, "gap": list(shot.gap().into_iter().flatten())? },
        "swings": swings(shot)?,
        "crooked": list(shot.reel.crooked.iter().flatten().copied())?,
        "roll": number(start.roll)?,
        "face": number(shot.distance - (shot.long() - balance))?,
        "distance": number(shot.distance)?,
    }))
}

fn arrow(shot: &Shot) -> Result<Value, PageError> {
    let (layout, parts) = (&shot.reel.story.built.layout, &shot.setup.parts);
    let mut told = json!({
        "stations": list(shot.reel.stations.iter().copied())?,
        "balance": number(shot.balance())?,
        "seat": number(layout.point_seat.si())?,
        "across": number(parts.shaft.outside.si())?,
        "point": number(parts.point.diameter.si())?,
        "vanes": [],
        "blades": [],
    });
    if let Some(vanes) = parts.vanes {
        let (rear, span) = (vanes.position.si(), vanes.span.si());
        let front = rear + vanes.root.si();
        let outer = front - vanes.sweep.si();
        told["count"] = json!(vanes.count);
        // Rear and front of the root, rear and front of the outer edge, height.
        told["vanes"] = few([rear, front, outer - vanes.tip.si(), outer, span])?;
    }
    if let Some(blades) = parts.point.blades {
        let front = layout.tip.si() - blades.setback.si();
        let outer = front - blades.sweep.si();
        told["bladed"] = json!(blades.count);
        told["clock"] = number(blades.clock.si())?;
        // As of the vanes.
        told["blades"] = few([
            front - blades.root.si(),
            front,
            outer - blades.tip.si(),
            outer,
            blades.span.si(),
        ])?;
    }
    Ok(told)
}

/// Tip, and where the string ends.
fn limb(half: &UpperHalf) -> [f64; 4] {
    let ([a, b], [c, d]) = (half.tip, half.string);
    [a, b, c, d]
}

/// The swings that are there, each with its shape. See `study`'s flex for the closed form.
fn swings(shot: &Shot) -> Result<Vec<Value>, PageError> {
    let flex = &shot.flown.departure.flex;
    let mut all = Vec::new();
    for mode in (0..flex.frequency.len()).filter(|&mode| flex.frequency[mode] > 0.0) {
        let (turn, cos, sin) = flex.waves(mode);
        // What no screen shows is left out.
        let shape: Vec<f64> = shot.reel.swings.iter().map(|all| all[mode]).collect();
        let most = shape.iter().fold(0.0_f64, |most, w| most.max(w.abs()));
        let size = cos.iter().chain(&sin).fold(0.0_f64, |size, q| size.max(q.abs()));
        if most * size * PLACES < 0.5 {
            continue;
        }
        // Shapes with their largest place 1, so that the waves are metres.
        all.push(json!({
            "turn": number(turn)?,
            "decay": number(flex.decay[mode])?,
            "cos": few(cos.map(|q| q * most))?,
            "sin": few(sin.map(|q| q * most))?,
            "shape": list(shape.into_iter().map(|w| w / most))?,
        }));
    }
    Ok(all)
}

fn number(value: f64) -> Result<Value, PageError> {
    if value.is_finite() {
        // Zero has no sign here.
        Ok(json!((value * PLACES).round() / PLACES + 0.0))
    } else {
        Err(PageError::NotHere { reason: "this arrow's motion is not finite" })
    }
}

fn list(values: impl IntoIterator<Item = f64>) -> Result<Value, PageError> {
    values.into_iter().map(number).collect::<Result<Vec<Value>, PageError>>().map(Value::from)
}

fn few<const N: usize>(values: [f64; N]) -> Result<Value, PageError> {
    list(values)
}

fn rows<R: IntoIterator<Item = f64>>(
    rows: impl IntoIterator<Item = R>,
) -> Result<Value, PageError> {
    rows.into_iter().map(list).collect::<Result<Vec<Value>, PageError>>().map(Value::from)
}
