//! How soon the live page follows a slider, measured in a browser, and how it
//! bears fifty visitors at once.
#![allow(clippy::print_stdout)] // A bench prints what it measured.
#![expect(clippy::unwrap_used, reason = "a bench without its page should stop")]

use std::fs;
use std::net::SocketAddr;
use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::{Duration, Instant};

use clothyard::PageSite;
use clothyard_tests::browser::{Browser, live};

/// Slider moves measured; odd, for a median.
const MOVES: usize = 9;
/// Inputs of a drag, and how long it takes, ms.
const INPUTS: usize = 60;
const DRAG: usize = 5000;
const VISITORS: usize = 50;
const LOAD: Duration = Duration::from_secs(30);

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
    println!(
        "Input to picture in a browser, ms: median of {MOVES} moves, worst in brackets.\n\
         Drag: pictures of {INPUTS} inputs in {DRAG} ms, frames a second in it, and how far\n\
         the page's own layout shifted, and what of it.\n\n\
         | scenario | quick | sharp | pictures | frames/s | shift | of |\n|---|---|---|---|---|---|---|"
    );
    let mut browser = Browser::start("bench");
    browser.screen(1280, 900, false);
    for name in names {
        browser.open(&format!("http://{address}/?from={name}"));
        redraw(&mut browser, &name);
    }
    load(address);
}

const SEEN: &str = "document.documentElement.dataset";

fn redraw(browser: &mut Browser, name: &str) {
    browser.until(&format!("{SEEN}.sharp"));
    let (mut quick, mut sharp) = (Vec::new(), Vec::new());
    for at in 0..MOVES {
        browser.value(&format!("delete {SEEN}.quick; delete {SEEN}.sharp"));
        browser.value(&format!(
            "(() => {{ const s = document.querySelector('.slide[data-for=point]');
             s.value = {}; s.dispatchEvent(new Event('input', {{bubbles: true}})); }})()",
            60 + 5 * at
        ));
        browser.until(&format!("{SEEN}.sharp"));
        for (which, times) in [("quick", &mut quick), ("sharp", &mut sharp)] {
            // The only answer is the sharp one.
            times.extend(browser.text(&format!("{SEEN}.{which}")).parse::<f64>());
        }
    }
    let told = |times: &mut Vec<f64>| {
        times.sort_by(f64::total_cmp);
        let worst = times.last().copied();
        times
            .get(times.len() / 2)
            .zip(worst)
            .map_or_else(|| "-".to_owned(), |(median, worst)| format!("{median:.0} ({worst:.0})"))
    };
    let drag = browser.value(&format!(
        "(async () => {{
         const slide = document.querySelector('.slide[data-for=point]');
         let frames = 0, shift = 0, goes = true;
         const moved = new Set(), name = (node) => node && (node.id || node.className || node.nodeName);
         new PerformanceObserver((list) => {{
           for (const one of list.getEntries()) {{
             shift += one.value;
             for (const source of one.sources) moved.add(name(source.node));
           }}
         }})
           .observe({{ type: 'layout-shift' }});
         const frame = () => {{ frames += 1; if (goes) requestAnimationFrame(frame); }};
         requestAnimationFrame(frame);
         const before = Number({SEEN}.pictures), began = performance.now();
         for (let at = 0; at < {INPUTS}; at += 1) {{
           slide.value = 60 + 2 * at;
           slide.dispatchEvent(new Event('input', {{ bubbles: true }}));
           await new Promise((done) => setTimeout(done, began + (at + 1) * {DRAG} / {INPUTS} - performance.now()));
         }}
         goes = false;
         const seconds = (performance.now() - began) / 1000;
         return [Number({SEEN}.pictures) - before, (frames / seconds).toFixed(0), shift.toFixed(4), [...moved].join(', ')].join(' | ');
         }})()"
    ));
    println!(
        "| {} | {} | {} | {} |",
        name.trim_end_matches(".toml"),
        told(&mut quick),
        told(&mut sharp),
        drag.as_str().unwrap_or_default()
    );
}

/// Memory of this program, pages and browser aside, kB; none where the system
/// does not tell.
fn memory() -> Option<u64> {
    let text = fs::read_to_string("/proc/self/status").ok()?;
    let line = text.lines().find(|line| line.starts_with("VmRSS:"))?;
    line.split_whitespace().nth(1)?.parse().ok()
}

fn load(address: SocketAddr) {
    let (done, lost) = (AtomicUsize::new(0), AtomicUsize::new(0));
    let before = memory();
    let start = Instant::now();
    std::thread::scope(|scope| {
        for visitor in 0..VISITORS {
            let (done, lost) = (&done, &lost);
            scope.spawn(move || {
                let mut turn = 0;
                while start.elapsed() < LOAD {
                    let point = 60 + (7 * visitor + turn) % 200;
                    let form = format!("visit=v{visitor}&point={point}+gr");
                    turn += 1;
                    match live(address, &form, 1) {
                        // Who waits for a second is told the pace first.
                        Ok((200, events)) if events.last().is_some_and(|of| of.0 == "answer") => {
                            done.fetch_add(1, Ordering::Relaxed)
                        }
                        _ => lost.fetch_add(1, Ordering::Relaxed),
                    };
                }
            });
        }
    });
    let (done, lost) = (done.into_inner(), lost.into_inner());
    println!("{VISITORS} visitors for {} s: {done} answers, {lost} lost", LOAD.as_secs());
    if let (Some(before), Some(after)) = (before, memory()) {
        println!("memory before {before} kB, after {after} kB");
    }
}
