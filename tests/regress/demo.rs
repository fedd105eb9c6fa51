//! The numbers of the demonstration scenario, frozen, so that a change in what
//! is computed is seen and can be told in `CHANGELOG.md`. Six digits: more
//! would differ between mathematics libraries.

use std::fmt::Write;
use std::path::Path;

use clothyard_tests::compared;
use clothyard_tests::program::path;
use insta::assert_snapshot;
use study::Quiet;

/// Flights in a group; the changelog has the full number.
const FLIGHTS: u64 = 200;

#[test]
fn regress_numbers_of_the_demo() {
    let file = path("scenarios/square-ends.toml");
    let read = scenario::read(Path::new(&file), &|path| std::fs::read_to_string(path));
    let Ok(mut read) = read else { panic!("the demonstration scenario has mistakes") };
    read.override_question(None, Some(FLIGHTS)).unwrap();
    let answer = study::run(&read.plan().unwrap(), &Quiet).unwrap();
    let mut text = "distance m, time s, speed m/s, drop m; R50 mm full, machine, form\n".to_owned();
    for build in &compared(answer).builds {
        writeln!(text, "{}", build.name).unwrap();
        for mark in &build.marks {
            let n = &mark.nominal;
            let flown = [mark.distance.si(), n.time, n.speed, n.drop];
            let groups = [&mark.full, &mark.machine, &mark.form].map(|g| g.stats.r50.value * 1e3);
            let six = |values: &[f64]| {
                values.iter().map(|v| format!("{v:.5e}")).collect::<Vec<_>>().join(" ")
            };
            writeln!(text, "  {}; {}", six(&flown), six(&groups)).unwrap();
        }
    }
    assert_snapshot!(text);
}
