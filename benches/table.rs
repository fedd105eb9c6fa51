//! The table of the README, measured in one run: flights a second of the bare flight and of
//! the whole chain by bow, rest and what is drawn, and the memory that an answer takes.
#![allow(clippy::print_stdout)] // A bench prints what it measured.
#![expect(clippy::unwrap_used, reason = "a bench that cannot fly should stop")]

use std::path::Path;
use std::time::Instant;

use clothyard_benches::{Chain, DISTANCE, chain, ensemble, memory, worked};
use flight::{Entry, fly_batch, pilot_steps};
use study::{CausesAlone, Plan, Question, Quiet, run_on};

/// CPU seconds that a row is measured for at least. Chosen: a hundred ticks of the clock.
const LONG: f64 = 1.0;
/// Flights to begin with; four times as many until a row takes long enough. Chosen: no
/// fewer give the shares that are asked for.
const FIRST: usize = 10_000;
/// Flights whose memory is measured.
const MANY: [usize; 2] = [1_000_000, 10_000_000];

/// CPU seconds of some work, or seconds where the system does not tell them.
fn seconds(work: impl FnOnce()) -> f64 {
    let (before, start) = (worked(), Instant::now());
    work();
    before.zip(worked()).map_or(start.elapsed().as_secs_f64(), |(before, after)| after - before)
}

/// Two figures that count, thousands apart.
fn rounded(rate: f64) -> String {
    let unit = 10.0_f64.powf(rate.log10().floor() - 1.0);
    let digits = format!("{:.0}", (rate / unit).round() * unit);
    let mut out = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at) % 3 == 0 {
            out.push(',');
        }
        out.push(digit);
    }
    out
}

/// Flights with everything drawn and their statistics, once.
fn plan(chain: &Chain, flights: usize) -> Plan {
    let read = scenario::read(Path::new("chain.toml"), &|_| Ok(chain.text.clone()));
    let plan = read.ok().and_then(|read| read.plan()).unwrap();
    Plan { flights, points: 0, ..plan }
}

/// Groups of a build: with everything, by a machine, and the archer's own.
fn groups(plan: Plan) -> Plan {
    Plan { question: Question::Compare { ends: false }, alone: CausesAlone::Nowhere, ..plan }
}

/// Shots a second of the whole chain on one core, what is worked out beforehand included.
fn shots(chain: &Chain) -> f64 {
    let mut flights = FIRST;
    loop {
        let plan = plan(chain, flights);
        let mut flown = 0;
        let took = seconds(|| flown = run_on(&plan, Some(1), &Quiet).unwrap().flown);
        if took >= LONG {
            return flown as f64 / took;
        }
        flights *= 4;
    }
}

/// Flights a second on one core, without arrow, bow and statistics.
fn bare() -> f64 {
    let cases = ensemble(4096);
    let marks = [DISTANCE];
    let entries: Vec<Entry> = cases.iter().map(|case| case.entry(&marks)).collect();
    let steps = pilot_steps(&entries[0]);
    let mut rounds = 1;
    loop {
        let took = seconds(|| (0..rounds).for_each(|_| drop(fly_batch(&entries, steps))));
        if took >= LONG {
            return (rounds * entries.len()) as f64 / took;
        }
        rounds *= 4;
    }
}

fn main() {
    let chains = chain();
    println!("| bow and rest, draw to impact | {} drawn | {} |", chains[0].drawn, chains[1].drawn);
    println!("|---|---|---|");
    for both in chains.chunks_exact(2) {
        let [few, all] = [0, 1].map(|at| rounded(shots(&both[at])));
        println!("| {}, {} | {few} | {all} |", both[0].bow, both[0].rest);
    }
    println!("| the flight alone | {} | |", rounded(bare()));
    // Most memory only grows, so the smaller answer comes first.
    for flights in MANY {
        let before = memory();
        let plan = groups(plan(&chains[1], flights));
        let mut flown = 0;
        let took = seconds(|| flown = run_on(&plan, Some(1), &Quiet).unwrap().flown);
        println!(
            "{flights} flights to a group, three groups ({flown} flights) at one distance: {:.0} MB \
             ({before:.0} MB before), {took:.1} CPU s",
            memory()
        );
    }
}
