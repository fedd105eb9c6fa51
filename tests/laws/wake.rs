//! What must hold of a head's wake over the vanes.

use std::f64::consts::{FRAC_PI_2, PI};

use arrow::{Built, Effects, Faults, Parts};
use body::{Across, State};
use clothyard_tests::head::{hunting, thrown};
use clothyard_tests::{choice, lopsided, site};
use flight::aero::{Aero, FinSet, Slopes, aero, wake_share};
use flight::{Air, Model, Tolerance, fly, model};
use units::{Angle, Length, Ratio, Speed};

const SPEED: f64 = 82.0;
const TIGHT: Tolerance = Tolerance { relative: 1e-11, per_turn: 16.0 };

fn build(parts: &Parts, effects: Effects) -> Built {
    Built { effects, ..arrow::build(parts, &Faults::default()).unwrap() }
}

fn coefficients(parts: &Parts, wake: f64) -> Aero {
    let mut choice = choice();
    choice.factors.wake = Ratio::from_si(wake);
    let air = Air::of(&site().weather).unwrap();
    aero(parts, &build(parts, Effects::default()), &choice, &air, SPEED).unwrap()
}

fn flown(parts: &Parts, effects: Effects) -> Model<f64> {
    let built = build(parts, effects);
    model(parts, &built, &choice(), &site(), Speed::from_si(SPEED)).unwrap()
}

/// Heads and vanes that are shot: blades, vane span and root, mm.
fn arrows() -> Vec<Parts> {
    let mut all = Vec::new();
    for blades in [2, 3, 4] {
        for (span, root) in [(8.0, 40.0), (12.7, 53.0), (15.0, 75.0)] {
            let mut parts = hunting(blades);
            let vanes = parts.vanes.as_mut().unwrap();
            vanes.span = Length::from_si(span * 1e-3);
            vanes.root = Length::from_si(root * 1e-3);
            all.push(parts);
        }
    }
    all
}

/// No blades or no vanes, no wake: then the two first moments are one.
#[test]
fn law_no_blades_no_wake() {
    let mut bare = hunting(3);
    bare.vanes = None;
    for parts in [hunting(0), bare] {
        let a = coefficients(&parts, 1.0);
        let Slopes { force, force_by_rate, moment, .. } = a.slopes(0.0);
        assert_eq!((a.wake.slope, force), (0.0, a.slope));
        assert_eq!(force_by_rate, moment);
    }
}

/// The share falls with the reach of the vanes, and with the incidence: to half
/// where the wake has drifted by 1.5 times the head's reach.
#[test]
fn law_wake_falls_with_reach_and_drift() {
    let head =
        FinSet { count: 3.0, span: 0.01, root: 0.028, tip: 0.0, sweep: 0.028, radius: 0.00425 };
    let mut last = f64::INFINITY;
    for span in [0.006, 0.01, 0.015, 0.025] {
        let vanes = FinSet { span, root: 0.05, tip: 0.02, radius: 0.003, ..head };
        let share = wake_share(6.4e-4, &head, &vanes);
        assert!(share < last);
        last = share;
    }
    let parts = hunting(3);
    let wake = coefficients(&parts, 1.0).wake;
    let blades = parts.point.blades.unwrap();
    let reach = blades.span.si() + 0.5 * parts.point.diameter.si();
    let half = 1.5 * reach / wake.lag;
    assert!((wake.left_at(half) - 0.5).abs() < 1e-12);
    let left: Vec<f64> = (0..20).map(|i| wake.left_at(f64::from(i) * 0.01)).collect();
    assert!(left.windows(2).all(|pair| pair[1] < pair[0]));
}

/// The air takes energy however the arrow yaws: the quadratic form of flow and
/// rate is positive, S0 S2 > ((S1F + S1M)/2)^2, to the end of the wake's range.
#[test]
fn law_the_lateral_form_only_takes_energy() {
    for parts in arrows() {
        for wake in [0.6, 1.0, 1.2] {
            let a = coefficients(&parts, wake);
            for incidence in [0.0, 0.01, 0.05] {
                let s = a.slopes(incidence);
                let first = 0.5 * (s.force_by_rate + s.moment);
                assert!(s.force > 0.0 && first * first < s.force * s.moment_by_rate);
            }
        }
    }
}

/// At 30 turns a second the head's wake reaches vanes .68 m behind at 82 m/s a
/// quarter turn late.
#[test]
fn law_the_wake_arrives_a_quarter_turn_late() {
    let wake = coefficients(&hunting(3), 1.0).wake;
    assert!((wake.lag - 0.68).abs() < 0.03, "{}", wake.lag);
    let lag = 2.0 * PI * 30.0 * wake.lag / 82.0;
    assert!((lag.to_degrees() - 90.0).abs() < 4.0, "{}", lag.to_degrees());
}

/// In still air energy never grows, with two, three and four blades, canted and
/// kicked.
#[test]
fn law_energy_never_grows_with_blades() {
    for parts in arrows() {
        let built = build(&parts, lopsided());
        let model = flown(&parts, lopsided());
        let energy = |s: &State| {
            0.5 * built.mass.mass().si() * s.velocity.norm_squared()
                + 0.5 * built.mass.transverse().si() * s.rate.norm_squared()
                + 0.5 * built.mass.axial().si() * s.spin * s.spin
                + built.mass.mass().si() * units::STANDARD_GRAVITY * s.position.z
        };
        let start = thrown(SPEED, 0.02, -0.8, 0.7);
        let marks: Vec<f64> = (1..=140).map(|i| f64::from(i) * 0.5).collect();
        let flight = fly(&model, &start, &marks, &TIGHT).unwrap();
        let mut last = energy(&start);
        for state in &flight.marks {
            let now = energy(state);
            assert!(now < last, "energy grew to {now} from {last} at {} m", state.position.x);
            last = now;
        }
    }
}

/// Mirror arrow and start, and the flight is mirrored: with two blades too.
#[test]
fn law_blades_mirror() {
    let flip = |a: Across| Across { at0: a.at0, at90: -a.at90 };
    for blades in [2, 3] {
        let mut parts = hunting(blades);
        parts.point.blades.as_mut().unwrap().clock = Angle::from_si(0.4);
        let faults = Effects { point_tilt: Across::polar(3e-3, 1.2), ..Effects::default() };
        let here = flown(&parts, faults);
        parts.point.blades.as_mut().unwrap().clock = Angle::from_si(-0.4);
        let vanes = parts.vanes.as_mut().unwrap();
        vanes.angle = Angle::from_si(-vanes.angle.si());
        let there = flown(&parts, Effects { point_tilt: flip(faults.point_tilt), ..faults });
        let mut start = thrown(SPEED, 0.02, 0.8, 0.7);
        start.spin = 60.0;
        let mut other = thrown(SPEED, -0.02, -0.8, -0.7);
        other.spin = -60.0;
        let a = fly(&here, &start, &[30.0], &TIGHT).unwrap().marks[0];
        let b = fly(&there, &other, &[30.0], &TIGHT).unwrap().marks[0];
        assert!((a.position.y + b.position.y).abs() < 1e-11);
        assert!((a.position.z - b.position.z).abs() < 1e-11);
    }
}

/// Turn head, fault and blades round the shaft one way and the arrow back:
/// nothing changes.
#[test]
fn law_blades_turn_with_the_arrow() {
    let by = 0.9;
    for blades in [2, 3] {
        let mut parts = hunting(blades);
        let tilt =
            |clock: f64| Effects { point_tilt: Across::polar(3e-3, clock), ..Effects::default() };
        let a = fly(&flown(&parts, tilt(0.3)), &thrown(SPEED, 0.02, 0.8, 0.7), &[30.0], &TIGHT);
        parts.point.blades.as_mut().unwrap().clock = Angle::from_si(by);
        let back = thrown(SPEED, 0.02, 0.8, 0.7 - by);
        let b = fly(&flown(&parts, tilt(0.3 + by)), &back, &[30.0], &TIGHT);
        let (a, b) = (a.unwrap().marks[0], b.unwrap().marks[0]);
        assert!((a.position - b.position).norm() < 1e-10, "{} {}", a.position, b.position);
    }
}

/// Two blades lift across their plane only: a nose off in the plane of straight
/// blades moves the arrow less than one off across it, and three blades do not
/// care.
#[test]
fn law_two_blades_know_their_plane() {
    let moved = |blades: u8, roll: f64| {
        let mut parts = hunting(blades);
        parts.vanes.as_mut().unwrap().angle = Angle::ZERO;
        let model = flown(&parts, Effects::default());
        fly(&model, &thrown(SPEED, 0.01, 0.0, roll), &[10.0], &TIGHT).unwrap().marks[0].position.y
    };
    // Blades up and down meet a nose to the left squarely.
    assert!(moved(2, 0.0) > 1.5 * moved(2, FRAC_PI_2));
    assert!((moved(3, 0.0) - moved(3, FRAC_PI_2)).abs() < 1e-12);
}
