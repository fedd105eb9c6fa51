//! What a flight costs, frozen, so that a quiet slowdown is seen. A change is
//! no fault in itself: look why, and accept the snapshot if it is worth it.

use std::fmt::Write;

use clothyard_tests::compared;
use clothyard_tests::program::path;
use clothyard_tests::push::{arrow, bow, faults, longbow, recurve};
use clothyard_tests::{built, choice, hunter, lopsided, site, start};
use flight::{Flight, Tolerance, fly, fly_point, model};
use insta::assert_snapshot;
use launch::{Detail, Form, RestKind, watch};
use study::Quiet;
use study::{BuildAnswer, Found};
use units::{Angle, Speed};

/// Flights in a group of a reference scenario; the full numbers take long.
const FLIGHTS: u64 = 200;
/// The usual marks, 20 to 60 yd, m.
const MARKS: [f64; 5] = [18.288, 27.432, 36.576, 45.72, 54.864];

fn cost(flight: &Flight) -> String {
    let effort = flight.effort;
    format!(
        "{} evaluations, {} steps accepted, {} rejected",
        effort.evaluations, effort.accepted, effort.rejected
    )
}

#[test]
fn regress_effort_of_the_nominal_demo_flight() {
    let file = path("scenarios/square-ends.toml");
    let read = scenario::read(std::path::Path::new(&file), &|path| std::fs::read_to_string(path));
    let Ok(read) = read else { panic!("the demonstration scenario has mistakes") };
    let recipe = read.recipe(None).unwrap();
    let found = study::nominal(recipe.as_ref(), &read.distances()).unwrap();
    let setup = &found.setup;
    let speed = Speed::from_si(found.departure.speed);
    let model = model(&setup.parts, &found.built, &setup.aero, &setup.site, speed).unwrap();
    let start = study::start(&found.departure, found.launch_pitch, &setup.form);
    let tolerance = Tolerance::default();
    assert_snapshot!(
        cost(&fly(&model, &start, &MARKS, &tolerance).unwrap()),
        @"183 evaluations, 30 steps accepted, 0 rejected"
    );
    assert_snapshot!(
        cost(&fly_point(&model, &start, &MARKS, &tolerance).unwrap()),
        @"183 evaluations, 30 steps accepted, 0 rejected"
    );
}

/// With something fixed to the shaft, each turn of the arrow is followed.
#[test]
fn regress_effort_of_a_lopsided_flight() {
    let speed = 85.0;
    let built = built(lopsided());
    let model = model(&hunter(), &built, &choice(), &site(), Speed::from_si(speed)).unwrap();
    let mut state = start(speed);
    state.rate.z = 1.0;
    assert_snapshot!(
        cost(&fly(&model, &state, &MARKS, &Tolerance::default()).unwrap()),
        @"459 evaluations, 76 steps accepted, 0 rejected"
    );
}

/// Steps of a push until the string lets go, by bow and rest: four force
/// evaluations a step.
#[test]
fn regress_effort_of_the_push() {
    let mut text = String::new();
    let (parts, built) = arrow(&faults(1.0));
    for (name, base) in [("compound", bow()), ("recurve", recurve()), ("longbow", longbow())] {
        let kinds =
            [RestKind::DropAway, RestKind::Containment, RestKind::SidePoint, RestKind::Shelf];
        let steps = kinds.map(|kind| {
            let mut bow = base;
            bow.rest.kind = kind;
            let (index, form) = (Angle::ZERO, Form::default());
            let history = watch(&bow, &parts, &built, index, &form, Detail::default());
            history.unwrap().frames.len() - 1
        });
        writeln!(text, "{name}: {steps:?}").unwrap();
    }
    // A drop-away, a ring, a side point, a shelf.
    assert_snapshot!(text, @r"
    compound: [263, 263, 699, 699]
    recurve: [794, 794, 2238, 818]
    longbow: [755, 755, 2129, 778]
    ");
}

/// Steps of one flight of a group for each build, and force evaluations of all
/// flights together, by reference scenario.
#[test]
fn regress_effort_of_the_reference_scenarios() {
    let mut text = String::new();
    for name in ["square-ends", "three-builds", "foc-sweep"] {
        let file = path(&format!("scenarios/{name}.toml"));
        let read =
            scenario::read(std::path::Path::new(&file), &|path| std::fs::read_to_string(path));
        let Ok(mut read) = read else { panic!("{name} has mistakes") };
        read.override_question(None, Some(FLIGHTS)).unwrap();
        let answer = study::run(&read.plan().unwrap(), &Quiet).unwrap();
        let flown = answer.flown;
        let builds: Vec<BuildAnswer> = match answer.found {
            Found::Sweep(found) => {
                let points = found.sweeps.into_iter().flat_map(|sweep| sweep.points);
                found.builds.into_iter().chain(points.map(|point| point.build)).collect()
            }
            _ => compared(answer).builds,
        };
        let steps: Vec<u32> = builds.iter().map(|build| build.steps).collect();
        writeln!(text, "{name}: {flown} flights, steps {steps:?}").unwrap();
    }
    // Two force evaluations a step, and three for the first more.
    assert_snapshot!(text, @r"
    square-ends: 211200 flights, steps [59, 59]
    three-builds: 237600 flights, steps [59, 59, 80]
    foc-sweep: 85500 flights, steps [59, 59, 59, 59, 59, 59, 59, 59, 59]
    ");
}
