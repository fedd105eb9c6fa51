//! The tuning question against closed forms, and the restraint found again.

use arrow::{Lean, Shift};
use clothyard_tests::recipe::Simple;
use clothyard_tests::tuning;
use clothyard_tests::{no_air, push, tune};
use launch::Restraint;
use study::{Held, MeasuredShift, Moved, Quiet, StudyError, TunedBuild, pin, run};
use units::{Acceleration, Angle, AngularRate, Length, Momentum, Ratio};

fn one(simple: &Simple) -> TunedBuild {
    let plan = tune::plan(vec![simple.clone().build("one")], Vec::new());
    tuning(run(&plan, &Quiet).unwrap()).builds.remove(0)
}

/// Without air and weight an arrow given a yaw and a yaw rate turns evenly: the
/// tip is ahead of the balance point, the groove behind it, and the tear is
/// what both turn through.
#[test]
fn exact_tear_of_an_arrow_that_turns_evenly() {
    let (yaw, rate) = (-0.01, 0.8);
    let mut simple = Simple::new();
    simple.base.aero = no_air();
    simple.base.site.gravity = Acceleration::ZERO;
    simple.base.departure.yaw = Some(Angle::from_si(yaw));
    simple.base.departure.yaw_rate = Some(AngularRate::from_si(rate));
    let build = one(&simple);
    let speed = build.departure.speed;
    let lever = build.built.mass.balance().si();
    let front = build.built.layout.tip.si() - lever;
    for tear in &build.paper {
        let sheet = tear.distance.si();
        let tip = yaw + rate * (sheet - front) / speed;
        let nock = yaw + rate * (sheet + lever) / speed;
        let expected = -(lever * nock.sin() + front * tip.sin());
        assert!((tear.nock.left.value - expected).abs() < 1e-8, "{expected} {:?}", tear.nock);
        assert!(tear.nock.up.value.abs() < 1e-9);
        assert!((tear.yaw - tip).abs() < 1e-8);
    }
}

/// A clean push leaves the shaft on its line: the room under a vane straight
/// down is the drop of the rest less what the vane reaches.
#[test]
fn exact_room_over_a_fallen_rest() {
    let mut simple = Simple::new();
    simple.base.bow.rest.kind = launch::RestKind::DropAway;
    simple.base.index = Angle::from_si(std::f64::consts::FRAC_PI_3);
    let rest = one(&simple).clearance.rest.unwrap();
    let reach = 0.5 * 6.2e-3 + 11e-3;
    assert!((rest.gap.value - (simple.base.bow.rest.drop.si() - reach)).abs() < 1e-12);
    assert!((rest.clock - std::f64::consts::PI).abs() < 1e-12);
    assert!(rest.after);
}

/// A chronograph's speed is carried to another draw weight by the energy that
/// it stores, in proportion to it.
#[test]
fn exact_trend_of_draw_weight_carries_the_speed() {
    let simple = Simple::new();
    let plan = tune::plan(vec![simple.clone().build("one")], tune::trends(&simple));
    let build = tuning(run(&plan, &Quiet).unwrap()).builds.remove(0);
    let weight = build.trends.iter().find(|trend| trend.key == "bow.draw_weight").unwrap();
    for point in &weight.points {
        let speed = point.shot.as_ref().unwrap().departure.speed;
        let expected = build.departure.speed * (point.value / weight.own).sqrt();
        // The bow's own run adds what a heavier draw changes in its parts.
        assert!((speed / expected - 1.0).abs() < 1e-3, "{speed} {expected}");
    }
}

/// A faulty arrow from the invented compound at some restraints, left and up.
fn held([left, up]: [f64; 2]) -> Simple {
    let mut simple = tune::simple(push::level());
    simple.base.faults = push::faults(1.0);
    simple.base.bow.restraint = Restraint { left: Ratio::from_si(left), up: Ratio::from_si(up) };
    simple
}

const OWN: [f64; 2] = [1.0, 1.0];

fn measured(simple: &Simple, how: Moved) -> MeasuredShift {
    let distance = Length::from_si(20.0 * 0.9144);
    if let Moved::Pushed(force) = how {
        let shift = launch::hold_at(&simple.base.bow, 0.0).unwrap().map(|hold| force / hold);
        return MeasuredShift { distance, shift, how, error: None };
    }
    let build = one(simple);
    assert!((build.bare[1].distance.si() - distance.si()).abs() < 1e-12);
    let offset = match how {
        Moved::NockTurn(_) => build.turns.steps[1].moved[1].unwrap(),
        Moved::Bare | Moved::Pushed(_) => build.bare[1].apart.unwrap(),
    };
    MeasuredShift { distance, shift: [offset.left.value, offset.up.value], how, error: None }
}

/// From what two unlike holds make of a turned nock, or of a push, [`pin`] finds both
/// again, whatever the scenario's own, though a spinning flight mixes what they do.
#[test]
fn exact_pin_finds_both_restraints_that_made_the_shift() {
    let third = std::f64::consts::TAU / 3.0;
    for how in [Moved::NockTurn(third), Moved::Pushed(10.0)] {
        // Held up and down more firmly than this a compound's nock is pinned, and no
        // impact tells how firmly.
        for truth in [[0.4, 0.7], [0.7, 0.5], [1.6, 0.4]] {
            // Of the hold up and down impacts tell so little that what flights are
            // computed to shows: 3 %.
            let within = if how == Moved::Pushed(10.0) { [0.01; 2] } else { [0.01, 0.03] };
            for ((found, truth), within) in holds(truth, how).into_iter().zip(truth).zip(within) {
                let near = |each: &f64| (each / truth - 1.0).abs() < within;
                assert!(found.iter().any(near), "{how:?} {truth}: {found:?}");
            }
        }
    }
}

/// A bare shaft tells the hold sideways; a compound's nock is so nearly pinned up and
/// down that of the other it tells next to nothing, and that mixes in: 2 %.
#[test]
fn exact_pin_finds_the_hold_sideways_from_a_bare_shaft() {
    for truth in [[0.4, 0.7], [0.7, 1.2], [1.6, 0.4]] {
        let [left, _] = holds(truth, Moved::Bare);
        let near = |each: &f64| (each / truth[0] - 1.0).abs() < 0.02;
        assert!(left.iter().any(near), "{truth:?}: {left:?}");
    }
}

/// Every hold that explains what these make, left and up. What else is poorly known
/// has its own test.
fn holds(truth: [f64; 2], how: Moved) -> [Vec<f64>; 2] {
    let mut simple = held(OWN);
    simple.uncertain.truncate(1);
    let found = pin(&simple, &[measured(&held(truth), how)], &Quiet).unwrap();
    [found.left, found.up].map(|held| match held {
        Held::Found { all, .. } => all,
        other => panic!("{how:?} {truth:?}: {other:?}"),
    })
}

/// Several measured things together leave one answer: both turns of the nock and
/// a push.
#[test]
fn exact_pin_takes_all_that_was_measured_together() {
    let third = std::f64::consts::TAU / 3.0;
    let truth = [0.7, 1.6];
    let mut simple = held(OWN);
    simple.uncertain.truncate(1);
    let all = [Moved::Bare, Moved::NockTurn(third), Moved::Pushed(10.0)];
    let shifts = all.map(|how| measured(&held(truth), how));
    let found = pin(&simple, &shifts, &Quiet).unwrap();
    for (held, truth) in [found.left, found.up].into_iter().zip(truth) {
        let Held::Found { restraint, all, .. } = held else { panic!("{held:?}") };
        assert!((restraint.value / truth - 1.0).abs() < 0.01, "{restraint:?}");
        assert_eq!(all.len(), 1);
    }
}

/// The doubts that are left make the range: less doubt, less range, and the
/// restraint's own doubt takes no part. Without any a push leaves none, and an impact
/// what 0.1 mm leaves.
#[test]
fn exact_pin_without_other_doubts_leaves_little_range() {
    let width = |simple: &Simple, how: Moved| {
        let shift = measured(&held([0.7, 0.7]), how);
        match pin(simple, &[shift], &Quiet).unwrap().left {
            Held::Found { restraint, .. } => restraint.high / restraint.low,
            other => panic!("{other:?}"),
        }
    };
    let mut alone = held(OWN);
    alone.uncertain.truncate(1);
    assert!((width(&alone, Moved::Pushed(10.0)) - 1.0).abs() < 1e-12);
    let (least, all) = (width(&alone, Moved::Bare), width(&held(OWN), Moved::Bare));
    assert!(least > 1.0 && all > least, "the rest's stiffness matters: {all} {least}");
}

/// A yard at 20 yd: no restraint explains it, and the nearest is told.
#[test]
fn exact_pin_says_when_nothing_explains_the_shift() {
    let distance = Length::from_si(20.0 * 0.9144);
    let far = MeasuredShift { distance, shift: [0.9, 0.0], how: Moved::NockTurn(2.0), error: None };
    let mut simple = held(OWN);
    simple.base.bow = push::level();
    simple.base.faults = arrow::Faults {
        groove_offset: Shift { offset: Length::from_si(1e-4), clock: Angle::ZERO },
        nock_cant: Lean::default(),
        ..arrow::Faults::default()
    };
    let found = pin(&simple, &[far], &Quiet).unwrap();
    // The groove goes with the nock, so nothing is felt.
    assert_eq!(found.left, Held::Unfelt);
    let none = MeasuredShift { shift: [0.0; 2], ..far };
    assert!(matches!(pin(&simple, &[none], &Quiet), Err(StudyError::Unmeasured { .. })));
    // A hard pluck of the string moves a bare shaft, but not to the far side.
    simple.base.bow.release.left = Momentum::from_si(0.02);
    let found = pin(&simple, &[MeasuredShift { how: Moved::Bare, ..far }], &Quiet).unwrap();
    let Held::Unexplained { lack, shift, .. } = found.left else { panic!("{found:?}") };
    assert!((lack - (shift - 0.9)).abs() < 1e-12);
}
