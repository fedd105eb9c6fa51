//! A bar for runs long enough to want one.

use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};
use study::Watch;

/// Flights that nobody has to ask for twice. Chosen: some hundred times the longest
/// of the runs that come along, an hour or so on two cores.
pub(crate) const MOST_UNASKED: u64 = 20_000_000;

/// Draws on standard error, and only on a terminal. Ends a run that plans more
/// flights than are allowed, before it flies them.
pub(crate) struct RunBar {
    bar: ProgressBar,
    /// Flights told of so far, and those expected in all.
    told: AtomicU64,
    expected: AtomicU64,
    most: u64,
    plans: u64,
}

impl RunBar {
    pub(crate) fn new(seen: bool) -> Self {
        let (told, expected) = (AtomicU64::new(0), AtomicU64::new(0));
        Self { bar: bar(seen), told, expected, most: u64::MAX, plans: 1 }
    }

    /// The same with a limit, for a run that tells its flights in so many plans of
    /// one kind, and flies so many at least.
    pub(crate) fn within(self, most: u64, plans: usize, at_least: u64) -> Self {
        Self { most, plans: plans as u64, expected: AtomicU64::new(at_least), ..self }
    }

    /// How many flights are expected, where those are too many.
    pub(crate) fn too_many(&self) -> Option<u64> {
        Some(self.expected.load(Ordering::Relaxed)).filter(|expected| *expected > self.most)
    }

    pub(crate) fn finish(&self) {
        self.bar.finish_and_clear();
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

impl Watch for RunBar {
    fn planned(&self, flights: u64) {
        self.bar.inc_length(flights);
        let told = self.told.fetch_add(flights, Ordering::Relaxed);
        // The first plan stands for those to come, so that the end is known at the
        // start.
        let all = if told == 0 { flights.saturating_mul(self.plans) } else { told + flights };
        self.expected.fetch_max(all, Ordering::Relaxed);
    }

    fn cancelled(&self) -> bool {
        self.too_many().is_some()
    }

    fn done(&self, flights: u64) {
        self.bar.inc(flights);
    }
}
