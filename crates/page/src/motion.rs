//! The arrow seen from the side and from behind, through the push and along
//! its path.

use body::Attitude;
use maud::{Markup, html};
use study::Recipe;
use units::{Role, Style};

use crate::PageError;
use crate::scene::Scene;

/// Instants of the flight. Chosen: about one each few yards.
const INSTANTS: u32 = 14;
/// Width of a picture, px, and the arrow's length in it.
const WIDTH: f64 = 440.0;
const LONG: f64 = 380.0;
/// Half the height of each view, px.
const HALF: f64 = 90.0;
/// Factors to choose from; 1 is no exaggeration.
const FACTORS: [f64; 10] = [500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0, 0.5];

/// The shaft at an instant: places along it and off its line, m, left and up.
struct MotionInstant {
    what: String,
    line: Vec<(f64, [f64; 2])>,
}

/// Every instant of push and flight, one picture each.
pub(crate) fn motion(scene: &Scene) -> Result<Markup, PageError> {
    let reason = "this scenario holds no arrow";
    let plan = scene.plan()?;
    let (Some(build), Some(distance)) =
        (plan.builds.get(scene.shown), plan.distances.get(scene.at))
    else {
        return Err(PageError::NotHere { reason });
    };
    let typical = scene.scenario.typical(Some(&build.name));
    let typical = typical.map_err(|_| PageError::NotHere { reason })?;
    let push = pushed(typical.as_ref(), scene.style)?;
    let flight = flown(typical.as_ref(), distance.si(), scene.style)?;
    let long = [&push, &flight].into_iter().flatten().filter_map(|i| i.line.last()).map(|p| p.0);
    let long = long.fold(0.1, f64::max);
    let (in_push, in_flight) = (factor(&push, long), factor(&flight, long));
    let frames: Vec<(&MotionInstant, f64)> = push
        .iter()
        .map(|instant| (instant, in_push))
        .chain(flight.iter().map(|instant| (instant, in_flight)))
        .collect();
    Ok(html! {
        p { "Drawn sideways and upward " strong { (times(in_push)) } " in the push (bend and lean), "
            strong { (times(in_flight)) } " in the flight (yaw and pitch from its path; the shaft is \
            drawn straight there). Whatever is drawn by chance has its median; a fault that may lie \
            on any side lies toward the index vane." }
        label for="frame" { "Instant" }
        input #frame type="range" min="0" max=(frames.len() - 1) step="1" value="0";
        @for (at, (instant, factor)) in frames.iter().enumerate() {
            figure.frame hidden[at > 0] data-what=(instant.what) {
                (drawing(instant, *factor, long))
                figcaption { (instant.what) }
            }
        }
    })
}

fn times(factor: f64) -> String {
    if (factor - 1.0).abs() < 1e-9 {
        "as large as it is".to_owned()
    } else {
        format!("{factor} times as large")
    }
}

/// The largest factor that keeps every instant within its view.
fn factor(instants: &[MotionInstant], long: f64) -> f64 {
    let all = instants.iter().flat_map(|instant| &instant.line).flat_map(|place| place.1);
    let most = all.fold(0.0_f64, |most, off| most.max(off.abs())) * LONG / long;
    let fits = FACTORS.into_iter().find(|factor| factor * most <= 0.8 * HALF);
    if most > 0.0 { fits.unwrap_or(0.1) } else { 1.0 }
}

fn pushed(recipe: &dyn Recipe, style: Style) -> Result<Vec<MotionInstant>, PageError> {
    let story = study::trace_push(recipe)?;
    let instant = |shape: &study::ShaftShape| MotionInstant {
        what: format!(
            "Push: {:.1} ms after release, the nock has come {}",
            1e3 * shape.time,
            Role::Impact.text(shape.travel, style)
        ),
        line: shape.places.iter().map(|place| (place.station, place.off)).collect(),
    };
    Ok(story.shapes.iter().map(instant).collect())
}

fn flown(
    recipe: &dyn Recipe,
    distance: f64,
    style: Style,
) -> Result<Vec<MotionInstant>, PageError> {
    let step = distance / f64::from(INSTANTS);
    let marks: Vec<f64> = (1..=INSTANTS).map(|at| f64::from(at) * step).collect();
    let flown = study::fly_one(recipe, &marks, false)?;
    let (tip, balance) = (flown.built.layout.tip.si(), flown.built.mass.balance().si());
    let states = std::iter::once(&flown.start).chain(&flown.states);
    let instant = |state: &body::State| {
        let (nose, path) = (state.attitude(), Attitude::of(&state.velocity));
        let (yaw, pitch) = (nose.yaw - path.yaw, nose.pitch - path.pitch);
        let side = |angle: f64, one: &'static str, other: &'static str| {
            let word = if angle < 0.0 { other } else { one };
            format!("{} {word}", Role::Angle.text(angle.abs(), style))
        };
        let end = |station: f64| {
            let ahead = station - balance;
            (station, [ahead * yaw.sin(), ahead * pitch.sin()])
        };
        MotionInstant {
            what: format!(
                "Flight: {} out, nose {} and {} of its path, {}",
                Role::Range.text(state.position.x.max(0.0), style),
                side(yaw, "left", "right"),
                side(pitch, "up", "down"),
                Role::Spin.text(state.spin, style)
            ),
            line: vec![end(0.0), end(tip)],
        }
    };
    Ok(states.map(instant).collect())
}

fn drawing(instant: &MotionInstant, factor: f64, long: f64) -> Markup {
    let scale = LONG / long;
    let edge = 0.5 * (WIDTH - LONG);
    let side = |place: &(f64, [f64; 2])| {
        format!("{:.1},{:.1}", edge + scale * place.0, HALF - factor * scale * place.1[1])
    };
    let behind = |place: &(f64, [f64; 2])| {
        let [left, up] = place.1.map(|off| factor * scale * off);
        (WIDTH / 2.0 - left, 3.2 * HALF - up)
    };
    let spots: Vec<(f64, f64)> = instant.line.iter().map(behind).collect();
    let line = |spots: Vec<String>| spots.join(" ");
    let (Some(nock), Some(tip)) = (spots.first(), spots.last()) else { return html! {} };
    html! {
        svg role="img" aria-label=(instant.what) width="440" height="380" viewBox="0 0 440 380" {
            text x="8" y="18" { "from the side" }
            line.path x1=(edge) y1=(HALF) x2=(WIDTH - edge) y2=(HALF) {}
            polyline.shaft points=(line(instant.line.iter().map(side).collect())) {}
            @if let Some(last) = instant.line.last() {
                circle.tip cx=(format!("{:.1}", edge + scale * last.0))
                    cy=(format!("{:.1}", HALF - factor * scale * last.1[1])) r="5" {}
            }
            text x="8" y="204" { "from behind" }
            line.path x1=(WIDTH / 2.0 - HALF) y1=(3.2 * HALF) x2=(WIDTH / 2.0 + HALF) y2=(3.2 * HALF) {}
            line.path x1=(WIDTH / 2.0) y1=(2.3 * HALF) x2=(WIDTH / 2.0) y2=(4.1 * HALF) {}
            polyline.shaft points=(line(spots.iter().map(|s| format!("{:.1},{:.1}", s.0, s.1)).collect())) {}
            circle.tip cx=(format!("{:.1}", tip.0)) cy=(format!("{:.1}", tip.1)) r="5" {}
            circle.nock cx=(format!("{:.1}", nock.0)) cy=(format!("{:.1}", nock.1)) r="7" {}
            text x="300" y="364" { "\u{25CF} point  \u{25CB} nock" }
        }
    }
}
