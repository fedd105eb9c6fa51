//! Parts given out: an arrow planned is the arrow that is built.

use arrow::Faults;
use clothyard_tests::recipe::Simple;
use study::workbench::{BuildAsk, BuildStep, Building, build};
use study::{Quiet, StudyError};
use units::{Angle, Length, LinearDensity, Mass};
use workbench::{LoosePart, Measured, PartKind, Stage};

fn heap(kind: PartKind, masses: &[f64]) -> Vec<LoosePart> {
    let part = |(at, mass): (usize, &f64)| LoosePart {
        kind,
        name: format!("{}", at + 1),
        mass: (*mass > 0.0).then(|| Mass::from_si(*mass)),
    };
    masses.iter().enumerate().map(part).collect()
}

/// Four weighed shafts, raw ones longer than they are to be; one not weighed; one built.
fn shafts(simple: &Simple) -> Vec<Measured> {
    let shaft = simple.base.parts.shaft;
    let own = shaft.density.si() * shaft.length.si();
    let one = |(at, more): (usize, f64)| Measured {
        name: format!("{}", at + 1),
        stage: if at % 2 == 0 { Stage::Raw } else { Stage::Cut },
        mass: Some(Mass::from_si(own * more * if at % 2 == 0 { 1.1 } else { 1.0 })),
        length: Some(Length::from_si(shaft.length.si() * if at % 2 == 0 { 1.1 } else { 1.0 })),
        stiff: Some(Angle::from_si(0.9 * f64::from(u32::try_from(at).unwrap()))),
        ..Measured::default()
    };
    let mut all: Vec<Measured> =
        [1.01, 0.99, 1.0, 0.985].into_iter().enumerate().map(one).collect();
    all.push(Measured { name: "blank".into(), stage: Stage::Cut, ..Measured::default() });
    all.push(Measured { name: "done".into(), ..Measured::default() });
    all
}

fn planned(
    simple: &Simple,
    shafts: &[Measured],
    parts: &[LoosePart],
) -> Result<Building, StudyError> {
    let distances = [Length::from_si(20.0)];
    let ask = BuildAsk {
        recipe: simple,
        distances: &distances,
        shafts,
        parts,
        mass: None,
        foc: None,
        positions: 6,
        share: 0.05,
        seed: 7,
    };
    build(&ask, &Quiet)
}

#[test]
fn exact_an_arrow_is_the_sum_of_its_parts() {
    let simple = Simple::new();
    let own = simple.base.parts.point.mass.si();
    let nock = simple.base.parts.nock.mass.si();
    let mut parts = heap(PartKind::Point, &[own, 1.02 * own, 0.98 * own, 1.01 * own, 0.0]);
    parts.extend(heap(PartKind::Nock, &[nock, 1.1 * nock, 0.9 * nock, nock]));
    let shafts = shafts(&simple);
    let found = planned(&simple, &shafts, &parts).unwrap();
    assert_eq!(found.arrows.len(), 4);
    assert_eq!(
        (found.unweighed.as_slice(), found.built.as_slice()),
        (&["blank".to_owned()][..], &["done".to_owned()][..])
    );
    assert_eq!(found.spare, [(PartKind::Point, "5".to_owned(), false)]);
    for arrow in &found.arrows {
        let mut parts = simple.base.parts;
        let over = arrow.shaft.length.unwrap().si();
        parts.shaft.density = LinearDensity::from_si(arrow.shaft.mass.unwrap().si() / over);
        parts.point.mass = arrow.parts[0].mass.unwrap();
        parts.nock.mass = arrow.parts[1].mass.unwrap();
        let built = arrow::build(&parts, &Faults::default()).unwrap();
        // Sums of six masses in another order.
        assert!((built.mass.mass().si() / arrow.mass - 1.0).abs() < 1e-12, "{arrow:?}");
        assert!((built.foc.si() - arrow.foc).abs() < 1e-9, "{} {arrow:?}", built.foc.si());
        let stiff = arrow.shaft.stiff.unwrap().si() + arrow.roll.si();
        assert!((stiff.sin() - arrow.stiff.unwrap().si().sin()).abs() < 1e-12);
    }
    // Heavy with light: the masses lie nearer than they came.
    let spread = |all: &[f64]| {
        let mean = all.iter().sum::<f64>() / all.len() as f64;
        all.iter().map(|mass| (mass - mean).powi(2)).sum::<f64>()
    };
    let masses: Vec<f64> = found.arrows.iter().map(|arrow| arrow.mass).collect();
    let came: Vec<f64> = (0..4)
        .map(|at| {
            let shaft = shafts[at].mass.unwrap().si() / shafts[at].length.unwrap().si();
            let length = simple.base.parts.shaft.length.si();
            shaft * length + parts[at].mass.unwrap().si() + parts[5 + at].mass.unwrap().si()
        })
        .collect();
    assert!(spread(&masses) < 0.5 * spread(&came), "{masses:?} {came:?}");
    // No roll is always open to it.
    let of = |step| found.steps.iter().find(|taken| taken.step == step).unwrap().spread.value;
    assert!(of(BuildStep::NocksSet) <= of(BuildStep::Paired) * (1.0 + 1e-12));
}

/// Without a weighed shaft there is nothing to pair, and that is said.
#[test]
fn law_shafts_without_a_mass_are_not_paired() {
    let simple = Simple::new();
    let bare = [Measured { name: "1".into(), stage: Stage::Raw, ..Measured::default() }];
    let refused = planned(&simple, &bare, &heap(PartKind::Point, &[6e-3]));
    assert_eq!(refused, Err(StudyError::NothingWeighed));
}
