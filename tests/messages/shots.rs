//! Shots that cannot be.

use clothyard_tests::shots::{known, plan, shot, shots};
use study::{FitPlan, Observed, Sought, What, fit};
use units::{Length, Speed};

/// Shots that can be read but cannot be, or cannot tell what is sought.
#[test]
fn regress_messages_of_a_fit() {
    let marks = || shots(false, || 0.0);
    let changed = |change: &dyn Fn(&mut Vec<Observed>)| {
        let mut shots = marks();
        change(&mut shots);
        plan(shots, &[Sought::Speed])
    };
    let mark = |mm: f64| What::Mark(Length::from_si(1e-3 * mm));
    let length = Length::from_si;
    let none: FitPlan = plan(Vec::new(), &[Sought::Speed]);
    let plans = [
        changed(&|shots| shots[2].what = mark(180.0)),
        changed(&|shots| {
            for shot in shots {
                shot.what = What::Mark(Length::from_si(shot.what.si() * 25.4));
            }
        }),
        changed(&|shots| {
            shots.push(shot(9, 2.0, What::Speed(Speed::from_si(27.0)), None));
            let gap = What::Gap { pin: length(20.0), gap: length(0.9) };
            shots.push(shot(10, 30.0, gap, None));
        }),
        changed(&|shots| {
            shots[0].error = Some(0.0);
            shots[1].what = mark(f64::NAN);
            let up = What::Impact { pin: length(30.0), up: length(0.0) };
            shots.push(shot(11, 30.0, up, None));
        }),
        none,
        plan(marks().into_iter().take(1).collect(), &[Sought::Speed]),
        plan(
            vec![
                shot(2, 1.0, What::Speed(Speed::from_si(82.0)), None),
                shot(3, 30.0, What::Speed(Speed::from_si(80.0)), None),
            ],
            &[Sought::Speed, Sought::Radius],
        ),
        plan(
            vec![
                shot(2, 1.0, What::Speed(Speed::from_si(82.0)), None),
                shot(3, 1.0, What::Speed(Speed::from_si(82.1)), None),
            ],
            &[Sought::Speed, Sought::Drag],
        ),
    ];
    let all: Vec<String> =
        plans.iter().map(|plan| fit(&known(), plan).unwrap_err().to_string()).collect();
    insta::assert_snapshot!(all.join("\n\n"));
}

/// Pages that cannot be made.
#[test]
fn regress_messages_of_a_tape() {
    use print::{Card, Cards, Look, Strip, Tape, TapeMark};
    let mark = |halves, mm: f64| TapeMark { halves, travel: 1e-3 * mm };
    let strip =
        |marks: Vec<TapeMark>| Strip { name: "280 ft/s".to_owned(), note: String::new(), marks };
    let tape = |strips| Tape {
        care: Vec::new(),
        title: String::new(),
        about: String::new(),
        strips,
        style: units::Style::Archery,
        between: None,
        look: Look::default(),
    };
    let good = || strip(vec![mark(40, 0.0), mark(60, 9.0)]);
    let mut all: Vec<String> = [
        vec![],
        vec![good(), strip(vec![mark(40, 0.0), mark(50, 4.0)])],
        vec![strip(vec![mark(40, 0.0)])],
        vec![strip(vec![mark(40, 0.0), mark(60, f64::NAN)])],
        vec![strip(vec![mark(40, 0.0), mark(60, -1.0)])],
        vec![strip(vec![mark(40, 0.0), mark(60, 400.0)])],
    ]
    .map(|strips| tape(strips).sheet().unwrap_err().to_string())
    .into();
    let card = Card {
        title: "Marks".to_owned(),
        note: String::new(),
        heads: vec![("distance".to_owned(), "yd".to_owned())],
        rows: vec![vec!["20".to_owned()]; 200],
    };
    let ragged = Card { rows: vec![vec![]], ..card.clone() };
    for cards in [card, ragged] {
        let (title, about) = ("Cards".to_owned(), String::new());
        let page =
            Cards { title, care: Vec::new(), about, cards: vec![cards], look: Look::default() };
        all.push(page.sheet().unwrap_err().to_string());
    }
    let (title, about, paper) = ("Labels".to_owned(), String::new(), print::Paper::A4);
    let labels = print::Labels { title, about, labels: Vec::new(), paper };
    all.push(labels.sheets().unwrap_err().to_string());
    let mut sheet = print::WorkSheet {
        title: "Batch sheet".to_owned(),
        care: Vec::new(),
        about: String::new(),
        columns: Vec::new(),
        rows: vec![vec![print::Place::Box(true)]],
        paper,
    };
    all.push(sheet.sheets().unwrap_err().to_string());
    sheet.rows.clear();
    sheet.care = vec!["mind ".repeat(3000)];
    all.push(sheet.sheets().unwrap_err().to_string());
    insta::assert_snapshot!(all.join("\n"));
}
