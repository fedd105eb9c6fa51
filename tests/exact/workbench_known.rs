//! What readings say of a shaft.

use std::f64::consts::{FRAC_PI_2, PI, TAU};

use body::Across;
use units::{Angle, Length};
use workbench::{Axis, Indicator, Known, Population, Sighting, Spun, ThreeReadings};

const INCH: f64 = 0.0254;
const STOCK: f64 = 32.0 * INCH;

fn inch(value: f64) -> Length {
    Length::from_si(value * INCH)
}

fn near(got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{got} against {want} within {within:e}");
}

fn sold(body: f64, nock: f64, point: f64) -> Population {
    Population { body: inch(body), nock_hook: inch(nock), point_hook: inch(point) }
}

fn spun(total: f64, clock: f64) -> Spun {
    Spun { total: Length::from_si(total), high: Some(Angle::from_si(clock)) }
}

/// Two rollers with an overhang, in closed form: a constant curve k lies k a b / 2 off
/// the line through rollers at a and b, read at zero; and k S^2 / 8 in the middle of S.
/// The axis found gives its readings back.
#[test]
fn exact_rollers_with_an_overhang() {
    let curve = 1.6e-3;
    let (a, b) = (3.0 * INCH, 29.0 * INCH);
    // The ends lie to the other side of the chord than the middle does.
    let three = ThreeReadings {
        middle: Some(spun(2.0 * curve * (28.0 * INCH).powi(2) / 8.0, PI + 1.0)),
        nock_end: Some(spun(2.0 * curve * a * b / 2.0, 1.0)),
        point_end: Some(spun(2.0 * curve * a * b / 2.0, 1.0)),
    };
    let seen = three.sightings(inch(32.0), inch(3.0), Length::ZERO).unwrap();
    let known = Known::new(STOCK, &seen, sold(0.004, 0.001, 0.001)).unwrap();
    let axis = known.axis().unwrap();
    for (station, supports) in [(16.0, [2.0, 30.0]), (0.0, [3.0, 29.0]), (32.0, [3.0, 29.0])] {
        let at = |x: f64| curve * (x * INCH).powi(2) / 2.0;
        let share = (station - supports[0]) / (supports[1] - supports[0]);
        let off = at(station) - at(supports[0]) * (1.0 - share) - at(supports[1]) * share;
        let got = axis.total(station * INCH, supports.map(|s| s * INCH));
        // The axis is straight between its knots, half an inch apart.
        near(got, 2.0 * off.abs(), 4e-7);
    }
}

/// One reading in the middle says nothing of the ends: of shafts with ends alike, the
/// likeliest is alike from both ends.
#[test]
fn law_one_reading_in_the_middle_prefers_no_end() {
    let one = ThreeReadings { middle: Some(spun(1e-4, 0.7)), ..ThreeReadings::default() };
    let seen = one.sightings(inch(32.0), inch(3.0), inch(0.0005)).unwrap();
    let known = Known::new(STOCK, &seen, sold(0.004, 0.003, 0.003)).unwrap();
    let axis = known.axis().unwrap();
    for k in 0..=32 {
        let x = f64::from(k) * INCH;
        near((axis.at(x) - axis.at(STOCK - x)).size(), 0.0, 1e-12);
    }
    near(known.error(0.0, 28.0 * INCH), known.error(4.0 * INCH, 28.0 * INCH), 1e-12);
}

fn dial(clocks: &[f64]) -> Axis {
    let at = |x: f64| Across::polar(2e-4 * (PI * x / STOCK).sin(), 1.0);
    let supports = [2.0 * INCH, 30.0 * INCH];
    let mut readings = Vec::new();
    for k in 0..9 {
        let x = f64::from(k) * 4.0 * INCH;
        let share = (x - supports[0]) / (supports[1] - supports[0]);
        let off = at(x) - at(supports[0]) * (1.0 - share) - at(supports[1]) * share;
        for &clock in clocks {
            let reading = 2e-3 + off.at0 * clock.cos() + off.at90 * clock.sin();
            readings.push(Indicator {
                station: Length::from_si(x),
                clock: Angle::from_si(clock),
                reading: Length::from_si(reading),
            });
        }
    }
    let supports = supports.map(Length::from_si);
    Axis::from_dial(inch(32.0), supports, &readings, inch(0.0005)).unwrap()
}

/// Fewer clock positions leave more open: half the shaft is unseen with two opposite
/// ones, and one is hardly better than none.
#[test]
fn law_directions_not_seen_stay_open() {
    let many = sold(0.004, 0.0045, 0.002);
    let error = |seen: &[Sighting]| Known::new(STOCK, seen, many).unwrap().error(INCH, 28.5 * INCH);
    let four = error(dial(&[0.0, FRAC_PI_2, PI, 3.0 * FRAC_PI_2]).sightings());
    let two = error(dial(&[0.4, 0.4 + PI]).sightings());
    let (one, none) = (error(dial(&[0.4]).sightings()), error(&[]));
    assert!(four < 0.15 * none, "{four} {none}");
    // Of two directions alike, one is unseen: half of the square is left.
    near(two / none, 0.5_f64.sqrt(), 0.02);
    assert!(one > two && one < none, "{one} {two} {none}");
}

/// Shafts drawn as readings allow give the readings back, within their noise.
#[test]
fn law_drawn_shafts_read_as_was_read() {
    let axis = dial(&(0..4).map(|k| f64::from(k) / 4.0 * TAU).collect::<Vec<f64>>());
    let known = Known::new(STOCK, axis.sightings(), sold(0.004, 0.0045, 0.002)).unwrap();
    let mut state = 9_u64;
    let mut normal = move || {
        let mut even = || {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
            (state >> 11) as f64 / (1_u64 << 53) as f64
        };
        (0..12).map(|_| even()).sum::<f64>() - 6.0
    };
    let (mut squares, mut count) = (0.0, 0.0);
    for _ in 0..200 {
        let drawn = known.axis_of(&known.draw(&mut normal)).unwrap();
        for one in axis.sightings().iter().filter(|one| one.noise > 1e-7) {
            let [a, b] = one.supports;
            let share = (one.station - a) / (b - a);
            let off = drawn.at(one.station) - drawn.at(a) * (1.0 - share) - drawn.at(b) * share;
            let seen = off.at0 * one.toward.at0 + off.at90 * one.toward.at90;
            squares += ((seen - one.off) / one.noise).powi(2);
            count += 1.0;
        }
    }
    // At the supports themselves a turning shaft shows nothing, so those are exact.
    let scatter: f64 = (squares / count).sqrt();
    assert!((0.3..1.1).contains(&scatter), "{scatter}");
}
