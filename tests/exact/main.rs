//! Closed forms and exact identities.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod arrow_faults;
mod arrow_mass;
mod beam;
mod body;
mod bow_energy;
mod chance;
mod compare;
mod ends;
mod events;
mod faces;
mod flex;
mod flight;
mod groups;
mod impacts;
mod integrators;
mod laminar;
mod lanes;
mod launch;
mod marks;
mod pinned;
mod push;
mod roots;
mod scenario;
mod scenario_bow;
mod scenario_schema;
mod shares;
mod shot;
mod sight;
mod steps;
mod tape;
mod telling;
mod tune;
mod unit_texts;
mod units;
