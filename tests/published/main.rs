//! Figures that others published or computed.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod aero;
mod air;
mod arrow_trade;
mod broadhead;
mod fit;
mod groups;
mod laminar;
mod launch;
mod power_test;
mod push;
mod safety;
mod shares;
mod workbench;
