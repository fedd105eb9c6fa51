//! The push side by side and worked out beforehand, against the push of one arrow;
//! and its steps against eight times as many.

use arrow::{Built, Faults, Parts};
use clothyard_tests::push::{arrow, bow, faults, longbow, recurve};
use clothyard_tests::{choice, hunter, site};
use flight::{Tolerance, fly, model};
use launch::{
    Bow, BowAndArrow, Departure, Detail, Form, GivenDeparture, LinearResponse, PushBatch, Range,
    RestKind, Shot, depart, watch,
};
use units::{Angle, Length, LinearDensity, Mass, Ratio, Speed};

/// 100 yd, m.
const FAR: f64 = 91.44;
/// What every impact there may be off, m.
const PROMISE: f64 = 5e-5;

/// One arrow shot, with everything that differs from the middle one.
struct Drawn {
    parts: Parts,
    built: Built,
    form: Form,
    /// Spine, density, mass of the point.
    values: [f64; 3],
}

/// Shares from -1 to 1 that fill their range evenly, by the golden ratio's powers.
fn even(index: u32, which: i32) -> f64 {
    2.0 * (0.5 + f64::from(index) * 1.324_717_957_244_746_f64.powi(-1 - which)).fract() - 1.0
}

fn at(values: [f64; 3]) -> Parts {
    let mut parts = hunter();
    parts.shaft.spine = Length::from_si(values[0]);
    parts.shaft.density = LinearDensity::from_si(values[1]);
    parts.point.mass = Mass::from_si(values[2]);
    parts
}

fn middle() -> [f64; 3] {
    let parts = hunter();
    [parts.shaft.spine.si(), parts.shaft.density.si(), parts.point.mass.si()]
}

/// So many arrows, values within these shares of the middle ones.
fn drawn(count: u32, shares: [f64; 3], speed: f64) -> Vec<Drawn> {
    let draw = |index: u32| {
        let mut values = middle();
        for ((which, value), share) in (0..).zip(values.iter_mut()).zip(shares) {
            *value *= 1.0 + share * even(index, which);
        }
        let parts = at(values);
        let built = arrow::build(&parts, &faults(even(index, 3))).unwrap();
        let form = Form { speed: Speed::from_si(speed * even(index, 4)), ..Form::default() };
        Drawn { parts, built, form, values }
    };
    (1..=count).map(draw).collect()
}

fn pair(bow: &Bow, parts: Parts) -> BowAndArrow {
    let built = arrow::build(&parts, &Faults::default()).unwrap();
    BowAndArrow { bow: *bow, parts, built, index: Angle::ZERO }
}

/// Where an arrow lands, left and up, m.
fn impact(drawn: &Drawn, departure: &Departure) -> [f64; 2] {
    let start = study::start(departure, 0.01, &drawn.form);
    let speed = Speed::from_si(departure.speed);
    let model = model(&drawn.parts, &drawn.built, &choice(), &site(), speed).unwrap();
    let tight = Tolerance { relative: 1e-10, ..Tolerance::default() };
    let place = fly(&model, &start, &[FAR], &tight).unwrap().marks[0].position;
    [place.y, place.z]
}

fn apart(drawn: &Drawn, one: &Departure, other: &Departure) -> f64 {
    let ([a, b], [c, d]) = (impact(drawn, one), impact(drawn, other));
    (a - c).hypot(b - d)
}

/// The full push with so many times its steps.
fn fine(bow: &Bow, drawn: &Drawn, index: Angle, times: usize) -> Departure {
    let shot = |steps| {
        let detail = Detail { steps, ..Detail::default() };
        watch(bow, &drawn.parts, &drawn.built, index, &drawn.form, detail).unwrap()
    };
    let plain = shot(1);
    shot(times * (plain.frames.len() - 1)).departure
}

/// Every kind of bow with every kind of rest.
fn corners() -> Vec<Bow> {
    let kinds = [RestKind::DropAway, RestKind::Containment, RestKind::SidePoint, RestKind::Shelf];
    let with = |base: Bow, kind: RestKind| {
        let mut bow = base;
        bow.rest.kind = kind;
        if kind == RestKind::DropAway {
            bow.rest.share = Ratio::from_si(0.4);
        }
        if kind == RestKind::SidePoint {
            bow.rest.preload = recurve().rest.preload;
        }
        bow
    };
    let bases = [bow(), recurve(), longbow()];
    bases.iter().flat_map(|base| kinds.map(|kind| with(*base, kind))).collect()
}

/// Impacts at 100 yd against the full push in eight times the steps: bows of every
/// kind, rests of every kind, wide scatter of parts, faults and speed.
#[test]
fn law_pushes_side_by_side_land_as_the_fine_push() {
    for bow in corners() {
        let centre = pair(&bow, hunter());
        let mass = centre.built.mass.mass().si();
        let ranges =
            [Range { low: 0.96 * mass, high: 1.04 * mass }, Range { low: -0.3, high: 0.3 }];
        let batch = PushBatch::new(centre, ranges, None).unwrap();
        let arrows = drawn(6, [0.08, 0.04, 0.05], 0.3);
        let (index, given) = (Angle::from_si(0.4), GivenDeparture::default());
        let shots: Vec<Shot> = arrows
            .iter()
            .map(|a| Shot {
                bow: &bow,
                parts: &a.parts,
                built: &a.built,
                index,
                form: &a.form,
                given: &given,
            })
            .collect();
        for (arrow, departure) in arrows.iter().zip(batch.depart(&shots)) {
            let off = apart(arrow, &departure.unwrap(), &fine(&bow, arrow, index, 8));
            assert!(off < PROMISE, "{:?} {:?}: off by {off} m", bow.kind, bow.rest.kind);
        }
    }
}

/// A push has the same bits alone, beside others, and in another lane.
#[test]
fn exact_a_push_does_not_know_its_company() {
    for bow in [bow(), recurve()] {
        let centre = pair(&bow, hunter());
        let mass = centre.built.mass.mass().si();
        let ranges =
            [Range { low: 0.97 * mass, high: 1.03 * mass }, Range { low: -0.3, high: 0.3 }];
        let batch = PushBatch::new(centre, ranges, None).unwrap();
        // The last ones are outside the ranges and so pushed on their own.
        let mut arrows = drawn(11, [0.05, 0.02, 0.05], 0.3);
        arrows.extend(drawn(2, [0.05, 0.02, 0.05], 2.0));
        let given = GivenDeparture::default();
        let shot = |(at, a): (usize, &'static Drawn)| Shot {
            bow: Box::leak(Box::new(bow)),
            parts: &a.parts,
            built: &a.built,
            index: Angle::from_si(0.1 * at as f64),
            form: &a.form,
            given: Box::leak(Box::new(given)),
        };
        let arrows: &'static [Drawn] = Vec::leak(arrows);
        let shots: Vec<Shot> = arrows.iter().enumerate().map(shot).collect();
        let together = batch.depart(&shots);
        for (at, one) in together.iter().enumerate() {
            assert_eq!(one, &batch.depart(&shots[at..=at])[0]);
            assert_eq!(one, &batch.depart(&shots[at / 2..])[at - at / 2]);
        }
    }
}

/// Without anything that differs the linear map gives the departure of the full
/// push, to rounding, whichever way the arrow is rolled. Where contacts open and
/// close there is none.
#[test]
fn law_response_is_the_full_push() {
    let (form, given) = (Form::default(), GivenDeparture::default());
    let none = LinearResponse::new(pair(&recurve(), hunter()), Range::only(0.0), &given);
    assert!(none.unwrap().is_none());
    let map = LinearResponse::new(pair(&bow(), hunter()), Range::only(0.0), &given);
    let map = map.unwrap().unwrap();
    let (parts, built) = arrow(&faults(1.0));
    for index in [0.0, 0.4, 2.0].map(Angle::from_si) {
        let mapped = map.depart(&built, index, &form, &given, &[]).unwrap().unwrap();
        let full = depart(&bow(), &parts, &built, index, &form, &given).unwrap();
        assert!(mapped.apart(&full, FAR) < 1e-8, "{mapped:?} {full:?}");
    }
}

/// A stiff side couples the planes: the map is then of one roll.
#[test]
fn law_response_knows_a_stiff_side() {
    let mut parts = hunter();
    parts.shaft.stiff_side = Ratio::from_si(0.04);
    parts.shaft.stiff_clock = Angle::from_si(0.5);
    let (form, given) = (Form::default(), GivenDeparture::default());
    let map = LinearResponse::new(pair(&bow(), parts), Range::only(0.0), &given).unwrap().unwrap();
    let built = arrow::build(&parts, &faults(1.0)).unwrap();
    assert!(map.fits(Angle::ZERO, &form, &given, &[]));
    assert!(!map.fits(Angle::from_si(0.4), &form, &given, &[]));
    let mapped = map.depart(&built, Angle::ZERO, &form, &given, &[]).unwrap().unwrap();
    let full = depart(&bow(), &parts, &built, Angle::ZERO, &form, &given).unwrap();
    assert!(mapped.apart(&full, FAR) < 1e-8, "{mapped:?} {full:?}");
}

/// The map knows speed: errors of the archer's that are ten times what form makes
/// of it land within the promise of the full push.
#[test]
fn law_response_knows_speed() {
    let given = GivenDeparture::default();
    let range = Range { low: -1.5, high: 1.5 };
    let map = LinearResponse::new(pair(&bow(), hunter()), range, &given).unwrap().unwrap();
    for arrow in drawn(8, [0.0; 3], 1.5) {
        let Drawn { parts, built, form, .. } = &arrow;
        let mapped = map.depart(built, Angle::ZERO, form, &given, &[]).unwrap().unwrap();
        let full = depart(&bow(), parts, built, Angle::ZERO, form, &given).unwrap();
        let off = apart(&arrow, &mapped, &full);
        assert!(off < PROMISE, "off by {off} m at {}", form.speed.si());
    }
}

/// Spine, density and point drawn four standard deviations wide (2 %, 0.6 % and 1 %):
/// polynomials of the second degree land within the promise of the fine push.
#[test]
fn law_response_knows_what_is_drawn() {
    let given = GivenDeparture::default();
    let shares = [0.08, 0.024, 0.04];
    let mut ranges = vec![Range { low: -0.6, high: 0.6 }];
    ranges.extend(
        middle().iter().zip(shares).map(|(value, share)| Range {
            low: value * (1.0 - share),
            high: value * (1.0 + share),
        }),
    );
    let centre = pair(&bow(), hunter());
    let mut map = LinearResponse::start(centre, ranges, &given).unwrap().unwrap();
    let make = |values: &[f64]| Some(pair(&bow(), at([values[0], values[1], values[2]])));
    let mut last = f64::INFINITY;
    for degree in 1..=3 {
        assert!(map.raise(&make).unwrap());
        assert_eq!(map.degree(), degree);
        let mut most: f64 = 0.0;
        for arrow in drawn(12, [0.04, 0.012, 0.02], 0.3) {
            let Drawn { built, form, values, .. } = &arrow;
            let mapped = map.depart(built, Angle::ZERO, form, &given, values).unwrap().unwrap();
            most = most.max(apart(&arrow, &mapped, &fine(&bow(), &arrow, Angle::ZERO, 8)));
        }
        assert!(degree < 2 || most < PROMISE, "degree {degree}: off by {most} m");
        assert!(most < 2.0 * last, "degree {degree}: {most} m after {last} m");
        last = most;
    }
    assert!(!map.raise(&make).unwrap());
}
