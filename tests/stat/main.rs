//! Statistics of many draws, with fixed seeds.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod chance;
mod coverage;
mod evidence;
mod fit;
mod groups;
mod hooked;
mod paired;
mod pin;
mod power_test;
mod shares;
mod trial;
mod unknown;
