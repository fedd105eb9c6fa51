//! Ctrl-C: a run ends with what is known so far.

use std::sync::Once;
use std::sync::atomic::{AtomicBool, Ordering};

static HEEDS: Once = Once::new();
static STOPPED: AtomicBool = AtomicBool::new(false);

/// Whether the user has asked the run to end.
pub(crate) fn stopped() -> bool {
    STOPPED.load(Ordering::Relaxed)
}

/// From now on the first Ctrl-C asks a run to end, and a second ends the program.
/// Where the system gives no way to know, the first ends it as ever.
pub(crate) fn heed() {
    HEEDS.call_once(begin);
}

fn begin() {
    let waiting = || {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
        let Ok(runtime) = runtime else { return };
        runtime.block_on(async {
            if tokio::signal::ctrl_c().await.is_err() {
                return;
            }
            STOPPED.store(true, Ordering::Relaxed);
            if tokio::signal::ctrl_c().await.is_ok() {
                std::process::exit(INTERRUPTED);
            }
        });
    };
    // A program that cannot have one more thread runs without.
    let _ = std::thread::Builder::new().name("interrupt".to_owned()).spawn(waiting);
}

/// The usual exit code of a program ended by Ctrl-C.
const INTERRUPTED: i32 = 130;
