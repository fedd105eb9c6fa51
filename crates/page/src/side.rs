//! The arrow from the side, to scale, each part a way to its controls.

use maud::{Markup, html};
use study::{BuildAnswer, Setup};
use units::{Dimension, Role};

use crate::scene::Scene;
use crate::spelled::in_style;

/// Length of the drawn arrow and its room, px.
const LONG: f64 = 940.0;
const LEFT: f64 = 30.0;
const TALL: f64 = 130.0;
/// Height of the axis, px.
const AXIS: f64 = 62.0;
/// How much end faces are tilted beyond what they are. Chosen: a quarter of a degree
/// shows, and two degrees do not lie down.
const TILT: f64 = 40.0;
/// Largest tilt drawn, rad.
const MOST: f64 = 1.2;

/// Draws the nominal arrow of a build, with what the scene's controls say.
pub(crate) fn draw(scene: &Scene, build: &BuildAnswer, setup: &Setup) -> Markup {
    let (layout, style) = (&build.built.layout, scene.style);
    let scale = LONG / layout.tip.si();
    let at = |station: f64| LEFT + scale * station;
    let parts = &setup.parts;
    let half = (0.5 * scale * parts.shaft.outside.si()).max(1.5);
    let (rear, front) = (at(layout.shaft_rear.si()), at(layout.shaft_front.si()));
    let (seat, tip) = (at(layout.point_seat.si()), at(layout.tip.si()));
    let balance = at(build.built.mass.balance().si());
    // A value that is drawn by chance has no control: its middle stands for it.
    let said = |name: &str, role: Role, si: f64| {
        told(scene, name).unwrap_or_else(|| format!("about {}", role.text(si, style)))
    };
    let shaft = format!(
        "shaft {}, spine {}",
        said("length", Role::Part, parts.shaft.length.si()),
        said("spine", Role::Part, parts.shaft.spine.si())
    );
    let foc = format!(
        "{}, FOC {}",
        Role::Mass.text(build.built.mass.mass().si(), style),
        Role::Percent.text(build.built.foc.si(), style)
    );
    let label = format!("The arrow to scale, nock at the left: {shaft}, {foc}");
    let ends = [("rear", rear, -1.0), ("front", front, 1.0)].map(|(name, place, sign)| {
        let text = told(scene, name);
        let si = text.as_ref().and_then(|text| units::parse_si(Dimension::Angle, text).ok());
        (name, place, sign * si.unwrap_or(0.0), text.unwrap_or_default())
    });
    let at_hand = |name: &str, text: &str| {
        html! { a href=(format!("#f-{name}")) data-for=(name) { (text) } " " }
    };
    let of_vanes = parts.vanes.map(|vanes| {
        format!("{} vanes, {}", vanes.count, said("vane", Role::Angle, vanes.angle.si()))
    });
    let of_insert =
        parts.insert.map(|of| format!("insert {}", said("insert", Role::Mass, of.mass.si())));
    let point = format!("point {}", said("point", Role::Mass, parts.point.mass.si()));
    html! {
        svg.side viewBox=(format!("0 0 1000 {TALL}")) role="group" aria-label=(label) {
            @if let Some(of) = &parts.vanes {
                (vanes(setup, scale, half).unwrap_or_default())
                (part("vane", at(of.position.si() + 0.5 * of.root.si()), TALL - 12.0, of_vanes.as_deref().unwrap_or_default()))
            }
            polygon.nock points=(points(&[
                (LEFT, AXIS - half), (rear, AXIS - half), (rear, AXIS + half), (LEFT, AXIS + half),
                (LEFT + 0.4 * (rear - LEFT), AXIS),
            ])) {}
            rect.shaft x=(px(rear)) y=(px(AXIS - half)) width=(px(front - rear)) height=(px(2.0 * half)) {}
            @if let Some(insert) = parts.insert {
                @let inside = scale * insert.engaged.si();
                rect.insert x=(px(front - inside)) y=(px(AXIS - 0.6 * half))
                    width=(px(inside)) height=(px(1.2 * half)) {}
                (part("insert", front - 0.5 * inside, TALL - 12.0, of_insert.as_deref().unwrap_or_default()))
            }
            (blades(setup, tip, scale, half).unwrap_or_default())
            @let body = (0.5 * scale * parts.point.diameter.si()).max(half);
            polygon.point points=(points(&[
                (seat, AXIS - half), (seat + 0.35 * (tip - seat), AXIS - body), (tip, AXIS),
                (seat + 0.35 * (tip - seat), AXIS + body), (seat, AXIS + half),
            ])) {}
            @for (name, place, lean, text) in &ends {
                @if *lean != 0.0 {
                    (face(*place, half, (TILT * lean).clamp(-MOST, MOST)))
                    (part(name, *place, 14.0, &format!("off square {text}")))
                }
            }
            path.balance d=(format!("M{} {} l-6 12 h12 z", px(balance), px(AXIS + half + 2.0))) {}
            text x=(px(balance)) y=(px(AXIS + half + 28.0)) text-anchor="middle" { (foc) }
            (part("length", 0.5 * (rear + front), AXIS - 24.0, &shaft))
            (part("point", tip - 40.0, AXIS - 24.0, &point))
            @if ends.iter().any(|(_, _, lean, _)| *lean != 0.0) {
                text.soft x="500" y="12" text-anchor="middle" {
                    "to scale; ends drawn " (TILT) " times as far off square"
                }
            }
        }
        // Where the drawing is too small for words they stand below it.
        p.parts {
            @if let Some(text) = &of_vanes { (at_hand("vane", text)) }
            (at_hand("length", &shaft))
            @if let Some(text) = &of_insert { (at_hand("insert", text)) }
            (at_hand("point", &point))
            @for (name, _, _, text) in ends.iter().filter(|(_, _, lean, _)| *lean != 0.0) {
                (at_hand(name, &format!("{} end off square {text}", if *name == "rear" { "nock" } else { "point" })))
            }
            (foc)
        }
    }
}

/// Vanes, if any, on both sides of a shaft that is so thick, px.
fn vanes(setup: &Setup, scale: f64, half: f64) -> Option<Markup> {
    let of = setup.parts.vanes.as_ref()?;
    let back = LEFT + scale * of.position.si();
    let (ahead, high) = (back + scale * of.root.si(), half + scale * of.span.si());
    let outer = ahead - scale * of.sweep.si();
    let inner = outer - scale * of.tip.si();
    Some(html! {
        @for sign in [-1.0, 1.0] {
            polygon.vane points=(points(&[
                (back, AXIS + sign * half), (inner, AXIS + sign * high),
                (outer, AXIS + sign * high), (ahead, AXIS + sign * half),
            ])) {}
        }
    })
}

/// Fixed blades, if any, on both sides, behind the tip of the arrow, px.
fn blades(setup: &Setup, tip: f64, scale: f64, half: f64) -> Option<Markup> {
    let of = setup.parts.point.blades.as_ref()?;
    let (root, high) = (tip - scale * of.setback.si(), half + scale * of.span.si());
    let outer = root - scale * of.sweep.si();
    Some(html! {
        @for sign in [-1.0, 1.0] {
            polygon.blade points=(points(&[
                (root, AXIS + sign * half), (outer, AXIS + sign * high),
                (outer - scale * of.tip.si(), AXIS + sign * high),
                (root - scale * of.root.si(), AXIS + sign * half),
            ])) {}
        }
    })
}

/// What a control says of the scene.
fn told(scene: &Scene, name: &str) -> Option<String> {
    let control = scenario::control(name)?;
    let text = scene.scenario.shown(control, scene.shown)?;
    Some(in_style(control, &text, scene.style))
}

/// An end face, tilted.
fn face(place: f64, half: f64, tilt: f64) -> Markup {
    let (reach, lean) = (half + 9.0, (half + 9.0) * tilt.tan());
    html! {
        line.face x1=(px(place + lean)) y1=(px(AXIS - reach)) x2=(px(place - lean)) y2=(px(AXIS + reach)) {}
    }
}

/// Words that lead to a control.
fn part(name: &str, x: f64, y: f64, text: &str) -> Markup {
    html! {
        a href=(format!("#f-{name}")) data-for=(name) {
            text x=(px(x.clamp(75.0, 925.0))) y=(px(y)) text-anchor="middle" { (text) }
        }
    }
}

fn points(of: &[(f64, f64)]) -> String {
    let all: Vec<String> = of.iter().map(|(x, y)| format!("{},{}", px(*x), px(*y))).collect();
    all.join(" ")
}

fn px(value: f64) -> String {
    format!("{value:.1}")
}
