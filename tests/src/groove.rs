//! What a groove beside the shaft's line does at 60 yd, as another program of ours
//! has it: its compound, its arrow, its flight.

use arrow::{Built, Faults, Parts, Shift};
use body::Attitude;
use flight::aero::FinSet;
use launch::{
    Bow, BowString, Departure, DrawCurve, Form, GivenDeparture, Release, RestKind, Restraint,
    SpeedSource, depart,
};
use nalgebra::Vector3;
use units::{Acceleration, Angle, Damping, Force, Length, Mass, Ratio, Stiffness, Time};

use crate::head::{at, hunting, ready};
use crate::{choice, push, start};

const INCH: f64 = 0.0254;
const DISTANCE: f64 = 60.0 * 0.9144;
/// The other program's air, kg/m3.
const DENSITY: f64 = 1.225;

/// C: what a compound of another program really asks for along its draw, N, over
/// share drawn. Its cams were cut for a string that does not stretch, so it
/// draws some 2 % below the plateau they were meant for.
pub const DRAWN: [(f64, f64); 37] = [
    (0.0, 0.0),
    (0.001, 2.131),
    (0.005, 10.52),
    (0.01, 20.79),
    (0.025, 49.51),
    (0.05, 93.79),
    (0.075, 132.68),
    (0.1, 166.18),
    (0.125, 194.30),
    (0.15, 217.04),
    (0.175, 234.42),
    (0.2, 246.45),
    (0.225, 253.13),
    (0.24, 254.58),
    (0.25, 254.96),
    (0.26, 255.35),
    (0.275, 255.90),
    (0.3, 256.76),
    (0.35, 258.19),
    (0.4, 259.27),
    (0.45, 260.09),
    (0.5, 260.72),
    (0.55, 261.20),
    (0.6, 261.58),
    (0.74, 262.27),
    (0.75, 261.74),
    (0.76, 259.39),
    (0.775, 252.66),
    (0.8, 234.20),
    (0.825, 208.87),
    (0.85, 179.21),
    (0.875, 147.78),
    (0.9, 117.13),
    (0.925, 89.84),
    (0.95, 68.41),
    (0.975, 55.36),
    (1.0, 53.13),
];

/// The other program's compound: 60 lb, 0.527 m of stroke, its rest held both ways
/// over the first 0.4 of it.
///
/// # Panics
/// Never: the values are possible.
#[expect(clippy::expect_used, reason = "possible values")]
pub fn compound() -> Bow {
    let (stroke, brace) = (0.527, 0.1651);
    let pivot = brace + 1.75 * INCH;
    let readings = DRAWN
        .map(|(drawn, force)| (Length::from_si(pivot + drawn * stroke), Force::from_si(force)));
    let base = push::bow();
    let mut rest = base.rest;
    rest.kind = RestKind::Containment;
    rest.stiffness = Stiffness::from_si(1000.0);
    rest.damping = Damping::from_si(0.7);
    rest.share = Ratio::from_si(0.4);
    rest.delay = Time::ZERO;
    rest.ahead = Length::from_si(brace);
    Bow {
        draw_length: Length::from_si(pivot + stroke),
        brace_height: Length::from_si(brace),
        curve: Some(DrawCurve::new(&readings).expect("rises")),
        hysteresis: Ratio::ZERO,
        speed: SpeedSource::Stored,
        limb_mass: Mass::from_si(0.18),
        string: BowString {
            mass: Mass::from_si(0.009),
            nocking: Mass::from_si(0.0012),
            stiffness: Force::from_si(2e5),
            grip: Force::ZERO,
        },
        restraint: Restraint { left: Ratio::from_si(1.0), up: Ratio::from_si(1.0) },
        tip_line: Length::from_si(0.055),
        half_string: Length::from_si(0.41),
        gravity: Acceleration::ZERO,
        release: Release::default(),
        rest,
        ..base
    }
}

/// The reference arrow of 425 gr, with a field point or three blades.
pub fn arrow(bladed: bool) -> Parts {
    let mut parts = hunting(if bladed { 3 } else { 0 });
    parts.point.mass = Mass::from_si(100.0 * 6.479_891e-5);
    parts
}

/// A fault of 0.1 mm to the left (0) or up (1).
fn beside(plane: usize) -> Shift {
    let clock = [-std::f64::consts::FRAC_PI_2, 0.0][plane];
    Shift { offset: Length::from_si(1e-4), clock: Angle::from_si(clock) }
}

/// A groove off centre.
pub fn groove(plane: usize) -> Faults {
    Faults { groove_offset: beside(plane), ..Faults::default() }
}

/// A point off centre.
pub fn point(plane: usize) -> Faults {
    Faults { point_offset: beside(plane), ..Faults::default() }
}

/// Departure and arrow.
///
/// # Panics
/// When there is none.
#[expect(clippy::expect_used, reason = "a test that cannot push has failed")]
pub fn pushed(bow: &Bow, parts: &Parts, faults: &Faults) -> (Departure, Built) {
    let built = arrow::build(parts, faults).expect("possible");
    let (form, given) = (Form::default(), GivenDeparture::default());
    (depart(bow, parts, &built, Angle::ZERO, &form, &given).expect("a push"), built)
}

/// How a plane of the departure changes with a fault: place, velocity, angle, rate.
pub fn kick(bow: &Bow, parts: &Parts, faults: &Faults, plane: usize) -> [f64; 4] {
    let of = |d: &Departure| {
        [[d.left, d.velocity_left, d.yaw, d.yaw_rate], [d.up, d.velocity_up, d.pitch, d.pitch_rate]]
            [plane]
    };
    let (with, without) = (pushed(bow, parts, faults).0, pushed(bow, parts, &Faults::default()).0);
    let (with, without) = (of(&with), of(&without));
    std::array::from_fn(|i| with[i] - without[i])
}

/// The coefficients before carry-over, layer and wake: slender nose, Barrowman's
/// fins with one power of 1 + x; sums of slope, slope times arm, times arm squared.
pub fn plain(parts: &Parts, built: &Built) -> [f64; 3] {
    let radius = 0.5 * parts.shaft.outside.si();
    let balance = built.mass.balance().si();
    let tip = built.layout.tip.si();
    let mut lifts = vec![(
        2.0 * std::f64::consts::PI * radius * radius,
        tip - 0.5 * parts.point.length.si() - balance,
    )];
    let mut fins = |set: FinSet, front: f64| {
        lifts.push((0.5 * set.count * set.lone_slope(), front - set.centre() - balance));
    };
    if let Some(vanes) = parts.vanes {
        fins(
            FinSet {
                count: f64::from(vanes.count),
                span: vanes.span.si(),
                root: vanes.root.si(),
                tip: vanes.tip.si(),
                sweep: vanes.sweep.si(),
                radius,
            },
            built.layout.vane_front.si(),
        );
    }
    if let Some(blades) = parts.point.blades {
        fins(
            FinSet {
                count: f64::from(blades.count),
                span: blades.span.si(),
                root: blades.root.si(),
                tip: blades.tip.si(),
                sweep: blades.sweep.si(),
                radius,
            },
            built.layout.blade_front.si(),
        );
    }
    [0, 1, 2].map(|power| lifts.iter().map(|(slope, arm)| slope * arm.powi(power)).sum())
}

/// Impact of a linear flight at constant speed without weight, in: forces square
/// to the shaft by incidence and turning, and a drag area (m2) along the shaft,
/// which takes its share off the lift.
pub fn linear(start: [f64; 4], speed: f64, built: &Built, sums: [f64; 3], axial: f64) -> f64 {
    let (mass, inertia) = (built.mass.mass().si(), built.mass.transverse().si());
    let [s0, s1, s2] = sums;
    let pressure = 0.5 * DENSITY * speed * speed;
    let slope = |_: f64, y: &[f64; 4]| {
        let [_, across, angle, rate] = *y;
        let (incidence, turning) = (angle - across / speed, rate / speed);
        let force = pressure * ((s0 - axial) * incidence - s1 * turning);
        let moment = pressure * (s1 * incidence - s2 * turning);
        [across, force / mass, rate, moment / inertia]
    };
    let mut y = start;
    let steps = 2000;
    for _ in 0..steps {
        y = solve::rk4(slope, 0.0, &y, DISTANCE / speed / f64::from(steps));
    }
    y[0] / INCH
}

/// What the air takes along the shaft, m2.
///
/// # Panics
/// Never: the air is possible.
#[expect(clippy::expect_used, reason = "possible air")]
pub fn drag_area(parts: &Parts, built: &Built, speed: f64) -> f64 {
    let air = flight::Air::of(&crate::site().weather).expect("air");
    let aero = flight::aero::aero(parts, built, &choice(), &air, speed).expect("finite");
    aero.drag_parts.total()
}

/// Impact of the flight as it is now, left and up, in, from this departure, with so
/// much of the head's wake.
pub fn flown(parts: &Parts, faults: &Faults, departure: &Departure, wake: f64) -> [f64; 2] {
    let mut choice = choice();
    choice.factors.wake = Ratio::from_si(wake);
    let d = departure;
    let (model, _) = ready(parts, faults, &choice, d.speed);
    let mut state = start(d.speed);
    state.position = Vector3::new(0.0, d.left, d.up);
    state.velocity = Vector3::new(d.speed, d.velocity_left, d.velocity_up);
    state.axis = Attitude { yaw: d.yaw, pitch: d.pitch }.axis();
    state.rate = Vector3::new(0.0, -d.pitch_rate, d.yaw_rate);
    at(&model, &state, DISTANCE).map(|place| place / INCH)
}
