//! Sight geometry against plane trigonometry.

use sight::{Dial, Geometry, Launches, Sighting};
use units::Length;

fn geometry(height: f64, radius: f64) -> Geometry {
    Geometry::new(Length::from_si(height), Length::from_si(radius)).unwrap()
}

/// Eye, pin and target worked out as points of the plane lie on one line.
#[test]
fn exact_eye_pin_and_target_lie_on_one_line() {
    let sight = geometry(0.127, 0.8);
    for (launch, distance) in [(0.005_f64, 10.0), (0.03, 40.0), (-0.02, 25.0), (0.2, 90.0)] {
        let depression = sight.depression(launch, distance);
        // Along and across the arrow, turned up by the launch angle.
        let place = |along: f64, across: f64| {
            let (sin, cos) = launch.sin_cos();
            (along * cos - across * sin, along * sin + across * cos)
        };
        let eye = place(0.0, 0.127);
        let pin = place(0.8, sight.pin(depression));
        let slope = (pin.1 - eye.1) / (pin.0 - eye.0);
        let at_target = eye.1 + slope * (distance - eye.0);
        assert!(at_target.abs() < 1e-13 * distance, "{at_target}");
        for at in [5.0, distance, 70.0] {
            let expected = eye.1 + slope * (at - eye.0);
            assert!((sight.line(launch, depression, at) - expected).abs() < 1e-13 * at);
        }
        assert!((sight.launch(depression, distance) - launch).abs() < 1e-15);
        assert!((sight.depression_of(sight.pin(depression)) - depression).abs() < 1e-15);
    }
}

/// A parabola: `g d / (2 v^2) = sin a cos a`.
fn vacuum(speed: f64, distance: f64) -> f64 {
    0.5 * (9.80665 * distance / (speed * speed)).asin()
}

fn parabola(speed: f64) -> Sighting {
    let points = (1..=60).map(|k| 2.0 * f64::from(k)).map(|d| (d, vacuum(speed, d)));
    Sighting::new(geometry(0.127, 0.8), Launches::new(points.collect()).unwrap()).unwrap()
}

/// Cubics through points 2 m apart follow a parabola's launch angle to far less
/// than a sight resolves, and the distance comes back from the mark.
#[test]
fn exact_marks_and_distances_of_a_parabola() {
    let speed = 55.0;
    let sighting = parabola(speed);
    for tenth in 161..1190 {
        let distance = 0.1 * f64::from(tenth);
        let launch = vacuum(speed, distance);
        assert!((sighting.launches().at(distance).unwrap() - launch).abs() < 1e-7);
        let depression = sighting.depression(distance).unwrap();
        let Dial::Mark(back) = sighting.dial(depression).unwrap() else { panic!("{distance}") };
        assert!((back - distance).abs() < 1e-5, "{distance} {back}");
    }
}

/// Small angles: the mark `h/d + g d/(2 v^2)` is highest at `v sqrt(2 h/g)`, and
/// two distances share a mark where their product is the square of that.
#[test]
fn exact_highest_mark_and_twins() {
    let speed = 85.0;
    let sighting = parabola(speed);
    let top = speed * (2.0_f64 * 0.127 / 9.80665).sqrt();
    assert!((sighting.top() - top).abs() < 2e-3 * top, "{} {top}", sighting.top());
    let twin = sighting.twin(30.0).unwrap().unwrap();
    assert!((twin * 30.0 - top * top).abs() < 2e-3 * top * top, "{twin}");
    let back = sighting.twin(twin).unwrap().unwrap();
    assert!((back - 30.0).abs() < 1e-4, "{back}");
    let above = sighting.depression(top).unwrap() - 1e-6;
    assert!(matches!(sighting.dial(above), Ok(Dial::AboveAll(_))));
}
