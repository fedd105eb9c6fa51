//! A bar for runs long enough to want one.

use std::time::Duration;

use indicatif::{ProgressBar, ProgressStyle};
use study::Watch;

/// Draws on standard error, and only on a terminal.
pub(crate) struct RunBar(ProgressBar);

impl RunBar {
    pub(crate) fn new(seen: bool) -> Self {
        if !seen {
            return Self(ProgressBar::hidden());
        }
        let bar = ProgressBar::new(0);
        if let Ok(style) =
            ProgressStyle::with_template("{pos} of {len} flights {wide_bar} {eta} left")
        {
            bar.set_style(style);
        }
        bar.enable_steady_tick(Duration::from_millis(200));
        Self(bar)
    }

    pub(crate) fn finish(&self) {
        self.0.finish_and_clear();
    }
}

impl Watch for RunBar {
    fn planned(&self, flights: u64) {
        self.0.inc_length(flights);
    }

    fn done(&self, flights: u64) {
        self.0.inc(flights);
    }
}
