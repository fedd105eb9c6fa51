//! Invented arrows with a fixed-blade head, and bent ones, as the tests of wake
//! and curve fly them: a clean start, the launch left out.

use arrow::{
    Bend, Blades, Built, Faults, Given, Insert, Lean, Nock, Parts, Point, PointShape, Shaft, Vanes,
};
use body::{Attitude, State};
use flight::{AeroChoice, Model, Site, Tolerance, fly, model};
use nalgebra::Vector3;
use units::{Acceleration, Angle, Length, LinearDensity, Mass, Ratio, Speed};

use crate::{site, start};

const INCH: f64 = 0.0254;
const GRAIN: f64 = 6.479_891e-5;

fn inches(value: f64) -> Length {
    Length::from_si(value * INCH)
}

fn grains(value: f64) -> Mass {
    Mass::from_si(value * GRAIN)
}

/// A hunting arrow of 449 gr with a head of this many blades, or a field point
/// for none: 0.246 in shaft of 28.5 in, three vanes 12.7 x 53 mm, cut 27.6 mm.
pub fn hunting(blades: u8) -> Parts {
    Parts {
        shaft: Shaft {
            outside: inches(0.246),
            inside: inches(0.204),
            density: LinearDensity::from_si(9.5 * GRAIN / INCH),
            spine: inches(0.340),
            length: inches(28.5),
            stiff_side: Ratio::ZERO,
            stiff_clock: Angle::ZERO,
            damping: Ratio::from_si(0.02),
        },
        point: Point {
            shape: if blades > 0 { PointShape::FixedBlade } else { PointShape::Field },
            mass: grains(125.0),
            length: inches(if blades > 0 { 1.6 } else { 0.95 }),
            balance: inches(if blades > 0 { 0.32 } else { 0.19 }),
            diameter: inches(0.246),
            shank: inches(0.75),
            clearance: Length::from_si(5e-5),
            blades: (blades > 0).then(|| Blades {
                count: blades,
                span: inches(0.42),
                root: inches(1.1),
                tip: Length::ZERO,
                sweep: inches(1.1),
                thickness: inches(0.03),
                setback: inches(0.3),
                clock: Angle::ZERO,
            }),
        },
        insert: Some(Insert {
            mass: grains(25.0),
            engaged: inches(0.9),
            shoulder: inches(0.03),
            clearance: Length::from_si(5e-5),
        }),
        outsert: None,
        collar: None,
        nock: Nock {
            mass: grains(9.5),
            outside: inches(0.6),
            groove_depth: inches(0.2),
            engaged: inches(0.5),
            clearance: Length::from_si(5e-5),
        },
        vanes: Some(Vanes {
            count: 3,
            mass: grains(6.5),
            span: inches(0.5),
            root: inches(2.1),
            tip: inches(0.6),
            sweep: inches(1.2),
            thickness: inches(0.03),
            position: inches(1.25),
            angle: Angle::from_si(2.0_f64.to_radians()),
        }),
        wrap: None,
        given: Given::default(),
    }
}

/// An arrow of 449 gr with a thick shaft, 29 in and 9.13 mm, its vanes at this
/// angle (rad).
pub fn indoor(angle: f64) -> Parts {
    let mut parts = hunting(0);
    parts.shaft.outside = Length::from_si(9.13e-3);
    parts.shaft.inside = Length::from_si(8.3e-3);
    parts.shaft.length = inches(29.0);
    parts.point.diameter = Length::from_si(9.13e-3);
    parts.point.mass = grains(120.0);
    if let Some(vanes) = &mut parts.vanes {
        vanes.angle = Angle::from_si(angle);
    }
    parts
}

/// A point canted by so much, rad.
pub fn canted(angle: f64) -> Faults {
    let point_cant = Lean { angle: Angle::from_si(angle), clock: Angle::ZERO };
    Faults { point_cant, ..Faults::default() }
}

/// A shaft that reads so much in total over 28 in, m, bowed out toward clock 0.
pub fn bent(total: f64) -> Faults {
    let (bow, span) = (Length::from_si(0.5 * total), inches(28.0));
    Faults { bend: Some(Bend { bow, span, clock: Angle::ZERO }), ..Faults::default() }
}

/// Model without gravity, as the linear program had none, and built arrow.
///
/// # Panics
/// Never: the values are fixed and possible.
#[expect(clippy::expect_used, reason = "fixed and possible values")]
pub fn ready(
    parts: &Parts,
    faults: &Faults,
    choice: &AeroChoice,
    speed: f64,
) -> (Model<f64>, Built) {
    let built = arrow::build(parts, faults).expect("possible");
    let at = Speed::from_si(speed);
    let weightless = Site { gravity: Acceleration::ZERO, ..site() };
    (model(parts, &built, choice, &weightless, at).expect("finite coefficients"), built)
}

/// A start with the nose to the left by `yaw` (rad) and turning left by `rate`
/// (rad/s), the shaft rolled.
pub fn thrown(speed: f64, yaw: f64, rate: f64, roll: f64) -> State {
    let mut state = start(speed);
    state.axis = Attitude { yaw, pitch: 0.0 }.axis();
    state.rate = Vector3::new(0.0, 0.0, rate);
    state.roll = roll;
    state
}

/// Where it is at this distance, left and up, m.
///
/// # Panics
/// When the flight fails or falls short.
#[expect(clippy::expect_used, reason = "a test that cannot fly has failed")]
pub fn at(model: &Model<f64>, start: &State, distance: f64) -> [f64; 2] {
    let tight = Tolerance { relative: 1e-10, per_turn: 16.0 };
    let flight = fly(model, start, &[distance], &tight).expect("flies");
    let place = flight.marks.first().expect("arrives").position;
    [place.y, place.z]
}
