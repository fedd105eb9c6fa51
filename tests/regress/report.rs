//! What the terminal says, frozen. The answers are invented; only their words
//! and their layout are held here.

use clothyard_tests::answers;
use insta::assert_snapshot;
use study::{Answer, Finding, Seen, Shots};
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
fn regress_arrow_text() {
    let recipe = clothyard_tests::recipe::Simple::new();
    let arrow = study::fly_one(&recipe, &[10.0], false).unwrap();
    assert_snapshot!(report::arrow_text(&arrow, Style::Archery, 80).unwrap());
}

#[test]
fn regress_terminal_one_perfect() {
    assert_snapshot!(terminal(&answers::one_perfect(), Style::Archery));
}

/// Comparisons and impacts as sheets: heads and first rows.
#[test]
fn regress_sheets() {
    let provenance = report::Provenance {
        version: "0.0.0".to_owned(),
        scenario: String::new(),
        source_name: "invented.toml".to_owned(),
        seed: 7,
    };
    let files = report::files(&answers::one_perfect(), &provenance, Style::Archery).unwrap();
    let mut out = Vec::new();
    let wanted = ["impacts.csv", "pairs.csv"];
    for file in files.into_iter().filter(|file| wanted.contains(&file.name.as_str())) {
        let text = String::from_utf8(file.bytes).unwrap();
        out.push(format!("{}\n{}", file.name, text.lines().take(2).collect::<Vec<_>>().join("\n")));
    }
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
        let text = report::terminal(&answer, Style::Metric, 10_000).unwrap();
        let line = text.lines().filter(|line| line.starts_with("The trade")).nth(claim);
        line.unwrap().to_owned()
    };
    let far = |a: &mut Answer, machine, archer, seen, finding| {
        let mark = a.pairs[0].marks.last_mut().unwrap();
        (mark.machine_shots, mark.archer_shots, mark.seen) = (machine, archer, seen);
        a.trade[2].finding = finding;
    };
    let (few, many) = (Shots::Each(3_400), Shots::MoreThan(10_000));
    let texts = [
        why(0, &|a| a.trade[0].numbers.0 = 2e-5),
        why(0, &|a| a.trade[0].numbers.0 = 2e-4),
        why(1, &|a| a.ends.as_mut().unwrap().front.fit_band = Some((0.05, 0.06))),
        why(1, &|a| a.ends.as_mut().unwrap().front.fit_band = None),
        why(2, &|a| far(a, few, many, Seen::Nobody, Finding::InDirection)),
        why(2, &|a| far(a, Shots::Each(4), Shots::Each(20), Seen::Archer, Finding::Disagrees)),
        why(2, &|a| {
            far(a, many, many, Seen::Nobody, Finding::Disagrees);
            let mark = a.pairs[0].marks.last_mut().unwrap();
            mark.machine_ratio = Some(Estimate { value: 1.001, low: 0.99, high: 1.01 });
        }),
    ];
    assert_snapshot!(texts.join("\n\n"));
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
        mark.machine_ratio = Some(ratio);
        say(&answer)
    };
    let mut perfect = answers::one_perfect();
    let holed = say(&perfect);
    perfect.pairs[0].marks[2].gain = Estimate { value: 1e-4, low: -8e-4, high: 1e-3 };
    let mut base = answers::one_perfect();
    base.pairs[0].marks[2].machine_ratio = Some(Estimate { value: 0.0, low: 0.0, high: 0.0 });
    let wider = answers::compared(&[("squared", 0.55), ("as sawn", 1.25)]);
    let worse = answers::compared(&[("plain", 0.5), ("heavy", 3.0), ("bent", 2.0)]);
    let alike = answers::compared(&[("one", 1.0), ("two", 1.0), ("three", 1.0)]);
    let mut flat = answers::swept();
    for point in &mut flat.sweeps[0].points {
        point.build = answers::build("hunter", 0.02, 84.0);
    }
    let mut two = answers::swept();
    two.builds.push(answers::build("other", 0.02, 84.0));
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
    assert_snapshot!(
        "flight_table",
        report::flight_table(&states, mass, Style::Archery, 80).unwrap()
    );
    assert_snapshot!("flight_csv", report::flight_csv(&states[..1], mass, Style::Archery).unwrap());
    let json = report::flight_json(&states[..1], mass).unwrap();
    assert_snapshot!("flight_json", format!("{json:#}"));
}
