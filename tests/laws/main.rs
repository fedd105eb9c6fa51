//! Symmetries and conservation laws.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod arrow_faults;
mod body;
mod flight;
mod groups;
mod laminar;
mod launch;
mod push;
mod push_report;
mod report;
mod scenario;
mod story;
mod study;
mod tune;
mod tune_report;
