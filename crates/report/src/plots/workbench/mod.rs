//! Pictures of the bench: a shaft's axis, a batch, nocks on a clock.

mod clocks;
mod profile;
mod strip;

pub(crate) use clocks::draw as clocks;
pub(crate) use profile::draw as profile;
pub(crate) use strip::draw as strip;
