use clothyard_tests::no_air;
use clothyard_tests::recipe::Simple;
use launch::{Departure, Flex, Form, MODES};
use study::{Recipe, nominal, start};
use units::{Angle, Length, STANDARD_GRAVITY};

const DEPARTURE: Departure = Departure {
    speed: 80.0,
    velocity_left: 0.3,
    velocity_up: -0.2,
    yaw: 0.02,
    pitch: -0.03,
    yaw_rate: 2.0,
    pitch_rate: 3.0,
    spin: 10.0,
    roll: 0.4,
    left: 0.001,
    up: 0.002,
    flex: STILL,
};

/// A shaft that does not swing.
const STILL: Flex = Flex {
    frequency: [0.0; MODES],
    decay: [0.0; MODES],
    tip: [0.0; MODES],
    nock: [0.0; MODES],
    amplitude: [[0.0; MODES]; 2],
    rate: [[0.0; MODES]; 2],
    slowing: 0.0,
};

/// C: with a level line of departure, left and up are y and z.
#[test]
fn exact_start_along_the_line() {
    let state = start(&DEPARTURE, 0.0, &Form::default());
    assert_eq!(state.position.as_slice(), [0.0, 0.001, 0.002]);
    assert_eq!(state.velocity.as_slice(), [80.0, 0.3, -0.2]);
    assert!((state.attitude().yaw - 0.02).abs() < 1e-15);
    assert!((state.attitude().pitch + 0.03).abs() < 1e-15);
    // The nose goes left at the yaw rate and up at the pitch rate; yaw turns
    // about the nose's up, so its share sideways is not foreshortened.
    let nose = state.rate.cross(&state.axis);
    assert!((nose.norm() - 13.0_f64.sqrt()).abs() < 1e-14);
    assert!((nose.z - 3.0 * 0.03_f64.cos()).abs() < 1e-14);
    assert!(nose.y > 0.0 && state.rate.dot(&state.axis).abs() < 1e-15);
    assert_eq!((state.spin, state.roll), (10.0, 0.4));
}

/// C: aim and launch angle turn everything together.
#[test]
fn exact_start_turned_by_launch_and_aim() {
    let form =
        Form { aim_left: Angle::from_si(0.1), aim_up: Angle::from_si(0.05), ..Form::default() };
    let departure = Departure { velocity_left: 0.0, velocity_up: 0.0, ..DEPARTURE };
    let state = start(&departure, 0.2, &form);
    let along = body::Attitude { yaw: 0.1, pitch: 0.25 }.axis();
    assert!((state.velocity - along * 80.0).norm() < 1e-13);
    let lean = 0.02_f64.cos() * 0.03_f64.cos();
    assert!((state.axis.dot(&along) - lean).abs() < 1e-15);
    // Across the push, but told at the start of the range: what lies along the
    // range by the push's lean is left out.
    assert!(state.position.x.abs() < 1e-15);
    let gone = 0.001_f64.hypot(0.002) - state.position.norm();
    assert!((0.0..1e-4).contains(&gone), "{gone}");
    assert!((state.rate.norm() - 13.0_f64.sqrt()).abs() < 1e-14);
}

/// C: the parabola. Without air nothing turns the arrow, so its point leads
/// the balance point by the same vector all the way.
#[test]
fn exact_sight_and_drop_without_air() {
    let mut recipe = Simple::new();
    recipe.base.aero = no_air();
    let distances = [20.0, 50.0].map(Length::from_si);
    let found = nominal(&recipe, &distances).unwrap();
    let front = found.built.layout.tip.si() - found.built.mass.balance().si();
    let (speed, pitch) = (found.departure.speed, found.launch_pitch);
    for (distance, mark) in [20.0, 50.0].into_iter().zip(&found.marks) {
        let flown = distance - front;
        let time = flown / (speed * pitch.cos());
        let tip = flown * pitch.tan() - 0.5 * STANDARD_GRAVITY * time * time + front * pitch.sin();
        assert!((mark.time - time).abs() < 1e-12);
        assert!((mark.drop - (distance * pitch.tan() - tip)).abs() < 1e-11);
        let sight = 0.1 * (1.0 - distance / 20.0);
        assert!((mark.above_sight - (tip - sight)).abs() < 1e-11);
    }
    // 1e-9 rad of launch angle over 20 m.
    assert!(found.marks[0].above_sight.abs() < 2e-8);
    assert_eq!(found.setup, recipe.setup(&[]).unwrap());
}
