//! The whole chain of a shot, draw to impact: by what is drawn and by the rest.
#![allow(missing_docs)] // criterion's macros make undocumented functions.
#![expect(clippy::unwrap_used, reason = "a bench that cannot fly should stop")]

use std::path::Path;

use clothyard_benches::Chain;
use criterion::{Criterion, Throughput, criterion_group, criterion_main};
use study::{Quiet, run};

fn chain(criterion: &mut Criterion) {
    let mut group = criterion.benchmark_group("chain");
    group.sample_size(10);
    for Chain { bow, rest, drawn, text } in clothyard_benches::chain() {
        let name = format!("{bow}, {rest}, {drawn}");
        let read = scenario::read(Path::new("chain.toml"), &|_| Ok(text.clone()));
        let Ok(read) = read else { panic!("{name} has mistakes") };
        let plan = read.plan().unwrap();
        let flown = run(&plan, &Quiet).unwrap().flown;
        group.throughput(Throughput::Elements(flown as u64));
        group.bench_function(name, |bencher| bencher.iter(|| run(&plan, &Quiet).unwrap()));
    }
    group.finish();
}

criterion_group!(group, chain);
criterion_main!(group);
