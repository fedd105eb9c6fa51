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
const MOVES: usize = 41;
const VISITORS: usize = 50;
const LOAD: Duration = Duration::from_secs(30);

fn main() {
    let site = PageSite::local(Path::new("."), None).unwrap();
    let address = site.address();
    site.serve_aside();
    redraw(address);
    load(address);
}

fn redraw(address: SocketAddr) {
    let mut browser = Browser::start("bench");
    browser.screen(1280, 900, false);
    browser.open(&format!("http://{address}/"));
    let seen = |name: &str| format!("document.documentElement.dataset.{name}");
    browser.until(&seen("sharp"));
    let (mut quick, mut sharp) = (Vec::new(), Vec::new());
    for at in 0..MOVES {
        for name in ["quick", "sharp"] {
            browser.value(&format!("delete {}", seen(name)));
        }
        browser.value(&format!(
            "(() => {{ const s = document.querySelector('.slide[data-for=point]');
             s.value = {}; s.dispatchEvent(new Event('input', {{bubbles: true}})); }})()",
            60 + 5 * at
        ));
        for (name, times) in [("quick", &mut quick), ("sharp", &mut sharp)] {
            browser.until(&seen(name));
            times.push(browser.text(&seen(name)).parse::<f64>().unwrap());
        }
    }
    for (name, times) in [("quick", &mut quick), ("sharp", &mut sharp)] {
        times.sort_by(f64::total_cmp);
        let (median, worst) = (times[MOVES / 2], times[MOVES - 1]);
        println!("{name} answer on the screen: median {median:.0} ms, worst {worst:.0} ms");
    }
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
                        Ok((200, events)) if events.len() == 1 => {
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
