use arrow::{Built, Effects};
use body::Across;
use clothyard_tests::push::{arrow, bow};
use launch::{
    Bow, BowKind, Departure, Form, GivenDeparture, Guide, Law, PushShape, STEPS, Stick, depart,
    kinetic_energy, own_speed, ride,
};
use units::{Angle, AngularRate, Mass, Quantity, Ratio, Speed};

/// The same force all along the stroke.
struct Even;

impl Law for Even {
    fn force(&self, _: f64) -> f64 {
        1.0
    }
    fn mean(&self, _: f64) -> f64 {
        1.0
    }
}

const FAULTS: Effects = Effects {
    groove_offset: Across { at0: 8e-5, at90: -3e-5 },
    balance_offset: Across { at0: -2e-5, at90: 5e-5 },
    shaft_tilt: Across { at0: 1e-4, at90: 2e-4 },
    point_tilt: Across::ZERO,
    tip_offset: Across::ZERO,
    vane: arrow::VaneError { angle: 0.0, around: 0.0, forward: 0.0 },
};

fn scaled(by: f64) -> Effects {
    Effects {
        groove_offset: FAULTS.groove_offset * by,
        balance_offset: FAULTS.balance_offset * by,
        shaft_tilt: FAULTS.shaft_tilt * by,
        ..Effects::default()
    }
}

fn shot(built: &Built, index: f64) -> Departure {
    let (form, given) = (Form::default(), GivenDeparture::default());
    depart(&bow(), built, Angle::from_si(index), &form, &given).unwrap()
}

/// Everything sideways: left, then up.
fn sideways(d: &Departure) -> [[f64; 2]; 4] {
    [[d.left, d.up], [d.yaw, d.pitch], [d.velocity_left, d.velocity_up], [d.yaw_rate, d.pitch_rate]]
}

#[test]
fn law_no_fault_no_kick() {
    let end = shot(&arrow(Effects::default()), 0.3);
    assert_eq!(sideways(&end), [[0.0; 2]; 4]);
    assert!((end.speed - 86.0).abs() < 1e-12);
    assert_eq!((end.spin, end.roll), (0.0, 0.3));
}

#[test]
fn law_twice_the_fault_twice_the_kick() {
    let (once, twice) = (shot(&arrow(scaled(1.0)), 0.0), shot(&arrow(scaled(2.0)), 0.0));
    // Doubling is exact in binary, so the linear equations keep every bit.
    assert_eq!(sideways(&once).map(|pair| pair.map(|v| 2.0 * v)), sideways(&twice));
    assert!(once.yaw_rate != 0.0 && once.pitch_rate != 0.0);
}

#[test]
fn law_mirrored_faults_give_a_mirrored_departure() {
    let mirror = |v: Across| Across { at0: v.at0, at90: -v.at90 };
    let mirrored = Effects {
        groove_offset: mirror(FAULTS.groove_offset),
        balance_offset: mirror(FAULTS.balance_offset),
        shaft_tilt: mirror(FAULTS.shaft_tilt),
        ..Effects::default()
    };
    let (one, other) = (shot(&arrow(FAULTS), 0.7), shot(&arrow(mirrored), -0.7));
    assert_eq!(sideways(&one).map(|[left, up]| [-left, up]), sideways(&other));
}

/// A quarter turn clockwise, seen from the nock, takes up to right.
#[test]
fn law_rolling_the_arrow_rolls_the_kick() {
    let upright = sideways(&shot(&arrow(FAULTS), 0.0));
    let rolled = sideways(&shot(&arrow(FAULTS), std::f64::consts::FRAC_PI_2));
    for ([left, up], [rolled_left, rolled_up]) in upright.into_iter().zip(rolled) {
        let size = left.hypot(up);
        assert!((rolled_left + up).abs() < 1e-13 * size);
        assert!((rolled_up - left).abs() < 1e-13 * size);
    }
}

/// The push at a groove above the axis turns the nose down.
#[test]
fn law_groove_up_kicks_the_nose_down_when_nothing_holds() {
    let mut free = bow();
    free.restraint = Ratio::ZERO;
    free.rest.share = Ratio::ZERO;
    let built =
        arrow(Effects { groove_offset: Across { at0: 1e-4, at90: 0.0 }, ..Effects::default() });
    let (form, given) = (Form::default(), GivenDeparture::default());
    let end = depart(&free, &built, Angle::ZERO, &form, &given).unwrap();
    assert!(end.pitch_rate < 0.0 && end.yaw_rate == 0.0, "{end:?}");
}

fn shapes() -> Vec<PushShape> {
    let compound = |let_off| PushShape::new(BowKind::Compound, Ratio::from_si(let_off)).unwrap();
    vec![
        compound(0.0),
        compound(0.8),
        compound(0.95),
        PushShape::new(BowKind::Recurve, Ratio::ZERO).unwrap(),
        PushShape::new(BowKind::Longbow, Ratio::ZERO).unwrap(),
    ]
}

#[test]
fn law_push_is_positive_and_ends_at_zero() {
    for shape in shapes() {
        for i in 0..1000 {
            assert!(shape.force(f64::from(i) / 1000.0) > 0.0);
        }
        assert!(shape.force(1.0).abs() < f64::MIN_POSITIVE);
        assert!((shape.mean(0.0) - shape.force(0.0)).abs() < 1e-15);
    }
}

/// The work up to s grows by the force at s.
#[test]
fn law_mean_push_is_the_mean_of_the_push() {
    for shape in shapes() {
        let work = |s: f64| s * shape.mean(s);
        for i in 1..100 {
            let (s, h) = ((f64::from(i) + 0.003) / 100.5, 1e-5);
            let slope = (work(s + h) - work(s - h)) / (2.0 * h);
            // Central difference: h^2 times the third derivative, plus rounding.
            assert!((slope - shape.force(s)).abs() < 1e-8, "{shape:?} {s}");
        }
    }
}

/// The step count is enough for soft and stiff bows of every kind.
#[test]
fn law_doubling_the_steps_changes_nothing_that_matters() {
    let stick = Stick {
        mass: 0.0275,
        inertia: 1.9e-3,
        lever: 0.46,
        groove: [1e-4, 0.0],
        balance: [0.0, 1e-4],
        tilt: [1e-4, 3e-4],
    };
    let soft = Guide {
        stroke: 0.51,
        speed: 86.0,
        restraint: 1.0,
        tip_line: 0.03,
        rest_stiffness: 1000.0,
        rest_damping: 0.7,
        rest_share: 0.4,
        rest_ahead: 0.17,
    };
    let held = Guide { rest_share: 1.0, rest_damping: 5.0, ..soft };
    let stiff = Guide { restraint: 20.0, tip_line: 0.005, rest_stiffness: 1e5, ..soft };
    for shape in shapes() {
        for guide in [soft, held, stiff] {
            let once = ride(&shape, &guide, &stick, STEPS).unwrap();
            let twice = ride(&shape, &guide, &stick, 2 * STEPS).unwrap();
            for (a, b) in [
                (once.angle, twice.angle),
                (once.rate, twice.rate),
                (once.velocity, twice.velocity),
                (once.place, twice.place),
            ] {
                let change = (a[0] - b[0]).hypot(a[1] - b[1]) / b[0].hypot(b[1]);
                assert!(change < 1e-4, "{shape:?} {guide:?} {change:e}");
            }
        }
    }
}

#[test]
fn law_heavier_arrows_fly_slower_and_carry_more() {
    let masses = [0.02, 0.025, 0.03, 0.04].map(Mass::from_si);
    for pair in masses.windows(2) {
        let [light, heavy] = [pair[0], pair[1]].map(|m| (m, own_speed(&bow(), m).unwrap()));
        assert!(light.1.si() > heavy.1.si());
        assert!(kinetic_energy(light.0, light.1).si() < kinetic_energy(heavy.0, heavy.1).si());
    }
}

#[test]
fn law_given_values_replace_and_form_adds() {
    let built = arrow(FAULTS);
    let plain = shot(&built, 0.0);
    let form = Form {
        speed: Speed::from_si(-1.0),
        release_left: Angle::from_si(0.01),
        release_up: Angle::from_si(-0.02),
        ..Form::default()
    };
    let none = GivenDeparture::default();
    let formed = depart(&bow(), &built, Angle::ZERO, &form, &none).unwrap();
    assert!((formed.speed - (plain.speed - 1.0)).abs() < 1e-12);
    // At the same stroke the kick in angle does not depend on speed but
    // through the rest, so form's angle is seen to a few per cent of the kick.
    assert!((formed.yaw - plain.yaw - 0.01).abs() < 0.05 * plain.yaw.abs());
    assert!((formed.pitch - plain.pitch + 0.02).abs() < 0.05 * plain.pitch.abs());

    let given = GivenDeparture {
        speed: Some(Speed::from_si(70.0)),
        yaw: Some(Angle::from_si(0.03)),
        pitch: Some(Angle::from_si(0.0)),
        yaw_rate: Some(AngularRate::from_si(1.5)),
        pitch_rate: Some(AngularRate::from_si(-2.0)),
        spin: Some(AngularRate::from_si(100.0)),
    };
    let end = depart(&bow(), &built, Angle::ZERO, &form, &given).unwrap();
    assert_eq!((end.speed, end.yaw_rate, end.pitch_rate, end.spin), (69.0, 1.5, -2.0, 100.0));
    // Angles count from the line of motion.
    assert!((end.yaw - end.velocity_left / end.speed - 0.04).abs() < 1e-15);
    assert!((end.pitch - end.velocity_up / end.speed + 0.02).abs() < 1e-15);
}

/// A rest and a string that hold fast leave the arrow no freedom: its angle
/// follows from where it lies.
#[test]
fn law_fast_rest_and_string_hold_the_shaft_on_the_line() {
    let guide = Guide {
        stroke: 0.51,
        speed: 86.0,
        restraint: 1e5,
        tip_line: 0.05,
        rest_stiffness: 3e9,
        rest_damping: 100.0,
        rest_share: 1.0,
        rest_ahead: 0.2,
    };
    let stick = Stick {
        mass: 0.0275,
        inertia: 1.9e-3,
        lever: 0.46,
        groove: [1e-4, 2e-4],
        balance: [-3e-4, 0.0],
        tilt: [1e-3, -5e-4],
    };
    // An even push, since one that ends at zero would free the nock.
    let end = ride(&Even, &guide, &stick, STEPS).unwrap();
    let arm = 0.2 - 0.46;
    for i in 0..2 {
        let angle = (stick.groove[i] + stick.balance[i] - arm * stick.tilt[i]) / 0.2;
        let place = stick.lever * angle - stick.groove[i];
        // The string still gives by 3e-8 m, which turns the arrow by 2e-7 rad
        // and shifts its balance point by 7e-8 m.
        assert!((end.angle[i] - angle).abs() < 3e-7, "{} {angle}", end.angle[i]);
        assert!((end.place[i] - place).abs() < 1e-7, "{} {place}", end.place[i]);
    }
}

fn with<Q: Quantity>(value: f64) -> Q {
    Q::from_si(value)
}

/// What no bow can have is refused, and so is every value that is no number.
#[test]
fn law_numbers_that_are_none_are_refused() {
    let base = bow();
    let bad = [
        Bow { draw_length: with(f64::NAN), ..base },
        Bow { brace_height: with(f64::NAN), ..base },
        Bow { let_off: with(f64::NAN), ..base },
        Bow { virtual_mass: with(f64::NAN), ..base },
        Bow { restraint: with(f64::INFINITY), ..base },
        Bow { tip_line: with(0.0), ..base },
        Bow { rest: launch::Rest { stiffness: with(f64::NAN), ..base.rest }, ..base },
        Bow { rest: launch::Rest { damping: with(-1.0), ..base.rest }, ..base },
        Bow { rest: launch::Rest { share: with(1.5), ..base.rest }, ..base },
        Bow { rest: launch::Rest { ahead: with(f64::NAN), ..base.rest }, ..base },
        Bow {
            speed: launch::SpeedSource::Chronograph { speed: with(f64::NAN), mass: with(0.02) },
            ..base
        },
    ];
    let (built, none) = (arrow(FAULTS), GivenDeparture::default());
    for bow in bad {
        let end = depart(&bow, &built, Angle::ZERO, &Form::default(), &none);
        assert!(end.is_err(), "{bow:?} gave {end:?}");
    }
    let form = Form { release_left: with(f64::NAN), ..Form::default() };
    assert!(depart(&base, &built, Angle::ZERO, &form, &none).is_err());
    assert!(depart(&base, &built, with(f64::NAN), &Form::default(), &none).is_err());
    let nan =
        arrow(Effects { groove_offset: Across { at0: f64::NAN, at90: 0.0 }, ..Effects::default() });
    assert!(depart(&base, &nan, Angle::ZERO, &Form::default(), &none).is_err());
}
