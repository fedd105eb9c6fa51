use arrow::{Built, Faults, Parts, Shift};
use body::Across;
use clothyard_tests::push::{arrow, bow, faults, recurve};
use launch::{
    Bow, BowAndArrow, BowKind, BowString, Departure, ForceLaw, Form, GivenDeparture,
    LinearResponse, PushShape, Range, Restraint, SpeedSource, depart, kinetic_energy, own_speed,
};
use units::{Angle, AngularRate, Length, Mass, Quantity, Ratio, Speed};

fn shot(bow: &Bow, parts: &Parts, built: &Built) -> Departure {
    let (form, given) = (Form::default(), GivenDeparture::default());
    depart(bow, parts, built, Angle::ZERO, &form, &given).unwrap()
}

/// The push at a groove above the axis turns the nose down.
#[test]
fn law_groove_up_kicks_the_nose_down_when_nothing_holds() {
    let mut free = bow();
    free.restraint = Restraint { left: Ratio::ZERO, up: Ratio::ZERO };
    free.rest.share = Ratio::ZERO;
    let groove_offset = Shift { offset: Length::from_si(1e-4), clock: Angle::ZERO };
    let (parts, built) = arrow(&Faults { groove_offset, ..Faults::default() });
    let end = shot(&free, &parts, &built);
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

#[test]
fn law_heavier_arrows_fly_slower_and_carry_more() {
    let masses = [0.02, 0.025, 0.03, 0.04].map(Mass::from_si);
    for source in [bow().speed, SpeedSource::Stored] {
        let bow = Bow { speed: source, ..bow() };
        for pair in masses.windows(2) {
            let [light, heavy] = [pair[0], pair[1]].map(|m| (m, own_speed(&bow, m).unwrap()));
            assert!(light.1.si() > heavy.1.si());
            assert!(kinetic_energy(light.0, light.1).si() < kinetic_energy(heavy.0, heavy.1).si());
        }
    }
}

#[test]
fn law_given_values_replace_and_form_adds() {
    let (parts, built) = arrow(&faults(1.0));
    let plain = shot(&bow(), &parts, &built);
    let form = Form {
        speed: Speed::from_si(-1.0),
        release_left: Angle::from_si(0.01),
        release_up: Angle::from_si(-0.02),
        ..Form::default()
    };
    let none = GivenDeparture::default();
    let formed = depart(&bow(), &parts, &built, Angle::ZERO, &form, &none).unwrap();
    assert!((formed.speed - (plain.speed - 1.0)).abs() < 1e-12);
    // The angle of the kick is below 2 mrad and depends little on speed.
    assert!((formed.yaw - plain.yaw - 0.01).abs() < 1e-4);
    assert!((formed.pitch - plain.pitch + 0.02).abs() < 1e-4);

    let given = GivenDeparture {
        speed: Some(Speed::from_si(70.0)),
        yaw: Some(Angle::from_si(0.03)),
        pitch: Some(Angle::from_si(0.0)),
        yaw_rate: Some(AngularRate::from_si(1.5)),
        pitch_rate: Some(AngularRate::from_si(-2.0)),
        spin: Some(AngularRate::from_si(100.0)),
    };
    let end = depart(&bow(), &parts, &built, Angle::ZERO, &form, &given).unwrap();
    assert_eq!((end.speed, end.yaw_rate, end.pitch_rate, end.spin), (69.0, 1.5, -2.0, 100.0));
    // Angles count from the line of motion.
    assert!((end.yaw - end.velocity_left / end.speed - 0.04).abs() < 1e-15);
    assert!((end.pitch - end.velocity_up / end.speed + 0.02).abs() < 1e-15);
}

fn with<Q: Quantity>(value: f64) -> Q {
    Q::from_si(value)
}

/// What no bow can have is refused, and so is every value that is no number,
/// whether by the full push or by the map.
#[test]
fn law_numbers_that_are_none_are_refused() {
    let base = bow();
    let rest = |rest: launch::Rest| Bow { rest, ..base };
    let bad = vec![
        Bow { draw_length: with(f64::NAN), ..base },
        Bow { brace_height: with(f64::NAN), ..base },
        Bow { let_off: with(f64::NAN), ..base },
        Bow { virtual_mass: Some(with(f64::NAN)), ..base },
        Bow { limb_mass: with(f64::NAN), ..base },
        Bow { gravity: with(f64::NAN), ..base },
        Bow { string: BowString { grip: with(f64::NAN), ..base.string }, ..base },
        Bow { string: BowString { mass: with(-1.0), ..base.string }, ..base },
        Bow { string: BowString { stiffness: with(0.0), ..base.string }, ..base },
        Bow { restraint: Restraint { left: with(f64::INFINITY), ..base.restraint }, ..base },
        Bow { restraint: Restraint { up: with(f64::NAN), ..base.restraint }, ..base },
        Bow { tip_line: with(0.0), ..base },
        Bow { half_string: with(f64::NAN), ..base },
        // Shorter than the nock stands behind the tips.
        Bow { half_string: with(0.5), draw_length: with(0.78), ..recurve() },
        Bow { hysteresis: with(f64::NAN), speed: SpeedSource::Stored, ..base },
        Bow { release: launch::Release { left: with(f64::NAN), up: with(0.0) }, ..base },
        Bow { path: launch::NockPath { left: with(0.0), up: with(f64::NAN) }, ..base },
        rest(launch::Rest { stiffness: with(f64::NAN), ..base.rest }),
        rest(launch::Rest { damping: with(-1.0), ..base.rest }),
        rest(launch::Rest { share: with(1.5), ..base.rest }),
        rest(launch::Rest { delay: with(f64::NAN), ..base.rest }),
        rest(launch::Rest { ahead: with(f64::NAN), ..base.rest }),
        rest(launch::Rest { preload: with(f64::NAN), ..base.rest }),
        Bow { speed: SpeedSource::Chronograph { speed: with(f64::NAN), mass: with(0.02) }, ..base },
    ];
    let (parts, built) = arrow(&faults(1.0));
    let none = GivenDeparture::default();
    for bow in bad {
        let end = depart(&bow, &parts, &built, Angle::ZERO, &Form::default(), &none);
        assert!(end.is_err(), "{bow:?} gave {end:?}");
    }
    let form = Form { release_left: with(f64::NAN), ..Form::default() };
    assert!(depart(&base, &parts, &built, Angle::ZERO, &form, &none).is_err());
    assert!(depart(&base, &parts, &built, with(f64::NAN), &Form::default(), &none).is_err());
    let pair = BowAndArrow { bow: base, parts, built: built.clone(), index: Angle::ZERO };
    let kit = LinearResponse::new(pair, Range::only(0.0), &none).unwrap().unwrap();
    assert!(kit.depart(&built, Angle::ZERO, &Form::default(), &none, &[]).is_ok());
    let mut nan = built.clone();
    nan.shape.groove = Across { at0: f64::NAN, at90: 0.0 };
    assert!(depart(&base, &parts, &nan, Angle::ZERO, &Form::default(), &none).is_err());
    let lost = kit.depart(&nan, Angle::ZERO, &Form::default(), &none, &[]);
    // Handed on to the full push, which names it, or named here.
    assert!(lost.is_err() || lost.is_ok_and(|departure| departure.is_none()));
    let mut soft = parts;
    soft.shaft.damping = with(f64::NAN);
    assert!(depart(&base, &soft, &built, Angle::ZERO, &Form::default(), &none).is_err());
}
