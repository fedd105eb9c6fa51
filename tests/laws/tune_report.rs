//! The report of a tuning answer.

use clothyard_tests::{document, tuned};
use report::ReportError;
use study::{Answer, Found, Joint, OuterPoint, TunedBuild};
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

/// The lead of an answer whose first build was changed.
fn lead(change: &dyn Fn(&mut TunedBuild)) -> String {
    let mut answer = tuned::single();
    change(&mut tuned::of(&mut answer).builds[0]);
    document(&answer, Style::Archery).unwrap().lead().to_owned()
}

/// What cannot be undone is not advised beside what can, though it helps more.
#[test]
fn law_cutting_is_never_advised_before_what_can_be_undone() {
    let both = lead(&|_| ());
    assert!(both.contains("Taking point mass from"), "{both}");
    let alone = lead(&|build| build.neutral.as_mut().unwrap().changes.truncate(1));
    assert!(alone.contains("Taking shaft length from"), "{alone}");
    assert!(alone.contains("Cutting cannot be undone"), "{alone}");
}

/// Without anything that moves the nock to a side no spine can show, and nothing is
/// advised.
#[test]
fn law_a_straight_bow_tells_no_spine() {
    let said = lead(&|build| build.straight = true);
    assert!(said.starts_with("Whether this shaft is stiff or weak for this bow cannot be told"));
    assert!(said.contains("bow.path.left") && said.contains("bare = true"), "{said}");
    assert!(said.contains("No change is advised") && !said.contains("Taking"), "{said}");
}

/// Off the fingers advice hangs on the crossing of the bare shaft with the spine.
#[test]
fn law_fingers_get_advice_only_where_the_crossing_shows() {
    let spines = |shares: [f64; 5]| {
        move |build: &mut TunedBuild| {
            build.flicked = true;
            for (point, share) in build.trends[0].points.iter_mut().zip(shares) {
                point.left_in = vec![Some(share); 3];
            }
        }
    };
    let shown = lead(&spines([1.0, 0.9, 0.6, 0.3, 0.1]));
    assert!(shown.contains("Taking point mass"), "{shown}");
    for shares in [[1.0, 0.9, 0.85, 0.8, 0.6], [0.1, 0.3, 0.5, 0.9, 1.0], [0.9, 0.1, 0.9, 0.5, 0.1]]
    {
        let none = lead(&spines(shares));
        assert!(none.contains("No change is advised") && !none.contains("Taking"), "{none}");
        // Nor is a word of stiff or weak that the model cannot know.
        assert!(none.starts_with("This cannot tell whether the shaft is stiff or weak"), "{none}");
        assert!(!none.contains("reads stiff") && !none.contains("reads weak"), "{none}");
    }
    let page = |shares| {
        let mut answer = tuned::single();
        spines(shares)(&mut tuned::of(&mut answer).builds[0]);
        document(&answer, Style::Archery).unwrap().page().unwrap()
    };
    assert!(page([1.0, 0.9, 0.6, 0.3, 0.1]).contains("shows the crossing that the trade knows"));
    assert!(page([1.0; 5]).contains("does not show the crossing that the trade knows"));
}

/// A change that helps in too little of what is not known is not advised.
#[test]
fn law_a_change_of_open_sign_is_not_advised() {
    let mut answer = tuned::single();
    let own = answer.found.clone();
    let mut turned = own.clone();
    // The same change, and everything it touches lands twice as far apart.
    if let Found::Tune(of) = &mut turned {
        for point in of.builds[0].trends.iter_mut().flat_map(|trend| &mut trend.points) {
            if let Ok(shot) = &mut point.shot {
                shot.apart = shot.apart.iter().map(|at| at.map(|[l, u]| [l + 9.0, u])).collect();
            }
        }
    }
    let at = |answer: &Found| OuterPoint {
        chances: Vec::new(),
        weight: 1.0,
        before: 1.0,
        answer: answer.clone(),
    };
    let joint = |good: usize| Joint {
        inputs: Vec::new(),
        choices: Vec::new(),
        pairs: Vec::new(),
        centre: own.clone(),
        points: (0..10).map(|of| at(if of < good { &own } else { &turned })).collect(),
        without: 0,
        why: None,
        told: None,
    };
    let mut said = |good| {
        answer.unknown = Some(joint(good));
        document(&answer, Style::Archery).unwrap().lead().to_owned()
    };
    let (sure, open) = (said(9), said(7));
    assert!(sure.contains("it helps in 90 % of what may be"), "{sure}");
    assert!(open.contains("No change is advised: whether any helps is open"), "{open}");
    assert!(open.contains("70 %") && !open.contains("Taking"), "{open}");
}
