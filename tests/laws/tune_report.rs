//! The report of a tuning answer.

use clothyard_tests::{document, tuned};
use report::ReportError;
use study::Answer;
use units::Style;

fn refused(answer: &Answer) -> ReportError {
    document(answer, Style::Archery).map(drop).unwrap_err()
}

#[test]
fn law_a_tuning_number_that_is_not_finite_is_refused_by_its_place() {
    type Spoil = fn(&mut study::TunedBuild, f64);
    let spoils: [(&str, Spoil); 5] = [
        ("bare[1].left.high", |b, x| {
            b.bare[1].apart.as_mut().unwrap().left.high = x;
        }),
        ("paper[2].vane 1", |b, x| b.paper[2].vanes[0] = x),
        ("trends[3].turning left", |b, x| {
            b.trends[1].points[3].shot.as_mut().unwrap().departure.yaw_rate = x;
        }),
        ("clearance[1].room", |b, x| b.clearance.rest.as_mut().unwrap().gap.value = x),
        ("nock[2].apart.low", |b, x| {
            b.turns.steps[2].moved[0].as_mut().unwrap().size.low = x;
        }),
    ];
    let mut wrong = Vec::new();
    for (path, spoil) in spoils {
        for bad in [f64::NAN, f64::NEG_INFINITY] {
            let mut answer = tuned::single();
            spoil(&mut tuned::of(&mut answer).builds[0], bad);
            let error = refused(&answer);
            let ReportError::NotFinite { path: found, .. } = &error else { panic!("{error}") };
            if *found != path {
                wrong.push(format!("{found} for {path}"));
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:?}");
}

#[test]
fn law_tuning_lists_that_do_not_fit_are_refused() {
    let mut short = tuned::bladed();
    tuned::of(&mut short).builds[1].against.pop();
    let mut none = tuned::single();
    tuned::of(&mut none).builds.clear();
    let error = refused(&short);
    let ReportError::Ragged { path, found: 2, expected: 3 } = &error else { panic!("{error}") };
    assert_eq!(path, "tuned.builds[1].against");
    assert!(matches!(refused(&none), ReportError::NoBuild));
}

/// Every picture that the answer fills is on the page, and the page shows none
/// twice.
#[test]
fn law_the_page_of_a_tuning_answer_holds_every_picture_once() {
    for (answer, pictures) in [(tuned::single(), 4), (tuned::bladed(), 7)] {
        let files = document(&answer, Style::Metric).unwrap().files().unwrap();
        let plots = files.iter().filter(|file| file.name.rsplit('.').next() == Some("svg"));
        assert_eq!(plots.count(), pictures);
        let page = files.iter().find(|file| file.name == "report.html").unwrap();
        let page = String::from_utf8(page.bytes.clone()).unwrap();
        assert_eq!(page.matches("<svg").count(), pictures);
    }
}
