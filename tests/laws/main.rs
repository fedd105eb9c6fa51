//! Symmetries and conservation laws.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod arrow_faults;
mod body;
mod flight;
mod groups;
mod laminar;
mod launch;
mod report;
mod scenario;
mod study;
mod batch;
