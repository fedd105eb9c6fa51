//! Symmetries and conservation laws.
#![allow(clippy::unwrap_used)]
// A test that panics has failed, as it should.
// A test may copy a bow, compare exact values, walk planes by number, and knows how its files end.
#![allow(
    clippy::large_types_passed_by_value,
    clippy::float_cmp,
    clippy::needless_range_loop,
    clippy::case_sensitive_file_extension_comparisons
)]

mod arrow_faults;
mod batch;
mod body;
mod chance;
mod document;
mod evidence;
mod flight;
mod groups;
mod inputs;
mod known;
mod laminar;
mod launch;
mod marks;
mod matters;
mod push;
mod push_lanes;
mod push_report;
mod report;
mod scenario;
mod shot_again;
mod sides;
mod story;
mod study;
mod tune;
mod tune_report;
mod unknown;
mod wake;
mod worth;
