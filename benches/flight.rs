//! One flight to 60 yd, passing marks every 10 yd from 20 yd on.
#![allow(missing_docs)] // criterion's macros make undocumented functions.
#![expect(clippy::unwrap_used, reason = "a bench that cannot fly should stop")]

use std::hint::black_box;

use clothyard_tests::{built, choice, hunter, lopsided, site, start};
use criterion::{Criterion, criterion_group, criterion_main};
use flight::{Tolerance, fly, fly_point, model};
use units::{Length, Speed, parse};

/// Departure speed, m/s; chosen, a usual hunting arrow.
const SPEED: f64 = 85.0;

fn flights(criterion: &mut Criterion) {
    let speed = Speed::from_si(SPEED);
    let arrow = model(&hunter(), &built(lopsided()), &choice(), &site(), speed).unwrap();
    let marks = ["20 yd", "30 yd", "40 yd", "50 yd", "60 yd"]
        .map(|mark| parse::<Length>(mark).unwrap().si());
    let start = start(SPEED);
    let tolerance = Tolerance::default();
    criterion.bench_function("point-mass flight to 60 yd", |bencher| {
        bencher.iter(|| fly_point(&arrow, black_box(&start), &marks, &tolerance).unwrap());
    });
    criterion.bench_function("six-DOF flight to 60 yd", |bencher| {
        bencher.iter(|| fly(&arrow, black_box(&start), &marks, &tolerance).unwrap());
    });
}

criterion_group!(group, flights);
criterion_main!(group);
