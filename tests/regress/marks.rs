//! What the terminal says of sight marks.

use clothyard_tests::marks::{lengths, plan};
use clothyard_tests::provenance;
use clothyard_tests::push::recurve;
use clothyard_tests::recipe::{Simple, Value};
use report::Subject;
use study::{MarksPlan, Obstacle, Sweep, UncertainParameter, marks};
use units::{Dimension, Length, Style};

fn said(simple: &Simple, plan: &MarksPlan, style: Style) -> String {
    let marks = marks(simple, plan).unwrap();
    let provenance = provenance();
    let subject = Subject { title: "Invented", build: None, provenance: &provenance };
    report::marks(&marks, &subject, &[], style).unwrap().terminal(80)
}

/// "With the sight set at 70 m, the 70 m mark stands 0.00 mm below the 70 m mark."
#[test]
fn regress_no_mark_is_held_against_itself() {
    let mut simple = Simple::new();
    simple.base.sight.zero = Length::from_si(60.0);
    let said = said(&simple, &plan(), Style::Metric);
    let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("With the sight set at 60 m, the 50 m mark stands "), "{said}");
    assert!(said.contains("mm above the 60 m mark"), "{said}");
}

#[test]
fn regress_marks_with_everything() {
    let mut simple = Simple::new();
    simple.uncertain.push(UncertainParameter {
        slot: Value::NockDrag.slot(),
        key: "aero.nock_drag".to_owned(),
        dimension: Dimension::Ratio,
        value: 0.45,
        low: 0.3,
        high: 0.6,
    });
    let sweep = Sweep {
        key: "arrow.point.mass".to_owned(),
        dimension: Dimension::Mass,
        slot: Value::PointMass.slot(),
        values: vec![5e-3, 8e-3],
        labels: vec!["5 g (-1.5)".to_owned(), "8 g (+1.5)".to_owned()],
    };
    let twig = Obstacle { distance: Length::from_si(17.0), height: Length::from_si(0.15) };
    let asked = MarksPlan {
        changes: vec![sweep],
        twigs: vec![twig],
        click: Some(Length::from_si(1e-4)),
        ..plan()
    };
    insta::assert_snapshot!(said(&simple, &asked, Style::Archery));
}

#[test]
fn regress_marks_of_a_bare_recurve_metric() {
    let mut simple = Simple::new();
    simple.base.bow = recurve();
    let asked = MarksPlan {
        pins: Vec::new(),
        slopes: Vec::new(),
        bare: true,
        distances: lengths(&[10.0, 30.0, 50.0]),
        ..plan()
    };
    insta::assert_snapshot!(said(&simple, &asked, Style::Metric));
}
