//! What the terminal says, frozen. The answers are invented; only their words
//! and their layout are held here.

use clothyard_tests::answers::{self, of};
use clothyard_tests::document;
use insta::assert_snapshot;
use study::{Answer, Finding, Found, Seen, Shots, SweepAnswer};
use target::Estimate;
use units::{Mass, Style};

fn terminal(answer: &Answer, style: Style) -> String {
    let text = document(answer, style).unwrap().terminal(80);
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    text
}

#[test]
fn regress_terminal_square_ends() {
    assert_snapshot!(terminal(&answers::square_ends(), Style::Archery));
}

#[test]
fn regress_terminal_three_builds_metric() {
    assert_snapshot!(terminal(&answers::three_builds(), Style::Metric));
}

#[test]
fn regress_arrow_text() {
    let recipe = clothyard_tests::recipe::Simple::new();
    let arrow = study::fly_one(&recipe, &[10.0], false).unwrap();
    assert_snapshot!(report::arrow(&arrow, Style::Archery).unwrap().terminal(80));
}

#[test]
fn regress_terminal_one_perfect() {
    assert_snapshot!(terminal(&answers::one_perfect(), Style::Archery));
}

/// Comparisons and impacts as sheets: heads and first rows.
#[test]
fn regress_sheets() {
    let told = document(&answers::one_perfect(), Style::Archery).unwrap();
    let out = ["impacts", "pairs"].map(|name| {
        let text = told.csv(name).unwrap();
        format!("{name}\n{}", text.lines().take(2).collect::<Vec<_>>().join("\n"))
    });
    assert_snapshot!(out.join("\n\n"));
}

#[test]
fn regress_terminal_sweep() {
    assert_snapshot!(terminal(&answers::swept(), Style::Archery));
}

/// Findings and their reasons other than those of the square ends above.
#[test]
fn regress_findings() {
    let why = |claim: usize, change: &dyn Fn(&mut Answer)| {
        let mut answer = answers::square_ends();
        change(&mut answer);
        let text = document(&answer, Style::Metric).unwrap().terminal(10_000);
        let line = text.lines().filter(|line| line.starts_with("The trade")).nth(claim);
        line.unwrap().to_owned()
    };
    let far = |a: &mut Answer, machine, archer, seen, finding| {
        let mark = of(a).pairs[0].marks.last_mut().unwrap();
        (mark.machine_shots, mark.archer_shots, mark.seen) = (machine, archer, seen);
        answers::ends(a).trade[3].finding = finding;
    };
    let (few, many) = (Shots::Each(3_400), Shots::MoreThan(10_000));
    let texts = [
        why(0, &|a| answers::ends(a).trade[0].numbers.0 = 2e-5),
        why(0, &|a| answers::ends(a).trade[0].numbers.0 = 2e-4),
        why(1, &|_| ()),
        why(3, &|a| far(a, few, many, Seen::Nobody, Finding::InDirection)),
        why(3, &|a| far(a, Shots::Each(4), Shots::Each(20), Seen::Archer, Finding::Disagrees)),
        why(3, &|a| {
            far(a, many, many, Seen::Nobody, Finding::Disagrees);
            let mark = of(a).pairs[0].marks.last_mut().unwrap();
            mark.machine_ratio = Some(Estimate { value: 1.001, low: 0.99, high: 1.01 });
        }),
    ];
    assert_snapshot!(texts.join("\n\n"));
}

fn sweeps(answer: &mut Answer) -> &mut Vec<SweepAnswer> {
    match &mut answer.found {
        Found::Sweep(swept) => &mut swept.sweeps,
        other => panic!("{other:?}"),
    }
}

#[test]
fn regress_headlines() {
    let say = |answer: &Answer| document(answer, Style::Archery).unwrap().lead().to_owned();
    let with = |archer, machine, seen| {
        let mut answer = answers::square_ends();
        let mark = &mut of(&mut answer).pairs[0].marks[2];
        (mark.archer_shots, mark.machine_shots, mark.seen) = (archer, machine, seen);
        say(&answer)
    };
    let shown = |ratio: Estimate| {
        let mut answer = answers::square_ends();
        let mark = &mut of(&mut answer).pairs[0].marks[2];
        mark.gain = Estimate { value: 1e-4, low: -8e-4, high: 1e-3 };
        mark.machine_ratio = Some(ratio);
        say(&answer)
    };
    let mut perfect = answers::one_perfect();
    let holed = say(&perfect);
    of(&mut perfect).pairs[0].marks[2].gain = Estimate { value: 1e-4, low: -8e-4, high: 1e-3 };
    let mut base = answers::one_perfect();
    of(&mut base).pairs[0].marks[2].machine_ratio =
        Some(Estimate { value: 0.0, low: 0.0, high: 0.0 });
    let wider = answers::compared(&[("squared", 0.55), ("as sawn", 1.25)]);
    let worse = answers::compared(&[("plain", 0.5), ("heavy", 3.0), ("bent", 2.0)]);
    let alike = answers::compared(&[("one", 1.0), ("two", 1.0), ("three", 1.0)]);
    let mut flat = answers::swept();
    for point in &mut sweeps(&mut flat)[0].points {
        point.build = answers::build("hunter", 0.02, 84.0);
    }
    let mut two = answers::swept();
    let mut other = sweeps(&mut two)[0].clone();
    "other".clone_into(&mut other.build);
    sweeps(&mut two).push(other);
    let lines = [
        ("one build", say(&answers::compared(&[("alone", 1.0)]))),
        ("archer sees", with(Shots::Each(24), Shots::Each(4), Seen::Archer)),
        ("machine sees", with(Shots::Each(423), Shots::Each(14), Seen::MachineOnly)),
        ("machine rarely", with(Shots::MoreThan(10_000), Shots::Each(1530), Seen::Nobody)),
        ("nobody", with(Shots::MoreThan(10_000), Shots::MoreThan(10_000), Seen::Nobody)),
        ("none shown", shown(Estimate { value: 1.0, low: 0.99, high: 1.01 })),
        ("machine alone", shown(Estimate { value: 1.5, low: 1.4, high: 1.6 })),
        ("one without scatter", holed),
        ("one without scatter, none shown", say(&perfect)),
        ("base without scatter", say(&base)),
        ("wider", say(&wider)),
        ("three, best", say(&answers::three_builds())),
        ("three, none better", say(&worse)),
        ("three, alike", say(&alike)),
        ("sweep", say(&answers::swept())),
        ("sweep, no change", say(&flat)),
        ("sweep of one build of two", say(&two)),
    ];
    let text: Vec<String> = lines.iter().map(|(name, line)| format!("{name}\n  {line}")).collect();
    assert_snapshot!(text.join("\n"));
}

#[test]
fn regress_flight_as_table_csv_and_json() {
    let mut states = [clothyard_tests::start(80.0); 2];
    states[1].time = 0.25;
    states[1].position.x = 18.288;
    states[1].position.z = -0.3;
    states[1].velocity.z = -2.5;
    states[1].spin = 100.0;
    let mass = Mass::from_si(0.028);
    let told = |states: &[body::State]| report::flight(states, mass, Style::Archery).unwrap();
    assert_snapshot!("flight_table", told(&states).terminal(80));
    assert_snapshot!("flight_csv", told(&states[..1]).csv("states").unwrap());
    assert_snapshot!("flight_json", told(&states[..1]).json().unwrap());
}
