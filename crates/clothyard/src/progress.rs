//! A bar for runs long enough to want one.

use std::io::Write as _;
use std::sync::atomic::{AtomicBool, AtomicU64, Ordering};
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::{Duration, Instant};

use indicatif::{ProgressBar, ProgressStyle};
use study::Watch;

use crate::{Stream, interrupt};

/// Flights that nobody has to ask for twice. Chosen: some hundred times the longest
/// of the runs that come along, an hour or so on two cores.
pub(crate) const MOST_UNASKED: u64 = 20_000_000;

/// A run that takes longer is told of beforehand. Chosen: about as long as one waits
/// without wondering.
const LONG: Duration = Duration::from_secs(10);
/// How long the pace is looked at first. Chosen: pushes are then well under way.
const LOOK: Duration = Duration::from_secs(2);

/// One bar for a whole run, on standard error: drawn on a terminal, else one plain
/// line where the run takes long. Ends a run that plans more flights than are allowed
/// before it flies them, and one that the user ends.
pub(crate) struct RunBar<'a> {
    bar: ProgressBar,
    /// Flights told of so far, those expected in all but at the end, and those there.
    told: AtomicU64,
    expected: AtomicU64,
    last: AtomicU64,
    flown: AtomicU64,
    most: u64,
    plans: u64,
    seen: bool,
    began: Instant,
    said: AtomicBool,
    stopped: &'a (dyn Fn() -> bool + Sync),
}

impl<'a> RunBar<'a> {
    pub(crate) fn new(err: &Stream<'a>) -> Self {
        let seen = err.terminal;
        let none = || AtomicU64::new(0);
        Self {
            bar: bar(seen),
            told: none(),
            expected: none(),
            last: none(),
            flown: none(),
            most: u64::MAX,
            plans: 1,
            seen,
            began: Instant::now(),
            said: AtomicBool::new(false),
            stopped: err.stopped,
        }
    }

    /// The same with a limit, for a run that tells its flights in so many plans of
    /// one kind, and flies so many at least.
    pub(crate) fn within(self, most: u64, plans: usize, at_least: u64) -> Self {
        Self { most, plans: plans as u64, expected: AtomicU64::new(at_least), ..self }
    }

    /// How many flights are expected, where those are too many.
    pub(crate) fn too_many(&self) -> Option<u64> {
        Some(self.all()).filter(|expected| *expected > self.most)
    }

    pub(crate) fn finish(&self) {
        self.bar.finish_and_clear();
    }

    /// Flights of the whole run, as far as that is known.
    fn all(&self) -> u64 {
        let first = self.expected.load(Ordering::Relaxed).max(self.told.load(Ordering::Relaxed));
        first.saturating_add(self.last.load(Ordering::Relaxed))
    }

    /// Says once how long a long run takes, where no bar shows it.
    fn say(&self) {
        let (gone, flown) = (self.began.elapsed(), self.flown.load(Ordering::Relaxed));
        let all = self.all().max(flown);
        // What is worked out before the first flights says nothing of those to come.
        let early = gone < LOOK || (gone < LONG && flown < all / 20);
        if self.seen || early || flown == 0 || self.said.swap(true, Ordering::Relaxed) {
            return;
        }
        let whole = gone.mul_f64(all as f64 / flown as f64);
        if whole > LONG {
            let line = format!(
                "{flown} of {all} flights: about {} in all; Ctrl-C ends with what is known, fewer \
                 --flights take less\n",
                told(whole)
            );
            // A reader that went away needs no line.
            let _ = std::io::stderr().lock().write_all(line.as_bytes());
        }
    }
}

/// A time in round words.
fn told(time: Duration) -> String {
    match time.as_secs() {
        seconds @ 0..90 => format!("{seconds} s"),
        seconds => format!("{} min", (seconds + 30) / 60),
    }
}

fn bar(seen: bool) -> ProgressBar {
    if !seen {
        return ProgressBar::hidden();
    }
    let bar = ProgressBar::new(0);
    if let Ok(style) = ProgressStyle::with_template("{pos} of {len} flights {wide_bar} {eta} left")
    {
        bar.set_style(style);
    }
    bar.enable_steady_tick(Duration::from_millis(200));
    bar
}

/// Does work that tells nothing of how far it is, with a sign of life on standard error:
/// on a terminal the time gone, else one plain line once it takes long.
pub(crate) fn searching<T>(
    err: &Stream,
    what: &'static str,
    work: impl FnOnce(&dyn Watch) -> T,
) -> T {
    let seen = err.terminal;
    let bar = if seen { ProgressBar::new_spinner() } else { ProgressBar::hidden() };
    if let Ok(style) = ProgressStyle::with_template("{spinner} {msg} ({elapsed})") {
        bar.set_style(style);
    }
    bar.set_message(what);
    bar.enable_steady_tick(Duration::from_millis(200));
    let (done, ended) = channel::<()>();
    let line = std::thread::spawn(move || {
        if !seen && ended.recv_timeout(LOOK) == Err(RecvTimeoutError::Timeout) {
            // A reader that went away needs no line.
            let _ = std::io::stderr().lock().write_all(format!("{what}\n").as_bytes());
        }
    });
    let found = work(&Heed(err.stopped));
    drop(done);
    let _ = line.join();
    bar.finish_and_clear();
    found
}

/// Follows nothing, and ends when asked to.
struct Heed<'a>(&'a (dyn Fn() -> bool + Sync));

impl Watch for Heed<'_> {
    fn planned(&self, _: u64) {}
    fn done(&self, _: u64) {}
    fn cancelled(&self) -> bool {
        (self.0)()
    }
}

impl Watch for RunBar<'_> {
    fn planned(&self, flights: u64) {
        let told = self.told.fetch_add(flights, Ordering::Relaxed);
        // The first plan stands for those to come, so that the end is known at the
        // start.
        let all = if told == 0 { flights.saturating_mul(self.plans) } else { told + flights };
        self.expected.fetch_max(all, Ordering::Relaxed);
        self.bar.set_length(self.all());
    }

    fn at_the_end(&self, flights: u64) {
        self.last.store(flights, Ordering::Relaxed);
    }

    fn the_end_begins(&self) {
        self.last.store(0, Ordering::Relaxed);
    }

    fn cancelled(&self) -> bool {
        interrupt::stopped() || (self.stopped)() || self.too_many().is_some()
    }

    fn wants_part(&self) -> bool {
        interrupt::stopped()
    }

    fn done(&self, flights: u64) {
        self.bar.inc(flights);
        self.flown.fetch_add(flights, Ordering::Relaxed);
        self.say();
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_the_bar_knows_the_whole_run_from_its_first_plan() {
        let mut none = Vec::new();
        let bar = RunBar::new(&Stream::plain(&mut none)).within(5_000, 3, 0);
        bar.at_the_end(400);
        bar.planned(1_000);
        assert_eq!((bar.all(), bar.too_many()), (3_400, None));
        bar.planned(1_000);
        bar.planned(1_000);
        bar.the_end_begins();
        bar.planned(400);
        assert_eq!(bar.all(), 3_400);
        bar.planned(5_000);
        assert_eq!(bar.too_many(), Some(8_400));
    }

    #[test]
    fn exact_times_in_round_words() {
        let told = |seconds| told(Duration::from_secs(seconds));
        assert_eq!([told(12), told(89), told(90), told(600)], ["12 s", "89 s", "2 min", "10 min"]);
    }
}
