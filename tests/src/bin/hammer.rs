//! Hammers at the readers, the page and the whole chain for as long as wanted:
//!
//!     cargo hammer scenario|table|units|request|corner|answer COUNT [SEED]
//!
//! Says how many inputs were tried and how long the slowest took. An input that
//! ends in a panic is written to `target/hammer/`, and the exit code is 1.
#![allow(clippy::print_stdout, reason = "it is a program")]

use std::collections::BTreeMap;
use std::fs;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::{Duration, Instant};

use clothyard::PageSite;
use clothyard_tests::hammer::{Corners, Mutator, Reply, Visitor, corner, scenario, table, units};
use clothyard_tests::program::{Folder, path};

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let number = |at: usize| words.get(at).and_then(|word| word.parse::<u64>().ok());
    let (Some(target), Some(count)) = (words.first(), number(1)) else {
        println!("hammer scenario|table|units|request|corner|answer COUNT [SEED]");
        return ExitCode::from(2);
    };
    let seed = number(2).unwrap_or(1);
    let seeds = seeds(target);
    let mutator = Mutator::new(&seeds, seed);
    let text = |at| mutator.text(at);
    let bad = match target.as_str() {
        "scenario" => strike(target, count, text, |bytes| said(scenario(bytes))),
        "table" => strike(target, count, text, |bytes| said(table(bytes))),
        "units" => strike(target, count, text, |bytes| said(units(bytes))),
        "request" => requests(target, count, text),
        "corner" | "answer" => {
            let (corners, whole) = (Corners::new(), target == "answer");
            println!("{} keys with a range", corners.count());
            let text = |at| corners.text(seed.wrapping_mul(1 << 32) + at).into_bytes();
            strike(target, count, text, |bytes| {
                format!("{:?}", corner(&String::from_utf8_lossy(bytes), whole))
            })
        }
        other => {
            println!("there is no target {other}");
            return ExitCode::from(2);
        }
    };
    ExitCode::from(u8::from(bad > 0))
}

fn said(sound: bool) -> String {
    if sound { "sound".to_owned() } else { "refused".to_owned() }
}

/// A page of its own, and requests to it.
fn requests(target: &str, count: u64, text: impl Fn(u64) -> Vec<u8>) -> u64 {
    let folder = Folder::new("hammer");
    // Few flights, so that many requests are tried.
    let own = fs::read(path("tests/corpus/scenario/compare")).unwrap_or_default();
    folder.write("own.toml", &String::from_utf8_lossy(&own));
    let Some(site) = PageSite::local(Path::new(&folder.at("")), None) else { return 1 };
    let mut visitor = Visitor::new(site.address());
    site.serve_aside();
    let mut sent: u64 = 0;
    let mut send = |bytes: &[u8]| {
        sent += 1;
        // What was saved would be told with every answer.
        if sent.is_multiple_of(1_000) {
            clear(Path::new(&folder.at("")));
        }
        match visitor.send(bytes) {
            Some(Reply { code: 500..=502, body, .. }) => panic!("the page answers {body}"),
            Some(Reply { whole: false, .. }) => "left".to_owned(),
            Some(Reply { code, .. }) => code.to_string(),
            None => "hung up".to_owned(),
        }
    };
    strike(target, count, text, |bytes| send(bytes))
}

/// Empties a folder of all but its scenario.
fn clear(folder: &Path) {
    for entry in fs::read_dir(folder).into_iter().flatten().filter_map(Result::ok) {
        let path = entry.path();
        if path.is_dir() {
            let _ = fs::remove_dir_all(path);
        } else if entry.file_name() != "own.toml" {
            let _ = fs::remove_file(path);
        }
    }
}

/// Tries every input; gives how many were bad.
fn strike(
    target: &str,
    count: u64,
    text: impl Fn(u64) -> Vec<u8>,
    mut hit: impl FnMut(&[u8]) -> String,
) -> u64 {
    let folder = PathBuf::from("target/hammer");
    let keep = |at: u64, why: &str, bytes: &[u8]| {
        let _ = fs::create_dir_all(&folder);
        let _ = fs::write(folder.join(format!("{target}-{at}-{why}")), bytes);
    };
    let began = Instant::now();
    let mut bad = 0;
    let mut ends: BTreeMap<String, u64> = BTreeMap::new();
    let mut slowest = (Duration::ZERO, 0);
    for at in 0..count {
        let bytes = text(at);
        let start = Instant::now();
        if let Ok(end) = catch_unwind(AssertUnwindSafe(|| hit(&bytes))) {
            *ends.entry(end).or_default() += 1;
        } else {
            bad += 1;
            keep(at, "panic", &bytes);
        }
        let took = start.elapsed();
        if took > slowest.0 {
            slowest = (took, at);
        }
        if took > Duration::from_secs(2) {
            *ends.entry("over 2 s".to_owned()).or_default() += 1;
            keep(at, "slow", &bytes);
        }
        if at % 100_000 == 99_999 {
            println!("{} after {:.0?}", at + 1, began.elapsed());
        }
    }
    println!(
        "{target}: {count} tried in {:.1?}, {bad} bad; slowest {:.3?} (number {}); {ends:?}",
        began.elapsed(),
        slowest.0,
        slowest.1
    );
    bad
}

/// Sound inputs to begin with: the small ones kept for tests, and the scenarios
/// and notebooks that come along.
fn seeds(target: &str) -> Vec<Vec<u8>> {
    let folders: &[(&str, &str)] = match target {
        "scenario" => {
            &[("tests/corpus/scenario", ""), ("scenarios", "toml"), ("tests/scenarios", "toml")]
        }
        "table" => &[("tests/corpus/table", "")],
        "units" => &[("tests/corpus/units", "")],
        _ => &[("tests/corpus/request", "")],
    };
    let mut all = Vec::new();
    for (folder, ending) in folders {
        let entries = fs::read_dir(path(folder)).into_iter().flatten().filter_map(Result::ok);
        let mut paths: Vec<PathBuf> = entries.map(|entry| entry.path()).collect();
        paths.sort();
        let wanted =
            |path: &&PathBuf| ending.is_empty() || path.extension().is_some_and(|e| e == *ending);
        all.extend(paths.iter().filter(wanted).filter_map(|path| fs::read(path).ok()));
    }
    all
}
