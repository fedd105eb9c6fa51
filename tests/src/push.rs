//! A bow of our own invention, for tests of the push.

use arrow::{Bend, Built, Faults, Lean, Parts, Shift};
use launch::{
    Bow, BowKind, BowString, NockPath, Release, Rest, RestKind, Restraint, Side, SpeedSource,
};
use units::{Acceleration, Angle, Damping, Force, Length, Mass, Ratio, Speed, Stiffness, Time};

/// An invented compound.
pub fn bow() -> Bow {
    Bow {
        kind: BowKind::Compound,
        draw_weight: Force::from_si(300.0),
        draw_length: Length::from_si(0.72),
        brace_height: Length::from_si(0.165_55),
        let_off: Ratio::from_si(0.8),
        curve: None,
        hysteresis: Ratio::from_si(0.02),
        speed: SpeedSource::Chronograph {
            speed: Speed::from_si(86.0),
            mass: Mass::from_si(0.0275),
        },
        virtual_mass: None,
        limb_mass: Mass::from_si(0.18),
        string: BowString {
            mass: Mass::from_si(0.009),
            nocking: Mass::from_si(0.0012),
            stiffness: Force::from_si(2e5),
            grip: Force::from_si(10.0),
        },
        restraint: Restraint { left: Ratio::from_si(0.8), up: Ratio::from_si(0.7) },
        tip_line: Length::from_si(0.05),
        half_string: Length::from_si(0.43),
        gravity: Acceleration::from_si(9.806_65),
        release: Release::default(),
        path: NockPath::default(),
        rest: Rest {
            kind: RestKind::DropAway,
            side: Side::Left,
            stiffness: Stiffness::from_si(1500.0),
            damping: Damping::from_si(0.9),
            preload: Force::ZERO,
            share: Ratio::from_si(0.35),
            delay: Time::ZERO,
            ahead: Length::from_si(0.17),
            riser_gap: Length::from_si(0.02),
            drop: Length::from_si(0.02),
        },
    }
}

/// The same where nothing weighs, in a ring that falls away: a push that is linear in
/// every fault, and nothing without one.
pub fn level() -> Bow {
    let mut bow = Bow { gravity: Acceleration::ZERO, ..bow() };
    bow.rest.kind = RestKind::Containment;
    bow
}

/// An invented recurve shot off the fingers, with a spring-loaded side point.
pub fn recurve() -> Bow {
    Bow {
        kind: BowKind::Recurve,
        draw_weight: Force::from_si(180.0),
        brace_height: Length::from_si(0.22),
        let_off: Ratio::ZERO,
        speed: SpeedSource::Chronograph { speed: Speed::from_si(58.0), mass: Mass::from_si(0.021) },
        limb_mass: Mass::from_si(0.028),
        string: BowString {
            mass: Mass::from_si(0.0065),
            nocking: Mass::from_si(0.0006),
            stiffness: Force::from_si(1.5e5),
            grip: Force::from_si(5.0),
        },
        restraint: Restraint { left: Ratio::from_si(1.0), up: Ratio::from_si(1.0) },
        half_string: Length::from_si(0.83),
        release: Release { left: units::Momentum::from_si(0.01), up: units::Momentum::ZERO },
        rest: Rest {
            kind: RestKind::SidePoint,
            preload: Force::from_si(2.0),
            share: Ratio::from_si(1.0),
            delay: Time::ZERO,
            ahead: Length::from_si(0.2),
            ..bow().rest
        },
        ..bow()
    }
}

/// An invented longbow with a shelf.
pub fn longbow() -> Bow {
    Bow {
        kind: BowKind::Longbow,
        draw_weight: Force::from_si(200.0),
        brace_height: Length::from_si(0.165),
        limb_mass: Mass::from_si(0.031),
        string: BowString {
            mass: Mass::from_si(0.010),
            stiffness: Force::from_si(6e4),
            ..recurve().string
        },
        half_string: Length::from_si(0.86),
        speed: SpeedSource::Chronograph { speed: Speed::from_si(50.0), mass: Mass::from_si(0.03) },
        rest: Rest {
            kind: RestKind::Shelf,
            stiffness: Stiffness::from_si(5000.0),
            ahead: Length::from_si(0.17),
            ..recurve().rest
        },
        ..recurve()
    }
}

/// The shared hunting arrow with these faults.
///
/// # Panics
/// When the faults are impossible.
pub fn arrow(faults: &Faults) -> (Parts, Built) {
    let parts = crate::hunter();
    #[expect(clippy::expect_used, reason = "faults of a test are possible")]
    let built = arrow::build(&parts, faults).expect("possible");
    (parts, built)
}

/// Faults of every kind, at unlike clock positions, times a factor.
pub fn faults(by: f64) -> Faults {
    let lean = |angle: f64, clock: f64| Lean {
        angle: Angle::from_si(angle * by),
        clock: Angle::from_si(clock),
    };
    let shift = |offset: f64, clock: f64| Shift {
        offset: Length::from_si(offset * by),
        clock: Angle::from_si(clock),
    };
    Faults {
        point_cant: lean(0.002, 0.4),
        nock_cant: lean(0.003, 2.0),
        groove_offset: shift(8e-5, -0.8),
        wall_offset: shift(3e-5, 1.3),
        point_offset: shift(4e-5, -2.5),
        bend: Some(Bend {
            bow: Length::from_si(8e-5 * by),
            span: Length::from_si(0.7),
            clock: Angle::from_si(2.6),
        }),
        ..Faults::default()
    }
}
