//! The report of a tuning answer.

use clothyard_tests::tuned;
use report::{Provenance, ReportError};
use study::Answer;
use units::Style;

fn provenance() -> Provenance {
    Provenance {
        version: "0.1.0".to_owned(),
        scenario: "title = \"invented\"\n".to_owned(),
        source_name: "invented.toml".to_owned(),
        seed: 7,
    }
}

fn refused(answer: &Answer) -> [ReportError; 4] {
    let given = provenance();
    [
        report::terminal(answer, Style::Archery, 80).map(drop).unwrap_err(),
        report::headline(answer, Style::Archery).map(drop).unwrap_err(),
        report::json(answer, &given).map(drop).unwrap_err(),
        report::files(answer, &given, Style::Archery).map(drop).unwrap_err(),
    ]
}

#[test]
fn law_a_tuning_number_that_is_not_finite_is_refused_by_its_place() {
    type Spoil = fn(&mut study::TunedBuild, f64);
    let spoils: [(&str, Spoil); 5] = [
        ("bare[1].apart.left.high", |b, x| b.bare[1].apart.as_mut().unwrap().left.high = x),
        ("paper[2].vanes[0]", |b, x| b.paper[2].vanes[0] = x),
        ("trends[1].points[3].departure.yaw_rate", |b, x| {
            b.trends[1].points[3].shot.as_mut().unwrap().departure.yaw_rate = x;
        }),
        ("clearance.rest.gap.value", |b, x| b.clearance.rest.as_mut().unwrap().gap.value = x),
        ("turns.steps[2].moved[0].size.low", |b, x| {
            b.turns.steps[2].moved[0].as_mut().unwrap().size.low = x;
        }),
    ];
    for (path, spoil) in spoils {
        for bad in [f64::NAN, f64::NEG_INFINITY] {
            let mut answer = tuned::single();
            spoil(&mut answer.tuned.as_mut().unwrap().builds[0], bad);
            for error in refused(&answer) {
                let ReportError::NotFinite { path: found, .. } = &error else { panic!("{error}") };
                assert_eq!(*found, format!("tuned.builds[0].{path}"));
            }
        }
    }
}

#[test]
fn law_tuning_lists_that_do_not_fit_are_refused() {
    let mut short = tuned::bladed();
    short.tuned.as_mut().unwrap().builds[1].against.pop();
    let mut none = tuned::single();
    none.tuned.as_mut().unwrap().builds.clear();
    for error in refused(&short) {
        let ReportError::Ragged { path, found: 2, expected: 3 } = &error else { panic!("{error}") };
        assert_eq!(path, "tuned.builds[1].against");
    }
    for error in refused(&none) {
        assert!(matches!(error, ReportError::NoBuild));
    }
}

/// Every picture that the answer fills is on the page, and the page shows none
/// twice.
#[test]
fn law_the_page_of_a_tuning_answer_holds_every_picture_once() {
    for (answer, pictures) in [(tuned::single(), 4), (tuned::bladed(), 7)] {
        let files = report::files(&answer, &provenance(), Style::Metric).unwrap();
        let plots = files.iter().filter(|file| file.name.rsplit('.').next() == Some("svg"));
        assert_eq!(plots.count(), pictures);
        let page = files.iter().find(|file| file.name == "report.html").unwrap();
        let page = String::from_utf8(page.bytes.clone()).unwrap();
        assert_eq!(page.matches("<svg").count(), pictures);
    }
}
