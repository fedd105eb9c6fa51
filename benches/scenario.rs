//! Reading the demonstration scenario with its part files.
#![allow(missing_docs)] // criterion's macros make undocumented functions.
#![expect(clippy::unwrap_used, reason = "a bench without its scenario should stop")]

use std::hint::black_box;
use std::path::Path;

use criterion::{Criterion, criterion_group, criterion_main};

fn reading(criterion: &mut Criterion) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/square-ends.toml");
    criterion.bench_function("reading scenarios/square-ends.toml", |bencher| {
        bencher.iter(|| {
            scenario::read(black_box(&path), &|path| std::fs::read_to_string(path)).unwrap()
        });
    });
}

criterion_group!(group, reading);
criterion_main!(group);
