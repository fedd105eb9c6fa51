//! Our own output, frozen so that a change is seen.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod effort;
mod push;
mod push_report;
mod report;
mod tune;
