//! Signs of directions and attitudes, and what a body may be.

use std::f64::consts::{FRAC_PI_2, PI};

use body::{Across, Attitude, MassError, MassProperties, State};
use nalgebra::Vector3;
use units::{Inertia, Length, Mass};

fn near(a: (f64, f64), b: (f64, f64)) -> bool {
    (a.0 - b.0).abs() < 1e-15 && (a.1 - b.1).abs() < 1e-15
}

/// Seen from the nock the clock runs clockwise: up, right, down, left.
#[test]
fn exact_clock_positions_without_roll() {
    let quarter_turns = [(0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)];
    for (quarter, left_up) in (0_u8..).zip(quarter_turns) {
        let across = Across::polar(1.0, f64::from(quarter) * FRAC_PI_2);
        assert!(near(across.left_up(0.0), left_up), "quarter {quarter}");
    }
}

/// Roll carries the index vane clockwise: a quarter turn puts it at the right.
#[test]
fn exact_roll_is_clockwise_from_the_nock() {
    let index_vane = Across { at0: 1.0, at90: 0.0 };
    assert!(near(index_vane.left_up(FRAC_PI_2), (-1.0, 0.0)));
    assert!(near(index_vane.left_up(PI), (0.0, -1.0)));
}

/// Size and clock position come back from the components.
#[test]
fn exact_polar_round_trip() {
    for clock in [-3.0, -FRAC_PI_2, 0.0, 0.3, PI] {
        let across = Across::polar(0.02, clock);
        assert!((across.size() - 0.02).abs() < 1e-17);
        assert!((across.clock() - clock).abs() < 1e-15);
    }
    assert_eq!(Across::ZERO.clock().to_bits(), 0);
}

/// A limit shortens what is longer, keeps its direction, and leaves the rest.
#[test]
fn exact_limited_keeps_the_direction() {
    let long = Across::polar(3.0, 0.7).limited(2.0);
    assert!((long.size() - 2.0).abs() < 1e-15 && (long.clock() - 0.7).abs() < 1e-15);
    let short = Across::polar(1.0, 0.7);
    assert_eq!(short.limited(2.0), short);
    assert_eq!(Across::ZERO.limited(0.0), Across::ZERO);
}

/// Vector arithmetic is that of the components.
#[test]
fn exact_across_arithmetic() {
    let (a, b) = (Across { at0: 1.0, at90: 2.0 }, Across { at0: 0.25, at90: -4.0 });
    assert_eq!(a + b, Across { at0: 1.25, at90: -2.0 });
    assert_eq!(a - b, Across { at0: 0.75, at90: 6.0 });
    assert_eq!(-a * 2.0, Across { at0: -2.0, at90: -4.0 });
}

/// Nose left is positive yaw, nose up positive pitch.
#[test]
fn exact_attitude_signs() {
    let left = Attitude::of(&Vector3::new(1.0, 0.1, 0.0));
    assert!((left.yaw - 0.1_f64.atan()).abs() < 1e-16 && left.pitch.to_bits() == 0);
    let up = Attitude::of(&Vector3::new(1.0, 0.0, 0.1));
    assert!((up.pitch - 0.1_f64.atan()).abs() < 1e-16 && up.yaw.to_bits() == 0);
}

/// An attitude survives the way through its unit vector, of any length.
#[test]
fn exact_attitude_round_trip() {
    for yaw in [-3.0, -0.2, 0.0, 1.0, 3.1] {
        for pitch in [-1.5, -0.01, 0.0, 0.4, 1.5] {
            let axis = Attitude { yaw, pitch }.axis();
            assert!((axis.norm() - 1.0).abs() < 1e-15);
            let back = Attitude::of(&(axis * 7.0));
            // Yaw loses digits as the nose nears the vertical: 1/cos 1.5 = 14.
            assert!((back.yaw - yaw).abs() < 1e-14 && (back.pitch - pitch).abs() < 1e-14);
        }
    }
}

/// Every value that no body can have is refused, and named.
#[test]
fn exact_impossible_mass_properties_are_refused() {
    let of = |mass, balance, transverse, axial| {
        MassProperties::new(
            Mass::from_si(mass),
            Length::from_si(balance),
            Inertia::from_si(transverse),
            Inertia::from_si(axial),
        )
    };
    let good = of(0.028, 0.45, 1.9e-3, 2e-7).unwrap();
    assert_eq!((good.mass(), good.balance()), (Mass::from_si(0.028), Length::from_si(0.45)));
    assert_eq!((good.transverse().si(), good.axial().si()), (1.9e-3, 2e-7));
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        for (given, named) in [
            (of(bad, 0.45, 1.9e-3, 2e-7), "mass"),
            (of(0.028, 0.45, bad, 2e-7), "transverse"),
            (of(0.028, 0.45, 1.9e-3, bad), "axial"),
        ] {
            assert!(
                matches!(given, Err(MassError::NotPositive { what, .. }) if what.contains(named))
            );
        }
    }
    assert!(matches!(of(0.028, f64::NAN, 1.9e-3, 2e-7), Err(MassError::Balance { .. })));
    // A flat ring has exactly twice; nothing has more.
    assert!(of(0.028, 0.45, 1e-3, 2e-3).is_ok());
    let more = of(0.028, 0.45, 1e-3, 2e-3_f64.next_up());
    assert!(matches!(more, Err(MassError::Triangle { .. })));
}

/// One number that is not finite makes the state so, wherever it is.
#[test]
fn exact_a_state_knows_whether_it_is_finite() {
    let zero = Vector3::zeros();
    let good = State {
        time: 0.0,
        position: zero,
        velocity: Vector3::new(80.0, 0.0, 0.0),
        axis: Vector3::x(),
        rate: zero,
        spin: 0.0,
        roll: 0.0,
    };
    assert!(good.is_finite());
    let bad = Vector3::new(0.0, f64::NAN, 0.0);
    let spoilt = [
        State { time: f64::INFINITY, ..good },
        State { position: bad, ..good },
        State { velocity: bad, ..good },
        State { axis: bad, ..good },
        State { rate: bad, ..good },
        State { spin: f64::NAN, ..good },
        State { roll: f64::NEG_INFINITY, ..good },
    ];
    for state in spoilt {
        assert!(!state.is_finite(), "{state:?}");
    }
}
