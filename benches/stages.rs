//! How long the live page takes for each answer of every shipped scenario, and how long
//! the whole answer of each takes: a table. Words on the command line choose scenarios whose
//! names hold one of them.
#![allow(clippy::print_stdout)] // A bench prints what it measured.
#![expect(clippy::unwrap_used, reason = "a bench without its page should stop")]

use std::fs;
use std::net::SocketAddr;
use std::path::Path;
use std::time::Instant;

use clothyard::PageSite;
use clothyard_benches::worked;
use clothyard_tests::browser::live;
use study::{Quiet, run};

/// How long something takes, s, by the work of all cores and by the clock on the wall.
fn timed(work: impl FnOnce()) -> String {
    let (before, start) = (worked(), Instant::now());
    work();
    let wall = start.elapsed().as_secs_f64();
    let cores = before.zip(worked()).map(|(before, after)| after - before);
    cores.map_or(format!("- / {wall:.2}"), |cores| format!("{cores:.2} / {wall:.2}"))
}

fn main() {
    let folder = fs::canonicalize(Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios"));
    let folder = folder.unwrap();
    let site = PageSite::local(&folder, None).unwrap();
    let address = site.address();
    site.serve_aside();
    let mut names: Vec<String> = fs::read_dir(&folder)
        .unwrap()
        .filter_map(|entry| entry.ok()?.file_name().into_string().ok())
        .filter(|name| Path::new(name).extension().is_some_and(|of| of == "toml"))
        .collect();
    names.sort();
    let chosen: Vec<String> = std::env::args().skip(1).filter(|of| !of.starts_with('-')).collect();
    names.retain(|name| chosen.is_empty() || chosen.iter().any(|of| name.contains(of.as_str())));
    println!("Seconds, work of all cores / clock on the wall.");
    println!("| scenario | quick | to better | to sharp | all asked | whole answer |");
    println!("|---|---|---|---|---|---|");
    for name in names {
        let path = folder.join(&name);
        let read = scenario::read(&path, &|path| fs::read_to_string(folder.join(path)));
        let plan = read.ok().and_then(|read| read.plan()).unwrap();
        let mut cells = Vec::new();
        let all = timed(|| while !answer(address, &name, &mut cells) {});
        while cells.len() < 3 {
            cells.insert(1, String::from("-"));
        }
        cells.push(all);
        cells.push(timed(|| drop(run(&plan, &Quiet).unwrap())));
        println!("| {} | {} |", name.trim_end_matches(".toml"), cells.join(" | "));
    }
}

/// Asks for one answer more than was asked for before, with a slider moved as for no answer
/// before it; says whether it was the last.
fn answer(address: SocketAddr, name: &str, cells: &mut Vec<String>) -> bool {
    let count = cells.len() + 1;
    let form = format!("visit=bench&from={name}&point={}+gr", 112 + count);
    let mut last = false;
    cells.push(timed(|| {
        let (status, events) = live(address, &form, count).unwrap();
        assert!(status == 200, "{name}: {events:?}");
        last = events.last().is_some_and(|(of, data)| of != "answer" || data["last"] == true);
    }));
    last
}
