//! Arrows that are shot again and again follow from a few pushes of each.

use clothyard_tests::push::{longbow, recurve};
use clothyard_tests::recipe::{Simple, Value, compare};
use launch::Bow;
use study::{Distribution, Owner, Per, Plan, Quiet, run};
use target::Impact;
use units::Length;

/// 100 yd, m.
const FAR: f64 = 91.44;
/// What every impact there may be off, m.
const PROMISE: f64 = 5e-5;

/// A dozen faulty arrows from an archer whose speed and release differ from shot to shot.
fn dozen(bow: Bow) -> Simple {
    let normal = |sd: f64| Distribution::Normal { mean: 0.0, sd };
    let mut simple = Simple::new();
    simple.base.bow = bow;
    simple.sawn(0.002).aimed(1e-3).drawn(Value::Speed, Owner::Archer, normal(0.2), Per::Shot).drawn(
        Value::ReleaseLeft,
        Owner::Archer,
        normal(1e-3),
        Per::Shot,
    )
}

fn impacts(simple: Simple) -> Vec<Impact> {
    let distances = vec![Length::from_si(FAR)];
    let plan = compare(vec![simple.build("one")], 300);
    let plan = Plan { arrows: Some(12), points: 0, distances, ..plan };
    let found = run(&plan, &Quiet).unwrap();
    found.compared().unwrap().builds[0].marks[0].full.sample.clone()
}

/// A fault of a picometre that differs from shot to shot makes every shot another arrow,
/// pushed in full.
#[test]
fn law_an_arrow_shot_again_lands_where_its_push_says() {
    for bow in [recurve(), longbow()] {
        let speck = Distribution::Uniform { low: 0.0, high: 1e-12 };
        let alone = dozen(bow).drawn(Value::Groove, Owner::NockEnd, speck, Per::Shot);
        let (again, alone) = (impacts(dozen(bow)), impacts(alone));
        assert!(again.len() == 300 && again != alone);
        let off = again.iter().zip(&alone).map(|(a, b)| (a.left - b.left).hypot(a.up - b.up));
        let most = off.fold(0.0, f64::max);
        assert!(most < PROMISE, "{:?}: {most}", bow.rest.kind);
    }
}
