//! What is not known stands at every number of every shipped scenario.

use clothyard_tests::known::{Counted, NO_ANSWER, plans, walk};
use clothyard_tests::program::{self, Folder, path};
use report::{Cell, Document, Known};
use study::{Plan, QUICK_POINTS, Quiet, run};
use units::Style;

/// A wide band, as a factor between its ends: its number says nothing without it.
const WIDE: f64 = 3.0;

/// A number of a cell as sentences spell it, with its unit.
fn spelled(cell: &Cell, style: Style) -> Option<String> {
    let (role, value) = match cell {
        Cell::Quantity(role, value) => (role, *value),
        Cell::Estimate(role, of) => (role, of.value),
        Cell::Banded(role, of) => (role, of.value),
        _ => return None,
    };
    Some(role.text(value.abs(), style))
}

/// The sentences of a text: a full stop ends one where a capital follows.
fn sentences(text: &str) -> Vec<&str> {
    let mut found = Vec::new();
    let mut rest = text;
    while let Some(at) = rest
        .match_indices(". ")
        .map(|(at, _)| at)
        .find(|at| rest[at + 2..].starts_with(|next: char| next.is_uppercase()))
    {
        found.push(&rest[..=at]);
        rest = &rest[at + 2..];
    }
    found.push(rest);
    found
}

/// Whether the number stands in a sentence by itself, not as an end of others.
fn stands(sentence: &str, number: &str) -> bool {
    sentence.match_indices(number).any(|(at, _)| {
        let before = sentence[..at].chars().next_back();
        before.is_none_or(|before| before == ' ' && !sentence[..at].ends_with(" to "))
    })
}

/// A figure with a wide band stands nowhere in the headline without it.
fn headline(of: &str, document: &Document, style: Style) {
    for table in document.tables() {
        for (at, row) in table.all_rows().iter().enumerate() {
            for (column, cell) in row.iter().enumerate() {
                let (Known::Band(low, high) | Known::Usual(low, high)) = table.known(at, column)
                else {
                    continue;
                };
                let wide = low * high <= 0.0
                    || high.abs().max(low.abs()) > WIDE * low.abs().min(high.abs());
                let Some(number) = spelled(cell, style).filter(|_| wide) else { continue };
                for sentence in sentences(document.lead()).iter().filter(|of| stands(of, &number)) {
                    assert!(
                        sentence.contains(" to ") && sentence.contains('('),
                        "{of}: {number} of {} stands alone in: {sentence}",
                        table.name()
                    );
                }
            }
        }
    }
}

/// Of every number that depends on a poorly known value none lacks its band, none
/// lies outside it unsaid, and no headline prints a doubtful one alone.
#[test]
fn law_every_number_of_every_shipped_scenario_carries_what_is_not_known() {
    let mut all = Counted::default();
    for (name, plan) in plans(100) {
        let plan = Plan { points: plan.points.min(QUICK_POINTS), ..plan };
        let answer = run(&plan, &Quiet).unwrap();
        let known = answer.unknown.is_some();
        let style = Style::Archery;
        let document = report::answer(&answer, &report::Provenance::default(), style).unwrap();
        headline(&name, &document, style);
        if known {
            let json = serde_json::from_str(&document.json().unwrap()).unwrap();
            let Counted { banded, certain, usual } = walk(&name, &json, &NO_ANSWER);
            assert!(banded > 50, "{name}: {banded}");
            all.banded += banded;
            all.certain += certain;
            all.usual += usual;
        }
    }
    // Some of each are there, so that the walk saw them.
    assert!(all.banded > 5_000 && all.certain > 500 && all.usual > 0, "{all:?}");
}

/// The same of marks and of every job at the bench.
#[test]
fn law_every_number_of_marks_and_bench_carries_what_is_not_known() {
    let scenario = |name: &str| path(&format!("scenarios/{name}.toml"));
    let book = |name: &str| path(&format!("scenarios/bench/{name}.csv"));
    let (marks, bench) = (scenario("sight-marks"), scenario("bench/bench"));
    let [faces, profile, dozen, shots] = ["faces", "profile", "dozen", "shots"].map(book);
    let grade = ["--grade", "0.006 in", "--measure", "total", "--stock", "32 in"];
    let jobs: [&[&str]; 6] = [
        &["marks", &marks],
        &["bench", "square", &bench, "--readings", &faces],
        &["bench", "cut", &bench, "--readings", &profile, "--supports", "2 in, 30 in"],
        &[&["bench", "cut", &bench][..], &grade].concat(),
        &["bench", "sort", &bench, "--batch", &dozen, "--set", "hunt=6"],
        &["bench", "index", &bench, "--batch", &dozen, "--shots", &shots],
    ];
    for (at, job) in jobs.iter().enumerate() {
        let folder = Folder::new(&format!("known-{at}"));
        let out = folder.at("out");
        let ran = program::run(&[job, &["--json", "--out", &out][..]].concat());
        assert_eq!(ran.code, 0, "{}", ran.err);
        let json = serde_json::from_str(&ran.out).unwrap();
        let counted = walk(&job.join(" "), &json, &NO_ANSWER);
        assert!(counted.banded > 10 && counted.certain > 1, "{job:?}: {counted:?}");
    }
}
