//! What the terminal says of a push and of a pinned restraint.

use clothyard_tests::provenance;
use clothyard_tests::push::{bow, faults, recurve};
use clothyard_tests::recipe::Simple;
use launch::Bow;
use report::Subject;
use study::{Banded, Held, MeasuredShift, Moved, Pinned, trace_push};
use units::{Length, Style};

fn said(bow: Bow, by: f64, style: Style) -> String {
    let mut recipe = Simple::new();
    recipe.base.bow = bow;
    recipe.base.faults = faults(by);
    let story = trace_push(&recipe).unwrap();
    let provenance = provenance();
    let subject = Subject { title: "Invented", build: None, provenance: &provenance };
    report::push(&story, None, &subject, style).unwrap().terminal(80)
}

#[test]
fn regress_push_of_a_compound() {
    insta::assert_snapshot!(said(bow(), 1.0, Style::Archery));
}

#[test]
fn regress_push_of_a_recurve_metric() {
    insta::assert_snapshot!(said(recurve(), 1.0, Style::Metric));
}

#[test]
fn regress_push_without_any_fault() {
    insta::assert_snapshot!(said(bow(), 0.0, Style::Archery));
}

#[test]
fn regress_pinned_restraint() {
    let measured = |how| MeasuredShift {
        distance: Length::from_si(18.288),
        shift: [0.03, -0.01],
        how,
        error: None,
    };
    let found = Held::Found {
        restraint: Banded { value: 0.84, low: 0.61, high: 1.37 },
        open: true,
        all: vec![0.84, 2.6],
    };
    let near = Held::Unexplained { restraint: 0.1, shift: 0.02, lack: -0.012 };
    let turned = Moved::NockTurn(120.0_f64.to_radians());
    let said = [
        (turned, found, Held::Unfelt),
        (Moved::Bare, near.clone(), Held::Lost),
        (Moved::Pushed(10.0), Held::Lost, near),
    ]
    .map(|(how, left, up)| {
        let pinned = Pinned { left, up };
        report::pin(&measured(how), &pinned, Style::Archery).unwrap().terminal(80)
    });
    insta::assert_snapshot!(said.join("\n---\n"));
}
