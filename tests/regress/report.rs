//! What the terminal says, frozen. The answers are invented; only their words
//! and their layout are held here.

use clothyard_tests::answers;
use insta::assert_snapshot;
use study::{Answer, Seen, Shots};
use target::Estimate;
use units::{Mass, Style};

fn terminal(answer: &Answer, style: Style) -> String {
    let text = report::terminal(answer, style, 80).unwrap();
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
fn regress_terminal_sweep() {
    assert_snapshot!(terminal(&answers::swept(), Style::Archery));
}

#[test]
fn regress_headlines() {
    let say = |answer: &Answer| report::headline(answer, Style::Archery).unwrap();
    let with = |archer, machine, seen| {
        let mut answer = answers::square_ends();
        let mark = &mut answer.pairs[0].marks[2];
        (mark.archer_shots, mark.machine_shots, mark.seen) = (archer, machine, seen);
        say(&answer)
    };
    let shown = |ratio: Estimate| {
        let mut answer = answers::square_ends();
        let mark = &mut answer.pairs[0].marks[2];
        mark.gain = Estimate { value: 1e-4, low: -8e-4, high: 1e-3 };
        mark.machine_ratio = ratio;
        say(&answer)
    };
    let wider = answers::compared(&[("squared", 0.55), ("as sawn", 1.25)]);
    let worse = answers::compared(&[("plain", 0.5), ("heavy", 3.0), ("bent", 2.0)]);
    let alike = answers::compared(&[("one", 1.0), ("two", 1.0), ("three", 1.0)]);
    let mut flat = answers::swept();
    for point in &mut flat.sweeps[0].points {
        point.build = answers::build("hunter", 0.02, 84.0);
    }
    let lines = [
        ("one build", say(&answers::compared(&[("alone", 1.0)]))),
        ("archer sees", with(Shots::Each(24), Shots::Each(4), Seen::Archer)),
        ("machine sees", with(Shots::Each(423), Shots::Each(14), Seen::MachineOnly)),
        ("machine rarely", with(Shots::MoreThan(10_000), Shots::Each(1530), Seen::Nobody)),
        ("nobody", with(Shots::MoreThan(10_000), Shots::MoreThan(10_000), Seen::Nobody)),
        ("none shown", shown(Estimate { value: 1.0, low: 0.99, high: 1.01 })),
        ("machine alone", shown(Estimate { value: 1.5, low: 1.4, high: 1.6 })),
        ("wider", say(&wider)),
        ("three, best", say(&answers::three_builds())),
        ("three, none better", say(&worse)),
        ("three, alike", say(&alike)),
        ("sweep", say(&answers::swept())),
        ("sweep, no change", say(&flat)),
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
    assert_snapshot!(
        "flight_table",
        report::flight_table(&states, mass, Style::Archery, 80).unwrap()
    );
    assert_snapshot!("flight_csv", report::flight_csv(&states[..1], mass, Style::Archery).unwrap());
    let json = report::flight_json(&states[..1], mass).unwrap();
    assert_snapshot!("flight_json", format!("{json:#}"));
}
