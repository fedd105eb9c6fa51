//! Groups of 10,000 six-DOF flights of one build, all that an answer needs:
//! archer and arrows together, arrows alone, archer alone, causes and bands.
#![allow(missing_docs)] // criterion's macros make undocumented functions.
#![expect(clippy::unwrap_used, reason = "a bench that cannot fly should stop")]

use clothyard_tests::recipe::{Simple, compare};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use study::{Quiet, run};

/// Flights in a group.
const FLIGHTS: usize = 10_000;

fn groups(criterion: &mut Criterion) {
    // Chosen: ends out of square by half a degree, aim within a milliradian.
    let build = Simple::new().sawn(0.5_f64.to_radians()).aimed(1e-3).build("invented");
    let plan = compare(vec![build], FLIGHTS);
    let flown = run(&plan, &Quiet).unwrap().flown;
    let mut group = criterion.benchmark_group("study");
    group.sample_size(10).throughput(Throughput::Elements(flown as u64));
    group.bench_function("10,000-flight groups of one build", |bencher| {
        bencher.iter(|| run(&plan, &Quiet).unwrap());
    });
    group.finish();
}

criterion_group!(group, groups);
criterion_main!(group);
