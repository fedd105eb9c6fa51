//! Intervals of a comparison flown with common chances.

use clothyard_tests::compared;
use clothyard_tests::recipe::{Simple, Value, compare};
use study::{Distribution, Owner, PairMark, Per, Plan, Quiet, run};
use target::Estimate;

/// Build a adds a groove fault about as large as the archer's scatter.
fn plan(flights: usize, seed: u64) -> Plan {
    let clock = Distribution::Uniform { low: 0.0, high: std::f64::consts::TAU };
    let size = Distribution::Rayleigh { scale: 2e-4 };
    let a = Simple::new().aimed(1e-4).drawn(Value::Groove, Owner::NockEnd, size, Per::Arrow).drawn(
        Value::GrooveClock,
        Owner::NockEnd,
        clock,
        Per::Arrow,
    );
    let b = Simple::new().aimed(1e-4).sawn(0.002);
    let mut plan = compare(vec![a.build("a"), b.build("b")], flights);
    plan.seed = seed;
    plan
}

fn first(plan: &Plan) -> PairMark {
    compared(run(plan, &Quiet).unwrap()).pairs[0].marks[0].clone()
}

fn of(ratio: Option<Estimate>) -> Estimate {
    ratio.expect("both builds scatter")
}

/// The truth is taken from a group 25 times as large, whose own error leaves a
/// 95 % interval a coverage of 94.5 %. Of 20 intervals at least 15 then hold
/// it, but for one chance in 2,000 (binomial).
#[test]
fn stat_intervals_of_ratio_and_gain_cover_the_truth() {
    let truth = first(&plan(7_500, 1_000));
    assert!(of(truth.full_ratio).low > 1.1, "the builds do not differ");
    let holds = |e: Estimate, truth: f64| u32::from(e.low <= truth && truth <= e.high);
    let mut hits = [0; 3];
    for seed in 0..20 {
        let found = first(&plan(300, seed));
        hits[0] += holds(of(found.full_ratio), of(truth.full_ratio).value);
        hits[1] += holds(of(found.machine_ratio), of(truth.machine_ratio).value);
        hits[2] += holds(found.gain, truth.gain.value);
    }
    assert!(hits.iter().all(|&count| count >= 15), "{hits:?}");
}
