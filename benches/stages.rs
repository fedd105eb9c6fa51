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
use clothyard_tests::browser::post;
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
    println!("| scenario | quick | better | sharp | all three | whole answer |");
    println!("|---|---|---|---|---|---|");
    for name in names {
        let path = folder.join(&name);
        let read = scenario::read(&path, &|path| fs::read_to_string(folder.join(path)));
        let plan = read.ok().and_then(|read| read.plan()).unwrap();
        // The page tells how many flights its last answer has.
        let stages = stages(address, &name);
        let mut cells = Vec::new();
        let all = timed(|| {
            let answer = |flights: &String| timed(|| answer(address, &name, flights));
            cells.extend(stages.iter().map(answer));
        });
        while cells.len() < 3 {
            cells.insert(1, String::from("-"));
        }
        cells.push(all);
        cells.push(timed(|| drop(run(&plan, &Quiet).unwrap())));
        println!("| {} | {} |", name.trim_end_matches(".toml"), cells.join(" | "));
    }
}

/// Numbers of flights of the page's answers, from its form.
fn stages(address: SocketAddr, name: &str) -> Vec<String> {
    let page = clothyard_tests::browser::get(address, &format!("/?from={name}")).unwrap().1;
    let (_, rest) = page.split_once("data-stages=\"").unwrap();
    rest.split('"').next().unwrap().split(' ').map(str::to_owned).collect()
}

/// Asks for an answer with a slider moved, as no answer before it was.
fn answer(address: SocketAddr, name: &str, flights: &str) {
    let form = format!("flights={flights}&visit=bench&from={name}&point=113+gr");
    let (status, text) = post(address, "/answer", &form).unwrap();
    assert!(status == 200, "{name}: {text}");
}
