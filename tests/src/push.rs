//! A bow and an arrow of our own invention, for tests of the push.

use arrow::{Built, Effects, Layout};
use body::MassProperties;
use launch::{Bow, BowKind, Rest, SpeedSource};
use units::{BendingStiffness, Damping, Force, Inertia, Length, Mass, Ratio, Speed, Stiffness};

/// An invented compound.
pub fn bow() -> Bow {
    Bow {
        kind: BowKind::Compound,
        draw_weight: Force::from_si(300.0),
        draw_length: Length::from_si(0.72),
        brace_height: Length::from_si(0.165_55),
        let_off: Ratio::from_si(0.8),
        speed: SpeedSource::Chronograph {
            speed: Speed::from_si(86.0),
            mass: Mass::from_si(0.0275),
        },
        virtual_mass: Mass::from_si(0.0055),
        restraint: Ratio::from_si(0.7),
        tip_line: Length::from_si(0.04),
        rest: Rest {
            stiffness: Stiffness::from_si(1500.0),
            damping: Damping::from_si(0.9),
            share: Ratio::from_si(0.35),
            ahead: Length::from_si(0.17),
        },
    }
}

/// An invented arrow with these effects of faults.
///
/// # Panics
/// Never: the values are fixed and possible.
pub fn arrow(effects: Effects) -> Built {
    #[expect(clippy::expect_used, reason = "fixed and possible values")]
    let mass = MassProperties::new(
        Mass::from_si(0.0275),
        Length::from_si(0.46),
        Inertia::from_si(1.9e-3),
        Inertia::from_si(4e-7),
    )
    .expect("possible");
    Built {
        mass,
        length: Length::from_si(0.73),
        foc: Ratio::from_si(0.13),
        stiffness: BendingStiffness::from_si(7.0),
        layout: Layout {
            shaft_rear: Length::from_si(0.01),
            shaft_front: Length::from_si(0.73),
            point_seat: Length::from_si(0.73),
            tip: Length::from_si(0.75),
            vane_front: Length::from_si(0.08),
            blade_front: Length::from_si(0.75),
        },
        effects,
        notes: Vec::new(),
    }
}
