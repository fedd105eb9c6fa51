//! What a user reads when sight marks cannot be had.

use clothyard_tests::marks::{lengths, plan};
use clothyard_tests::recipe::Simple;
use sight::{Geometry, Launches, Sighting};
use study::{MarksPlan, marks};
use units::Length;

#[test]
fn regress_sight_messages() {
    let geometry = |height, radius| Geometry::new(Length::from_si(height), Length::from_si(radius));
    let points = |points: &[(f64, f64)]| Launches::new(points.to_vec());
    let rising = [(10.0, 0.01), (20.0, 0.02), (30.0, 0.03), (40.0, 0.04)];
    let mut fallen = rising;
    fallen[2].0 = 5.0;
    let sight = Sighting::new(geometry(0.1, 0.8).unwrap(), points(&rising).unwrap()).unwrap();
    let errors = [
        geometry(-0.1, 0.8).unwrap_err(),
        geometry(0.1, 0.0).unwrap_err(),
        points(&rising[..3]).unwrap_err(),
        points(&fallen).unwrap_err(),
        sight.pin(50.0).unwrap_err(),
        sight.dial(0.5).unwrap_err(),
    ];
    let text: Vec<String> = errors.iter().map(ToString::to_string).collect();
    insta::assert_snapshot!(text.join("\n"));
}

#[test]
fn regress_marks_messages() {
    let of = |simple: &Simple, plan: &MarksPlan| marks(simple, plan).unwrap_err().to_string();
    let mut slow = Simple::new();
    slow.base.departure.speed = Some(units::Speed::from_si(20.0));
    let mut flat = Simple::new();
    flat.base.sight.radius = Length::ZERO;
    let errors = [
        of(&Simple::new(), &MarksPlan { distances: lengths(&[1.0, 20.0]), ..plan() }),
        of(&Simple::new(), &MarksPlan { places: lengths(&[20.0, 201.0]), ..plan() }),
        of(&Simple::new(), &MarksPlan { distances: lengths(&[30.0, 20.0]), ..plan() }),
        of(&slow, &plan()),
        of(&flat, &plan()),
    ];
    insta::assert_snapshot!(errors.join("\n"));
}
