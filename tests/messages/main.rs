//! Every error message, word for word.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod arrow;
mod body;
mod flight;
mod launch;
mod page;
mod report;
mod scenario;
mod solve;
mod study;
mod target;
mod tune;
mod units;
