use arrow::{Built, Faults, Parts};
use body::Across;
use clothyard_tests::push::{arrow, bow, recurve};
use launch::{
    Bow, DrawCurve, Form, GivenDeparture, LaunchError, Restraint, SpeedSource, depart,
    fit_virtual_mass, stored_energy,
};
use units::{Angle, BendingStiffness, Force, Length, Mass, Ratio, Speed};

fn refused(bow: &Bow, (parts, built): &(Parts, Built)) -> LaunchError {
    let (form, given) = (Form::default(), GivenDeparture::default());
    depart(bow, parts, built, Angle::ZERO, &form, &given).unwrap_err()
}

fn curve(readings: &[(f64, f64)]) -> Result<DrawCurve, LaunchError> {
    let readings: Vec<_> =
        readings.iter().map(|(d, f)| (Length::from_si(*d), Force::from_si(*f))).collect();
    DrawCurve::new(&readings)
}

fn read(readings: &[(f64, f64)]) -> LaunchError {
    let bow = Bow { curve: Some(curve(readings).unwrap()), ..bow() };
    stored_energy(&bow).unwrap_err()
}

fn fit(readings: &[(f64, f64)]) -> LaunchError {
    let readings: Vec<_> =
        readings.iter().map(|(m, v)| (Mass::from_si(*m), Speed::from_si(*v))).collect();
    fit_virtual_mass(&readings).unwrap_err()
}

/// Every error that a bow and an arrow can make.
#[test]
fn regress_launch_messages() {
    let base = bow();
    let plain = arrow(&Faults::default());
    // Nothing holds the arrow, and a groove far off is pushed for long.
    let mut loose = Bow { restraint: Restraint { left: Ratio::ZERO, up: Ratio::ZERO }, ..base };
    loose.rest.share = Ratio::ZERO;
    let mut far = plain.clone();
    far.1.shape.groove = Across { at0: 0.01, at90: 0.0 };
    // A slow push through a stiff and damped rest.
    let reading =
        SpeedSource::Chronograph { speed: Speed::from_si(1.0), mass: Mass::from_si(0.05) };
    let mut sticky = Bow { speed: reading, ..base };
    sticky.rest.stiffness = units::Stiffness::from_si(1e5);
    sticky.rest.damping = units::Damping::from_si(100.0);
    let mut no_number = plain.clone();
    no_number.1.shape.groove = Across { at0: f64::NAN, at90: 0.0 };
    let mut limp = plain.clone();
    limp.1.stiffness = BendingStiffness::from_si(0.0);
    let mut rough = recurve();
    rough.release.left = units::Momentum::from_si(0.3);
    let mut soft = plain.clone();
    soft.1.stiffness = BendingStiffness::from_si(2.0);
    let errors = [
        refused(&Bow { draw_length: Length::from_si(72.0), ..base }, &plain),
        refused(&Bow { gravity: units::Acceleration::from_si(f64::NAN), ..base }, &plain),
        refused(&Bow { half_string: Length::from_si(0.4), ..recurve() }, &plain),
        LaunchError::NoRelease { grip: 200.0 },
        LaunchError::NoLimbs { energy: 81.0, part: 0.9 },
        LaunchError::NoCams { drawn: 0.02 },
        refused(
            &Bow { brace_height: Length::from_si(0.58), draw_length: Length::from_si(0.6), ..base },
            &plain,
        ),
        refused(&Bow { let_off: Ratio::from_si(0.8), ..recurve() }, &plain),
        refused(&Bow { draw_length: Length::from_si(0.8), ..base }, &plain),
        refused(&loose, &far),
        refused(&sticky, &plain),
        refused(&base, &limp),
        refused(&rough, &soft),
        curve(&[(0.3, 10.0), (0.4, 20.0)]).unwrap_err(),
        curve(&vec![(0.3, 10.0); 41]).unwrap_err(),
        curve(&[(0.3, 10.0), (0.4, 20.0), (0.4, 30.0)]).unwrap_err(),
        curve(&[(0.3, -1.0), (0.4, 20.0), (0.5, 30.0)]).unwrap_err(),
        curve(&[(0.3, 10.0), (0.4, f64::NAN), (0.5, 30.0)]).unwrap_err(),
        read(&[(0.3, 10.0), (0.4, 20.0), (0.7, 30.0)]),
        read(&[(0.73, 10.0), (0.75, 20.0), (0.8, 30.0)]),
        read(&[(0.3, 10.0), (0.4, 20.0), (0.72, 0.0)]),
        fit(&[]),
        fit(&[(0.02, 90.0)]),
        fit(&[(0.02, 90.0), (0.02, 91.0)]),
        fit(&[(0.02, 90.0), (0.03, 91.0)]),
        fit(&[(0.02, 90.0), (0.03, f64::NAN)]),
        refused(&base, &no_number),
    ];
    insta::assert_snapshot!(errors.map(|e| e.to_string()).join("\n"));
}
