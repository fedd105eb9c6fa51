use arrow::Faults;
use clothyard_tests::push::{arrow, recurve};
use launch::{Bow, Detail, Form, History, watch};
use units::Angle;

/// Trade draw with the string at brace, m.
fn at_brace(bow: &Bow) -> f64 {
    bow.brace_height.si() + launch::DRAW_BEYOND_PIVOT.si()
}

/// A side point gives way at its preload and then by its stiffness; below, by
/// a stop of at least 50 N/mm and ten times the spring. It never pulls.
#[test]
fn exact_side_point_is_a_preloaded_spring() {
    let (parts, built) = arrow(&Faults::default());
    for stiffness in [1500.0, 60_000.0] {
        let mut bow = recurve();
        bow.rest.stiffness = units::Stiffness::from_si(stiffness);
        bow.rest.damping = units::Damping::from_si(0.0);
        let history: History =
            watch(&bow, &parts, &built, Angle::ZERO, &Form::default(), Detail::default()).unwrap();
        let stroke = bow.draw_length.si() - at_brace(&bow);
        let (mut stopped, mut given) = (0, 0);
        for frame in &history.frames {
            let station = bow.rest.ahead.si() + stroke * (1.0 - frame.travelled);
            let pressed = -history.shaft(frame, station)[0];
            let stop = (10.0 * stiffness).max(5e4) * pressed;
            let spring = 2.0 + stiffness * pressed;
            let force = stop.min(spring).max(0.0);
            assert!((frame.rest[0] - force).abs() < 1e-6, "{} {force}", frame.rest[0]);
            stopped += u32::from(force > 0.0 && stop < spring);
            given += u32::from(force > 0.0 && stop > spring);
        }
        assert!(stopped > 0 && given > 0, "{stopped} {given}");
    }
}
