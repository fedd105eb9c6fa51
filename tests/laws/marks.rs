//! What holds for the marks of any arrow.

use clothyard_tests::marks::plan;
use clothyard_tests::recipe::{Simple, Value};
use study::{MarksPlan, UncertainParameter, marks};
use units::{Dimension, Length};

/// Drift of a stable arrow follows the lag rule w (t - x/v0) to a few per cent:
/// it turns into the wind at once, so that drag acts along the relative wind.
#[test]
fn law_drift_of_a_real_arrow_follows_the_lag_rule() {
    let answer = marks(&Simple::new(), &plan()).unwrap();
    let row = answer.rows.last().unwrap();
    let front = answer.built.layout.tip.si() - answer.built.mass.balance().si();
    let first = &answer.rows[0];
    // Speed at departure less the swinging shaft's cost, from the first mark.
    let start = first.speed * (first.speed / row.speed).powf((first.distance - front) / 50.0);
    let lag = 2.0 * (row.time - (row.distance - front) / start);
    assert!((row.drift - lag).abs() < 0.05 * lag, "{} {lag}", row.drift);
}

/// Marks sink with distance beyond the highest, distances come back from marks,
/// and the energy and momentum are those of mass and speed.
#[test]
fn law_marks_are_in_order_and_come_back() {
    let answer = marks(&Simple::new(), &plan()).unwrap();
    let top = answer.sighting.top();
    let beyond: Vec<_> = answer.rows.iter().filter(|row| row.distance > top).collect();
    assert!(beyond.windows(2).all(|pair| pair[0].pin > pair[1].pin));
    let mass = answer.built.mass.mass().si();
    for row in beyond {
        let study_pin = answer.sighting.pin(row.distance).unwrap();
        assert!((study_pin - row.pin).abs() < 1e-6, "{study_pin} {}", row.pin);
        assert!((row.energy - 0.5 * row.momentum * row.momentum / mass).abs() < 1e-9);
        assert!(row.apex >= 0.0 && row.apex_at <= row.distance);
    }
}

/// A doubt leaves the mark of the zero alone, as the sight is set there, and
/// widens the others with distance; without doubts a band has no width.
#[test]
fn law_bands_open_from_the_zero() {
    let mut simple = Simple::new();
    let bare = marks(&simple, &plan()).unwrap();
    assert!(bare.rows.iter().all(|row| row.travel.low.to_bits() == row.travel.high.to_bits()));
    simple.uncertain.push(UncertainParameter {
        slot: Value::NockDrag.slot(),
        key: "aero.nock_drag".to_owned(),
        dimension: Dimension::Ratio,
        value: 0.45,
        low: 0.3,
        high: 0.6,
    });
    let answer = marks(&simple, &plan()).unwrap();
    let wide = |at: usize| answer.rows[at].travel.high - answer.rows[at].travel.low;
    // The zero is 20 m.
    assert!(wide(1) < 1e-9 && wide(3) > 1e-5 && wide(5) > 2.0 * wide(3));
    assert!(
        answer.rows.iter().all(|row| {
            row.travel.low <= row.travel.value && row.travel.value <= row.travel.high
        })
    );
}

/// With the eye on the arrow and no air, the cosine rule is right to the square
/// of the launch angle; the eye's height alone breaks it near the bow.
#[test]
fn law_cosine_rule_without_eye_height_or_air() {
    let mut simple = Simple::new();
    simple.base.aero = clothyard_tests::no_air();
    simple.base.sight.height = Length::ZERO;
    let asked = MarksPlan { pins: Vec::new(), ..plan() };
    let answer = marks(&simple, &asked).unwrap();
    for hill in &answer.hills {
        for (shot, place) in hill.shots.iter().zip([1, 3, 5]) {
            let launch = answer.rows[place].launch;
            let miss = shot.cosine_miss.abs();
            assert!(miss < 2.5 * shot.distance * launch * launch, "{} {shot:?}", hill.slope);
        }
    }
}

/// The same bits on any number of threads.
#[test]
fn law_marks_are_the_same_on_any_number_of_threads() {
    let run = |threads: usize| {
        let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build().unwrap();
        pool.install(|| marks(&Simple::new(), &plan()).unwrap())
    };
    let one = run(1);
    assert_eq!(one, run(2));
    assert_eq!(one, run(8));
}
