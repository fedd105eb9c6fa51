//! Our own output, frozen so that a change is seen.
#![allow(clippy::unwrap_used)]
// A test that panics has failed, as it should.
// A test may copy a bow, compare exact values, and knows how its files end.
#![allow(
    clippy::large_types_passed_by_value,
    clippy::float_cmp,
    clippy::case_sensitive_file_extension_comparisons
)]

mod demo;
mod drift;
mod effort;
mod marks;
mod push;
mod push_report;
mod report;
mod tune;
