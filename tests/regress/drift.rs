//! Drift near the bow, against the lag rule.

use std::fmt::Write as _;

use clothyard_tests::head::hunting;
use clothyard_tests::{choice, site, start};
use flight::{Tolerance, fly, fly_point, model};
use units::{Angle, Speed};

/// An arrow in a cross wind of 5 m/s drifts more than a point mass, which keeps
/// the lag rule to rounding: until it has turned into the wind the normal force
/// pushes it along. With a field point the excess swings with the nose and ends
/// at a tenth of the rule at 70 m; with blades, whose arrow turns slowly, it is
/// most of the drift at short range.
#[test]
fn regress_drift_against_the_lag_rule() {
    let mut windy = site();
    windy.wind.speed = Speed::from_si(5.0);
    windy.wind.from = Angle::from_si(std::f64::consts::FRAC_PI_2);
    let speed = Speed::from_si(82.0);
    let marks = [5.0, 10.0, 20.0, 40.0, 70.0];
    let mut text = String::from("drift, mm: distance, lag rule, six degrees of freedom\n");
    for (name, blades) in [("field point", 0), ("three blades", 3)] {
        let parts = hunting(blades);
        let built = arrow::build(&parts, &arrow::Faults::default()).unwrap();
        let model = model(&parts, &built, &choice(), &windy, speed).unwrap();
        let tolerance = Tolerance { relative: 1e-9, per_turn: 12.0 };
        let six = fly(&model, &start(82.0), &marks, &tolerance).unwrap();
        let point = fly_point(&model, &start(82.0), &marks, &tolerance).unwrap();
        for (a, b) in six.marks.iter().zip(&point.marks) {
            let rule = 5.0 * (b.time - b.position.x / 82.0);
            assert!((rule - b.position.y).abs() < 1e-3 * rule, "the point mass keeps the rule");
            let (x, rule, drift) = (a.position.x, 1e3 * rule, 1e3 * a.position.y);
            let _ = writeln!(text, "{name}: {x:.0} m, {rule:.1}, {drift:.1}");
        }
    }
    insta::assert_snapshot!(text);
}
