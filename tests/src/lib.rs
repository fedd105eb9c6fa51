//! Invented arrows and conditions that several tests share.

pub mod answers;
pub mod bench;
pub mod browser;
pub mod documents;
pub mod groove;
pub mod hammer;
pub mod head;
pub mod known;
pub mod marks;
pub mod program;
pub mod push;
pub mod recipe;
pub mod shots;
pub mod tables;
pub mod tune;
pub mod tuned;

use arrow::{
    Built, Effects, Faults, Given, Insert, Nock, Parts, Point, PointShape, Shaft, VaneError, Vanes,
};
use body::{Across, MassProperties, State};
use flight::{AeroChoice, AeroFactors, GivenAero, Site, Weather, Wind};
use nalgebra::Vector3;
use units::{
    Acceleration, Angle, Inertia, Length, LinearDensity, Mass, Pressure, Ratio, Speed, Temperature,
};

fn mm(value: f64) -> Length {
    Length::from_si(value * 1e-3)
}

fn gram(value: f64) -> Mass {
    Mass::from_si(value * 1e-3)
}

/// An invented hunting arrow of about 28 g on a 6.2 mm shaft.
pub fn hunter() -> Parts {
    Parts {
        shaft: Shaft {
            outside: mm(6.2),
            inside: mm(5.2),
            density: LinearDensity::from_si(0.0204),
            spine: mm(8.9),
            length: mm(720.0),
            stiff_side: Ratio::ZERO,
            stiff_clock: Angle::ZERO,
            damping: Ratio::from_si(0.02),
        },
        point: Point {
            shape: PointShape::Field,
            mass: gram(6.5),
            length: mm(22.0),
            balance: mm(6.0),
            diameter: mm(6.2),
            shank: mm(18.0),
            clearance: mm(0.05),
            blades: None,
        },
        insert: Some(Insert {
            mass: gram(3.2),
            engaged: mm(25.0),
            shoulder: mm(1.0),
            clearance: mm(0.05),
        }),
        outsert: None,
        collar: None,
        nock: Nock {
            mass: gram(0.6),
            outside: mm(17.0),
            groove_depth: mm(7.0),
            engaged: mm(12.0),
            clearance: mm(0.02),
        },
        vanes: Some(Vanes {
            count: 3,
            mass: gram(0.45),
            span: mm(11.0),
            root: mm(55.0),
            tip: mm(18.0),
            sweep: mm(37.0),
            thickness: mm(0.8),
            position: mm(32.0),
            angle: Angle::from_si(1.5_f64.to_radians()),
        }),
        wrap: None,
        given: Given::default(),
    }
}

/// The hunting arrow as built, with round mass properties in place of its own
/// and any effects, so that flight can be tested apart from the build.
///
/// # Panics
/// Never: the values are fixed and possible.
pub fn built(effects: Effects) -> Built {
    #[expect(clippy::expect_used, reason = "fixed and possible values")]
    let mass = MassProperties::new(
        gram(28.0),
        mm(430.0),
        Inertia::from_si(1.9e-3),
        Inertia::from_si(3.0e-7),
    )
    .expect("possible");
    #[expect(clippy::expect_used, reason = "fixed and possible values")]
    let own = arrow::build(&hunter(), &Faults::default()).expect("possible");
    Built { mass, effects, ..own }
}

/// Effects of every kind, small, at unlike clock positions.
pub fn lopsided() -> Effects {
    Effects {
        groove_offset: Across::polar(1e-4, 0.3),
        balance_offset: Across::polar(5e-5, 2.1),
        shaft_tilt: Across::polar(4e-4, -1.0),
        point_tilt: Across::polar(3e-3, 1.2),
        tip_offset: Across::polar(1e-4, 1.2),
        curvature: Across::polar(3e-3, 0.4),
        vane: VaneError { angle: 0.004, around: 0.02, forward: 1e-3 },
    }
}

/// Calm standard air at sea level, a level shot from 1.6 m.
pub fn site() -> Site {
    Site {
        weather: Weather {
            temperature: Temperature::from_si(288.15),
            pressure: Pressure::from_si(101_325.0),
            humidity: Ratio::ZERO,
        },
        wind: Wind { speed: Speed::ZERO, from: Angle::ZERO, profile: None },
        shot_angle: Angle::ZERO,
        release_height: Length::from_si(1.6),
        gravity: Acceleration::from_si(units::STANDARD_GRAVITY),
    }
}

/// Turbulent shaft, middle values elsewhere.
pub fn choice() -> AeroChoice {
    AeroChoice {
        turbulence: Ratio::from_si(1.0),
        nock_drag: Ratio::from_si(0.45),
        cross_flow: Ratio::from_si(1.1),
        trips_until: Length::ZERO,
        factors: AeroFactors::default(),
        given: GivenAero::default(),
    }
}

/// No air at all but what is then given.
pub fn no_air() -> AeroChoice {
    let zero = Some(Ratio::ZERO);
    AeroChoice {
        turbulence: Ratio::ZERO,
        nock_drag: Ratio::ZERO,
        cross_flow: Ratio::ZERO,
        trips_until: Length::ZERO,
        factors: AeroFactors { vane_cross_flow: Ratio::ZERO, ..AeroFactors::default() },
        given: GivenAero {
            drag: zero,
            deceleration: None,
            normal_slope: zero,
            centre_of_pressure: None,
            pitch_damping: zero,
            roll_forcing: zero,
            roll_damping: zero,
        },
    }
}

/// A clean departure along the line at this speed, m/s.
pub fn start(speed: f64) -> State {
    State {
        time: 0.0,
        position: Vector3::zeros(),
        velocity: Vector3::new(speed, 0.0, 0.0),
        axis: Vector3::x(),
        rate: Vector3::zeros(),
        spin: 0.0,
        roll: 0.0,
    }
}

/// What was compared.
///
/// # Panics
/// When the answer is about something else.
pub fn compared(answer: study::Answer) -> study::Compared {
    match answer.found {
        study::Found::Compare(compared) => compared,
        study::Found::Ends(ends) => ends.compared,
        other => panic!("no comparison: {other:?}"),
    }
}

/// What would tune the bow.
///
/// # Panics
/// When the answer is about something else.
pub fn tuning(answer: study::Answer) -> study::Tuned {
    match answer.found {
        study::Found::Tune(tuned) => tuned,
        other => panic!("no tuning: {other:?}"),
    }
}

/// An invented provenance.
pub fn provenance() -> report::Provenance {
    report::Provenance {
        version: "0.0.0".to_owned(),
        scenario: "title = \"<&>\"\n".to_owned(),
        source_name: "invented.toml".to_owned(),
        seed: 7,
    }
}

/// A document of invented provenance.
///
/// # Errors
/// As [`report::answer`].
pub fn document(
    answer: &study::Answer,
    style: units::Style,
) -> Result<report::Document, report::ReportError> {
    report::answer(answer, &provenance(), style)
}

/// What square ends do.
///
/// # Panics
/// When the answer is about something else.
pub fn square_ends(answer: study::Answer) -> study::SquareEnds {
    match answer.found {
        study::Found::Ends(ends) => *ends,
        other => panic!("no square ends: {other:?}"),
    }
}

/// What one variable does.
///
/// # Panics
/// When the answer is about something else.
pub fn swept(answer: study::Answer) -> study::Swept {
    match answer.found {
        study::Found::Sweep(swept) => swept,
        other => panic!("no sweep: {other:?}"),
    }
}
