//! Closed forms and exact identities.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod arrow_faults;
mod arrow_mass;
mod beam;
mod body;
mod bow_energy;
mod bow_machine;
mod bow_planar;
mod chance;
mod compare;
mod ends;
mod events;
mod faces;
mod fit;
mod flex;
mod flight;
mod groups;
mod impacts;
mod integrators;
mod laminar;
mod lanes;
mod launch;
mod many_modes;
mod marks;
mod notebook;

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
mod workbench_axis;
mod workbench_fits;
mod workbench_gauges;
mod workbench_sets;
