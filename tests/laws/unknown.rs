//! What is not known reaches every number of an answer.

use clothyard_tests::known::{Counted, NO_ANSWER, walk};
use clothyard_tests::recipe::{Simple, Value, compare};
use serde_json::Value as Json;
use study::{Plan, Quiet, run, run_with};
use units::Style;

/// Every number with a unit in every table of `result.json` has a band, or says
/// that it needs none; and some of each are there.
#[test]
fn law_every_number_has_a_band_or_is_certain() {
    let build = |scale: f64| {
        let simple = Simple::new().sawn(scale).aimed(2e-3).doubted(Value::NockDrag, 0.3, 0.6);
        simple.doubted(Value::Restraint, 0.4, 1.2)
    };
    let plan = compare(vec![build(0.004).build("sawn"), build(0.001).build("square")], 200);
    let answer = run(&plan, &Quiet).unwrap();
    let document = report::answer(&answer, &report::Provenance::default(), Style::Metric).unwrap();
    let json: Json = serde_json::from_str(&document.json().unwrap()).unwrap();
    let Counted { banded, certain, .. } = walk("two builds", &json, &NO_ANSWER);
    assert!(banded > 100 && certain > 20, "{banded} {certain}");
    let csv = document.csv("drop").unwrap();
    assert!(csv.contains("drop below line of departure band05 [cm]"), "{csv}");
    // A band that has a number of its own holds it, but for what few flights add.
    let drop = &json["tables"]["drop"][0]["drop_below_line_of_departure"];
    let (value, band) = (drop["value"].as_f64().unwrap(), drop["band"].as_array().unwrap());
    assert!(band[0].as_f64().unwrap() < value && value < band[1].as_f64().unwrap(), "{drop}");
}

/// A value of no effect leaves everything certain but what it is itself.
#[test]
fn law_what_moves_nothing_leaves_everything_certain() {
    let simple = Simple::new().sawn(0.004).doubted(Value::NockDrag, 0.45, 0.45);
    let plan = compare(vec![simple.build("one")], 200);
    let answer = run(&plan, &Quiet).unwrap();
    let joint = answer.unknown.unwrap();
    assert_eq!((joint.points.len(), joint.without), (study::QUICK_POINTS, 0));
    assert!(joint.points.iter().all(|point| point.answer == joint.centre));
}

/// What was found at the points with fewer flights serves more of them, bit for bit.
#[test]
fn law_points_found_before_serve_the_next_answer() {
    let simple = Simple::new().sawn(0.004).aimed(2e-3).doubted(Value::NockDrag, 0.3, 0.6);
    let few = compare(vec![simple.build("one")], 200);
    let many = Plan { flights: 400, ..few.clone() };
    let mut found = None;
    run_with(&few, &mut found, &Quiet).unwrap();
    assert!(found.is_some());
    assert_eq!(run_with(&many, &mut found, &Quiet).unwrap(), run(&many, &Quiet).unwrap());
    // Fewer flights than a point has ask for points of their own.
    let fewer = Plan { flights: 100, ..few };
    assert_eq!(run_with(&fewer, &mut found, &Quiet).unwrap(), run(&fewer, &Quiet).unwrap());
}
