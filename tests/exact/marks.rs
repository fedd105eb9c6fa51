//! Sight marks of whole arrows against the parabola of a shot without air, a
//! dense numerical solution, and closed forms of drag.

use std::f64::consts::PI;

use clothyard_tests::marks::{lengths, plan};
use clothyard_tests::no_air;
use clothyard_tests::recipe::{Simple, Value};
use flight::Air;
use study::{MarksPlan, Obstacle, SightMarks, SightedArrow, SlopeShot, Sweep, marks};
use units::{Acceleration, Dimension, Length, PerLength, Ratio, Speed};

const GRAVITY: f64 = 9.80665;
/// Eye above the arrow and eye to pin of the test build, m.
const SIGHT: (f64, f64) = (0.1, 0.8);
/// Tip ahead of the balance point in these tests, m.
const FRONT: f64 = 0.3;

/// An arrow that keeps its nose where it was launched, its side force such that
/// with its drag it is `k v^2` against the wind it meets, wherever it points.
fn plain(speed: f64, k: f64) -> Simple {
    let mut simple = Simple::new();
    simple.base.aero = no_air();
    simple.base.aero.given.drag = None;
    simple.base.aero.given.deceleration = Some(PerLength::from_si(k));
    simple.base.departure.speed = Some(Speed::from_si(speed));
    let tip = SightedArrow::new(&simple, &[], "").unwrap().built().layout.tip.si();
    let balance = Length::from_si(tip - FRONT);
    simple.base.parts.given.balance = Some(balance);
    let arrow = SightedArrow::new(&simple, &[], "").unwrap();
    let density = Air::of(&simple.base.site.weather).unwrap().density;
    let frontal = 0.25 * PI * simple.base.parts.shaft.outside.si().powi(2);
    let slope = 2.0 * k * arrow.built().mass.mass().si() / (density * frontal);
    simple.base.aero.given.normal_slope = Some(Ratio::from_si(slope));
    simple.base.aero.given.centre_of_pressure = Some(balance);
    simple
}

/// Bisection, for the tests' own closed forms.
fn zero(f: impl Fn(f64) -> f64, mut low: f64, mut high: f64) -> f64 {
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if (f(middle) > 0.0) == (f(low) > 0.0) {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

/// Height of the tip above the line to the target: a parabola on a slope.
fn tip(speed: f64, launch: f64, slope: f64, distance: f64) -> f64 {
    let (sin, cos) = launch.sin_cos();
    let (down, pull) = (GRAVITY * slope.cos(), GRAVITY * slope.sin());
    // pull/2 t^2 - v cos a t + x = 0, the root that stays finite on the level.
    let (b, x) = (speed * cos, distance - FRONT);
    let time = 2.0 * x / (b + (b * b - 2.0 * pull * x).sqrt());
    speed * sin * time - 0.5 * down * time * time + FRONT * sin
}

fn launch(speed: f64, slope: f64, distance: f64) -> f64 {
    zero(|a| tip(speed, a, slope, distance), -0.1, 0.5)
}

fn dip(launch: f64, distance: f64) -> f64 {
    (SIGHT.0 + distance * launch.sin()).atan2(distance * launch.cos())
}

/// Hill shots without air: launch angle, level mark to dial and the miss of the
/// cosine rule, all from the exact parabola.
#[test]
fn exact_hill_shots_in_vacuum() {
    let speed = 70.0;
    let answer = marks(&plain(speed, 0.0), &plan()).unwrap();
    let level = |d: f64| dip(launch(speed, 0.0, d), d);
    for row in &answer.rows {
        assert!((row.launch - launch(speed, 0.0, row.distance)).abs() < 2e-9);
        assert!((row.depression - level(row.distance)).abs() < 2e-9);
        assert!((row.pin - (SIGHT.0 - SIGHT.1 * level(row.distance).tan())).abs() < 2e-9);
    }
    let mut dialled = 0;
    for (hill, shot) in shots(&answer) {
        let exact = dip(launch(speed, hill, shot.distance), shot.distance);
        assert!((shot.pin - (SIGHT.0 - SIGHT.1 * exact.tan())).abs() < 2e-9);
        let cosine = level(shot.distance * hill.cos());
        let used = zero(|a| dip(a, shot.distance) - cosine, -0.1, 0.5);
        let high = tip(speed, used, hill, shot.distance);
        assert!((shot.cosine_miss - high).abs() < 2e-7, "{shot:?} {high}");
        if let Some(dial) = shot.dial {
            dialled += 1;
            assert!((level(dial) - exact).abs() < 1e-8, "{hill} {shot:?}");
            assert!((shot.least_miss).abs() < 1e-15);
        } else {
            let top = answer.sighting.top();
            assert!(exact < level(top) && shot.least_miss > 0.0);
        }
    }
    assert!(dialled >= 14, "{dialled}");
}

fn shots(answer: &SightMarks) -> impl Iterator<Item = (f64, &SlopeShot)> {
    answer.hills.iter().flat_map(|hill| hill.shots.iter().map(move |shot| (hill.slope, shot)))
}

/// The same with drag, against `tests/reference/sight_marks.py` (C): a point
/// mass integrated at a relative 1e-13. Ours integrates at 1e-5 a step.
#[test]
fn published_marks_of_a_dense_numerical_solution() {
    let answer = marks(&plain(80.0, 0.0016), &plan()).unwrap();
    let near = |ours: f64, theirs: f64, by: f64| {
        assert!((ours - theirs).abs() < by, "{ours} {theirs}");
    };
    for (distance, launch, pin, time, speed, pitch) in [
        (
            20.0,
            0.015_186_411_517,
            0.083_849_475_429,
            0.250_201_003_8,
            77.518_581_170,
            -0.015_976_159_8,
        ),
        (
            40.0,
            0.031_529_107_550,
            0.072_767_358_112,
            0.512_607_530_2,
            75.080_097_385,
            -0.033_378_151_8,
        ),
        (
            60.0,
            0.048_630_549_125,
            0.059_729_951_389,
            0.783_995_684_9,
            72.722_637_793,
            -0.052_325_726_4,
        ),
    ] {
        let row = answer.rows.iter().find(|row| (row.distance - distance).abs() < 1e-9).unwrap();
        near(row.launch, launch, 1e-8);
        near(row.pin, pin, 1e-8);
        near(row.time, time, 1e-7);
        near(row.speed, speed, 1e-5);
        near(row.path_pitch, pitch, 1e-7);
    }
    let far = answer.rows.last().unwrap();
    near(far.apex, 0.712_521_717, 1e-6);
    near(far.apex_at, 31.463_17, 2e-3);
    for (at, above) in [(0, 0.029_029_755), (3, -0.553_124_430), (5, -1.802_624_410)] {
        near(answer.rows[at].above_sight, above, 1e-6);
    }
    for (degrees, distance, dial, high) in [
        (-45.0, 40.0, 26.653_338_3, 0.043_381_891),
        (-45.0, 60.0, 41.088_112_8, 0.060_678_545),
        (-30.0, 40.0, 33.833_672_9, 0.023_500_280),
        (-30.0, 60.0, 50.935_819_9, 0.049_214_947),
        (30.0, 40.0, 35.041_381_8, -0.012_092_418),
        (30.0, 60.0, 53.547_148_9, -0.080_283_403),
        (45.0, 40.0, 28.175_397_2, 0.003_066_027),
        (45.0, 60.0, 44.249_907_9, -0.089_363_239),
    ] {
        let (_, shot) = shots(&answer)
            .find(|(slope, shot)| {
                (slope.to_degrees() - degrees).abs() < 1e-6
                    && (shot.distance - distance).abs() < 1e-9
            })
            .unwrap();
        near(shot.dial.unwrap(), dial, 1e-4);
        near(shot.cosine_miss, high, 1e-6);
    }
}

/// Without gravity: speed and time of the closed form of drag (figures 73.849
/// m/s and 0.65068 s at 50 m, C), and drift by the lag rule, which is exact
/// where drag points along the wind (0.25492395 m at 70 m, C).
#[test]
fn published_time_speed_and_drift_without_gravity() {
    let mut simple = plain(80.0, 0.0016);
    simple.base.site.gravity = Acceleration::ZERO;
    let asked = MarksPlan {
        distances: lengths(&[50.0 + FRONT, 70.0 + FRONT]),
        crosswind: Speed::from_si(5.0),
        slopes: Vec::new(),
        pins: Vec::new(),
        ..plan()
    };
    let answer = marks(&simple, &asked).unwrap();
    assert!((answer.rows[0].speed - 73.849_307_71).abs() < 1e-6);
    assert!((answer.rows[0].time - 0.650_680_22).abs() < 1e-7);
    assert!((answer.rows[1].drift - 0.254_923_95).abs() < 1e-6, "{}", answer.rows[1].drift);
}

/// A pin is right where it is set; held as the table says at another distance,
/// the line of sight meets the target so far above or below.
#[test]
fn exact_holds_of_pins() {
    let speed = 70.0;
    let answer = marks(&plain(speed, 0.0), &plan()).unwrap();
    for row in &answer.rows {
        for (pin, hold) in answer.pins.iter().zip(&row.holds) {
            let own = launch(speed, 0.0, row.distance);
            let line = dip(launch(speed, 0.0, pin.zero), pin.zero);
            let eye = (-SIGHT.0 * own.sin(), SIGHT.0 * own.cos());
            let expected = eye.1 + (row.distance - eye.0) * (own - line).tan();
            assert!((hold - expected).abs() < 1e-7, "{hold} {expected}");
        }
    }
    let at = |pin: usize, row: usize| answer.rows[row].holds[pin].abs();
    assert!(at(0, 1) < 1e-8 && at(1, 2) < 1e-8 && at(2, 3) < 1e-8);
}

/// The point of the drawn arrow is a pin at the height of the arrow, as far from
/// the eye as the arrow is long: point-on is where its line meets the path.
#[test]
fn exact_point_on_distance() {
    let speed = 50.0;
    let simple = plain(speed, 0.0);
    let answer = marks(&simple, &MarksPlan { bare: true, ..plan() }).unwrap();
    let point = answer.point_on.unwrap();
    let line = (SIGHT.0 / answer.built.layout.tip.si()).atan();
    let expected = zero(|d| dip(launch(speed, 0.0, d), d) - line, 20.0, 150.0);
    assert!((point.distance.unwrap() - expected).abs() < 2e-3, "{point:?} {expected}");
    let nearer = answer.rows.iter().find(|row| row.distance < expected).unwrap();
    assert!(nearer.point_hold.unwrap() < 0.0, "a nearer target is held under");
}

/// A twig is passed by the height of the parabola over the line of sight.
#[test]
fn exact_room_over_a_twig() {
    let speed = 70.0;
    let twig =
        |height: f64| Obstacle { distance: Length::from_si(15.0), height: Length::from_si(height) };
    let asked = MarksPlan { twigs: vec![twig(0.2), twig(-0.3)], ..plan() };
    let answer = marks(&plain(speed, 0.0), &asked).unwrap();
    for twig in &answer.twigs {
        for (place, over) in asked.places.iter().zip(&twig.over) {
            let d = place.si();
            let own = launch(speed, 0.0, d);
            let eye = (-SIGHT.0 * own.sin(), SIGHT.0 * own.cos());
            let line = eye.1 + (15.0 - eye.0) * (0.0 - eye.1) / (d - eye.0);
            let expected = tip(speed, own, 0.0, 15.0) - line - twig.twig.height.si();
            assert!((over.unwrap() - expected).abs() < 1e-7);
        }
        // Half a 6.2 mm shaft and an 11 mm vane.
        assert!((twig.reach - 14.1e-3).abs() < 1e-12);
    }
}

/// A changed value: the shift is where the changed arrow flies with the old
/// launch angle, and the moved mark is the mark of the changed arrow.
#[test]
fn exact_change_of_a_value() {
    let simple = Simple::new();
    let sweep = Sweep {
        key: "arrow.point.mass".to_owned(),
        dimension: Dimension::Mass,
        slot: Value::PointMass.slot(),
        values: vec![5e-3, 6.5e-3, 8e-3],
        labels: ["light", "same", "heavy"].map(str::to_owned).to_vec(),
    };
    let answer = marks(&simple, &MarksPlan { changes: vec![sweep], ..plan() }).unwrap();
    let values = &answer.changes[0].values;
    assert!(values[1].shifts.iter().chain(&values[1].moves).all(|v| v.abs() < 1e-7));
    for (value, sign) in [(&values[0], 1.0), (&values[2], -1.0)] {
        assert!(value.shifts.iter().all(|shift| shift * sign > 0.0));
        assert!(value.rezeroed[0].abs() < 1e-9, "the zero is 20 m");
        let changed =
            SightedArrow::new(&simple, &[(Value::PointMass.slot(), value.value)], "").unwrap();
        let sighting = changed.sighting(60.0).unwrap();
        for (place, down) in answer.plan.places.iter().zip(&value.moves) {
            let old = answer.sighting.pin(place.si()).unwrap();
            let new = sighting.pin(place.si()).unwrap();
            assert!((old - new - down).abs() < 1e-7);
        }
    }
}
