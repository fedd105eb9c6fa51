//! Scenario files run through the program, and what they must give.
#![allow(clippy::unwrap_used)] // A test that panics has failed, as it should.

mod demos;
mod given_arrow;
mod point_mass;
mod rigid;
mod short;

use clothyard_tests::program::{path, run};
use serde_json::Value;

/// The states that `clothyard fly` gives for a scenario of this folder.
fn fly(file: &str, more: &[&str]) -> Vec<Value> {
    let file = path(&format!("tests/scenarios/{file}.toml"));
    let ran = run(&[&["fly", file.as_str(), "--json"], more].concat());
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let answer: Value = serde_json::from_str(&ran.out).unwrap();
    // A rigid body's states stand alone.
    let states = answer.get("tables").map_or(&answer["states"], |tables| &tables["states"]);
    states.as_array().unwrap().clone()
}

/// A number of a state, in SI.
fn value(state: &Value, key: &str) -> f64 {
    state[key]["value"].as_f64().unwrap()
}

fn close(what: &str, got: f64, want: f64, within: f64) {
    assert!((got - want).abs() <= within, "{what}: got {got}, want {want} within {within}");
}
