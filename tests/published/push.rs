use arrow::{Built, Faults, Parts};
use clothyard_tests::push::{arrow, bow, recurve};
use launch::{Bow, Detail, Form, History, beam, watch};
use units::Angle;

fn pushed(bow: &Bow, parts: &Parts, built: &Built) -> History {
    watch(bow, parts, built, Angle::ZERO, &Form::default(), Detail::default()).unwrap()
}

/// Peak push over the arrow's mass, m/s2.
fn peak(history: &History, built: &Built) -> f64 {
    history.frames.iter().map(|f| f.push).fold(0.0, f64::max) / built.mass.mass().si()
}

/// Kooi and Sparenberg 1997 and Kooi 1998 (abstracts R): the model predicts
/// that the arrow leaves the button before the string. It may touch it again,
/// but at departure it does not.
#[test]
fn published_arrow_leaves_the_side_point_first() {
    let (parts, built) = arrow(&Faults::default());
    let history = pushed(&recurve(), &parts, &built);
    let touching: Vec<bool> = history.frames.iter().map(|f| f.rest[0] > 0.0).collect();
    assert!(touching.iter().any(|t| *t), "the arrow bears on the side point");
    let last = touching.iter().rposition(|t| *t).unwrap();
    let travelled = history.frames[last].travelled;
    assert!(travelled < 0.9, "it leaves at {travelled} of the stroke");
}

/// Park (magazine; R): around 1000 g at release. Peak push over weight of an
/// invented arrow, so the order alone is held.
#[test]
fn published_thousand_g() {
    let (parts, built) = arrow(&Faults::default());
    let gees = peak(&pushed(&bow(), &parts, &built), &built) / units::STANDARD_GRAVITY;
    assert!((700.0..1400.0).contains(&gees), "{gees} g");
}

/// Park (magazine; R): typical arrows flex at 80 to 90 Hz; nodes about 50 mm
/// from the point and 150 mm from the nock; about one flex a metre from a
/// compound. The arrow is invented and "about" is taken as 10 mm; the point end
/// is taken as the end of the shaft.
#[test]
fn published_flex_of_a_typical_arrow() {
    let (parts, built) = arrow(&Faults::default());
    let modes = beam(&parts, &built).modes::<1>().unwrap();
    let hertz = modes.frequency[0] / std::f64::consts::TAU;
    assert!((80.0..90.0).contains(&hertz), "{hertz} Hz");
    let nodes = modes.nodes(0);
    assert_eq!(nodes.len(), 2);
    let (rear, front) = (nodes[0], built.layout.shaft_front.si() - nodes[1]);
    assert!((rear - 0.150).abs() < 0.01, "{rear} m from the nock");
    assert!((front - 0.050).abs() < 0.01, "{front} m from the point");
    let metres = pushed(&bow(), &parts, &built).departure.speed / hertz;
    assert!((0.8..1.2).contains(&metres), "one flex in {metres} m");
}

/// C: the buckling load of the pushed arrow, both ends held, lies between that
/// of an Euler column under its whole push, pi^2 EI/L^2, and twice that: the
/// push falls off along the shaft.
#[test]
fn published_buckling_load_of_the_pushed_arrow() {
    let (parts, built) = arrow(&Faults::default());
    let limit = beam(&parts, &built).buckling_acceleration().unwrap() * built.mass.mass().si();
    let length = built.layout.shaft_front.si() + 0.007;
    let euler = std::f64::consts::PI.powi(2) * built.stiffness.si() / (length * length);
    assert!((1.0..2.0).contains(&(limit / euler)), "{limit} N, {euler} N");
}
