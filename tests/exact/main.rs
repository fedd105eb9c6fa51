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
mod fit;
mod flex;
mod flight;
mod groups;
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
mod shot;
mod sight;
mod tape;
mod tune;
mod unit_texts;
mod units;
