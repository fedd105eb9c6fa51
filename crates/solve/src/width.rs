//! How many numbers lie side by side: as many as the processor takes, or fewer
//! where a test asks.

use std::sync::atomic::{AtomicUsize, Ordering};

use pulp::WithSimd;

use crate::LANES_MAX;

static WIDEST: AtomicUsize = AtomicUsize::new(LANES_MAX);

/// Lets no more than this many numbers lie side by side from now on, in the whole
/// program. The bits of an answer do not depend on it; this is how tests prove it,
/// and how a machine stands in for a lesser one.
pub fn limit_width(lanes: usize) {
    WIDEST.store(lanes, Ordering::Relaxed);
}

/// The operations of this processor.
#[derive(Debug, Clone, Copy)]
pub struct Arch(pulp::Arch);

impl Arch {
    /// The widest there are within the limit: eight lanes, four, two, or one number
    /// at a time by operations that every processor has.
    #[must_use]
    #[inline]
    pub fn new() -> Self {
        let widest = WIDEST.load(Ordering::Relaxed);
        if widest >= LANES_MAX { Self(pulp::Arch::new()) } else { Self(narrow(widest)) }
    }

    /// Does work with them.
    #[inline(always)]
    pub fn dispatch<Op: WithSimd>(self, op: Op) -> Op::Output {
        self.0.dispatch(op)
    }
}

impl Default for Arch {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(target_arch = "x86_64")]
fn narrow(widest: usize) -> pulp::Arch {
    match pulp::x86::V3::try_new() {
        Some(four) if widest >= 4 => pulp::Arch::V3(four),
        _ => pulp::Arch::Scalar,
    }
}

#[cfg(target_arch = "aarch64")]
fn narrow(widest: usize) -> pulp::Arch {
    if widest >= 2 { pulp::Arch::new() } else { pulp::Arch::Scalar }
}

#[cfg(not(any(target_arch = "x86_64", target_arch = "aarch64")))]
fn narrow(_: usize) -> pulp::Arch {
    pulp::Arch::new()
}
