//! Many flights side by side on one core.
#![allow(missing_docs)] // criterion's macros make undocumented functions.

use clothyard_benches::{DISTANCE, ensemble};
use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use flight::{Entry, fly_batch, pilot_steps};

/// Flights in the batch.
const FLIGHTS: usize = 4096;

fn batch(criterion: &mut Criterion) {
    let cases = ensemble(FLIGHTS);
    let marks = [DISTANCE];
    let entries: Vec<Entry> = cases.iter().map(|case| case.entry(&marks)).collect();
    let steps = pilot_steps(&entries[0]);
    let mut group = criterion.benchmark_group("batch");
    group.throughput(Throughput::Elements(FLIGHTS as u64));
    group.bench_function(format!("six-DOF flights in {} steps", steps.total()), |bencher| {
        bencher.iter(|| fly_batch(&entries, steps));
    });
    group.finish();
}

criterion_group!(group, batch);
criterion_main!(group);
