//! What a tuning answer says, frozen. The answers are invented; only their
//! words and their layout are held here.

use clothyard_tests::{document, tuned};
use insta::assert_snapshot;
use study::{Answer, Neutral, TunedBuild};
use units::Style;

fn terminal(answer: &Answer, style: Style) -> String {
    let text = document(answer, style).unwrap().terminal(80);
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
    text
}

#[test]
fn regress_terminal_tune() {
    assert_snapshot!(terminal(&tuned::single(), Style::Archery));
}

#[test]
fn regress_terminal_tune_two_builds_metric() {
    assert_snapshot!(terminal(&tuned::bladed(), Style::Metric));
}

#[test]
fn regress_tune_headlines() {
    let say = |answer: &Answer| document(answer, Style::Archery).unwrap().lead().to_owned();
    let with = |change: &dyn Fn(&mut TunedBuild)| {
        let mut answer = tuned::single();
        change(&mut tuned::of(&mut answer).builds[0]);
        say(&answer)
    };
    let none = Some(Neutral { mark: 2, changes: Vec::new() });
    let lines = [
        ("one build", say(&tuned::single())),
        ("no change helps", with(&|build| build.neutral.clone_from(&none))),
        ("nothing tried", with(&|build| build.trends.clear())),
        (
            "one tried",
            with(&|build| {
                build.trends.drain(..1);
                build.trends.truncate(1);
                let changes = &mut build.neutral.as_mut().unwrap().changes;
                changes.remove(0);
                changes[0].trend = 0;
            }),
        ),
        (
            "one tried in vain",
            with(&|build| {
                build.trends.truncate(1);
                build.neutral.clone_from(&none);
            }),
        ),
        (
            "in one place",
            with(&|build| {
                build.bare[2].apart = Some(tuned::offset(1e-6, 0.0));
                build.neutral.clone_from(&none);
            }),
        ),
        ("turns over at once", with(&|build| build.neutral = None)),
        ("straight by assumption", with(&|build| build.straight = true)),
        ("off the fingers", with(&|build| build.flicked = true)),
        ("two builds", say(&tuned::bladed())),
        ("two builds alike", say(&tuned::answer(&[("a", 0.1), ("b", 0.1)], [0.0; 2]))),
    ];
    let text: Vec<String> = lines.iter().map(|(name, line)| format!("{name}\n  {line}")).collect();
    assert_snapshot!(text.join("\n"));
}
