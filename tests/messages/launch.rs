use arrow::Effects;
use body::Across;
use clothyard_tests::push::{arrow, bow};
use launch::{
    Bow, BowKind, Form, GivenDeparture, Guide, LaunchError, PushShape, Stick, depart, ride,
};
use units::{Angle, Length, Ratio};

fn refused(bow: &Bow, effects: Effects) -> LaunchError {
    let (form, given) = (Form::default(), GivenDeparture::default());
    depart(bow, &arrow(effects), Angle::ZERO, &form, &given).unwrap_err()
}

#[test]
fn regress_launch_messages() {
    let base = bow();
    let none = Effects::default();
    let recurve = Bow { kind: BowKind::Recurve, ..base };
    let shape = PushShape::new(BowKind::Compound, Ratio::ZERO).unwrap();
    let mut guide = Guide {
        stroke: 0.5,
        speed: 85.0,
        restraint: 1.0,
        tip_line: 0.05,
        rest_stiffness: 1e12,
        rest_damping: 0.0,
        rest_share: 0.5,
        rest_ahead: 0.17,
    };
    let stick = Stick {
        mass: 0.03,
        inertia: 2e-3,
        lever: 0.46,
        groove: [f64::NAN, 0.0],
        balance: [0.0; 2],
        tilt: [0.0; 2],
    };
    let stiff = ride(&shape, &guide, &stick, 80).unwrap_err();
    guide.rest_stiffness = 0.0;
    let no_number = ride(&shape, &guide, &stick, 80).unwrap_err();
    let mut loose = Bow { restraint: Ratio::ZERO, ..base };
    loose.rest.share = Ratio::ZERO;
    let aside = Across { at0: 0.02, at90: 0.0 };
    let far = Effects { balance_offset: aside, shaft_tilt: aside * -10.0, ..none };
    let errors = [
        refused(&Bow { draw_length: Length::from_si(72.0), ..base }, none),
        refused(&Bow { restraint: Ratio::from_si(f64::NAN), ..base }, none),
        refused(
            &Bow { brace_height: Length::from_si(0.58), draw_length: Length::from_si(0.6), ..base },
            none,
        ),
        refused(&recurve, none),
        refused(&Bow { draw_length: Length::from_si(0.8), ..base }, none),
        refused(&loose, far),
        stiff,
        no_number,
    ];
    insta::assert_snapshot!(errors.map(|e| e.to_string()).join("\n"));
}
