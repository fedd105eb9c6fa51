use std::collections::BTreeMap;

use crate::map::rooms;
use crate::{files, none, text};

/// How the name of a test says what kind of evidence it is.
const KINDS: [&str; 5] = ["exact_", "published_", "law_", "stat_", "regress_"];

/// Name and place of every test function.
fn tests() -> BTreeMap<String, String> {
    let mut found = BTreeMap::new();
    for path in files("tests", "rs").into_iter().chain(files("crates", "rs")) {
        let text = text(&path);
        let mut marked = false;
        for (number, line) in text.lines().enumerate() {
            let line = line.trim_start();
            if line.starts_with("#[test]") {
                marked = true;
            } else if let Some(rest) = line.strip_prefix("fn ").filter(|_| marked) {
                let name = rest.split('(').next().unwrap_or_default();
                // A macro's test has its name from where the macro is used.
                if !name.starts_with('$') {
                    found.insert(name.to_owned(), format!("{path}:{}", number + 1));
                }
                marked = false;
            }
        }
    }
    found
}

/// Words of a text that begin like the name of a test.
fn named(text: &str) -> Vec<&str> {
    text.split(|c: char| !(c.is_ascii_alphanumeric() || c == '_'))
        .filter(|word| KINDS.iter().any(|kind| word.starts_with(kind)))
        .collect()
}

#[test]
fn law_a_test_name_says_its_kind_of_evidence() {
    let mut breaches = Vec::new();
    for (name, place) in tests() {
        if !KINDS.iter().any(|kind| name.starts_with(kind)) {
            breaches.push(format!("{place} is called {name}"));
        }
    }
    none(&format!("test names start with one of {KINDS:?}"), &breaches);
}

/// This file, which speaks of snapshots and takes none.
const THIS: &str = "tests/architecture/evidence.rs";

/// A snapshot is the program's own output, frozen: it proves nothing exact.
#[test]
fn law_a_test_that_takes_a_snapshot_says_that_it_is_frozen() {
    let mut breaches = Vec::new();
    for path in files("tests", "rs") {
        let text = text(&path);
        for part in text.split("#[test]\n").skip(1) {
            let body = part.split("\n}\n").next().unwrap_or_default();
            let name = body.split_once("fn ").map_or("", |(_, rest)| rest);
            let name = name.split('(').next().unwrap_or_default();
            // A macro's test has its name from where the macro is used.
            let named = name.starts_with("regress_") || name.starts_with('$');
            if body.contains("assert_snapshot!") && path != THIS && !named {
                breaches.push(format!("{path}: {name}"));
            }
        }
    }
    none("snapshots in tests that are not called regress_", &breaches);
}

#[test]
fn law_the_front_page_of_a_room_has_an_example_that_runs() {
    let mut breaches = Vec::new();
    for name in rooms().into_iter().map(|room| room.name) {
        let text = text(&format!("crates/{name}/src/lib.rs"));
        let front: Vec<&str> = text.lines().take_while(|line| line.starts_with("//!")).collect();
        let fences = front.iter().filter(|line| line.starts_with("//! ```")).count();
        let runs = front.contains(&"//! ```") && fences.is_multiple_of(2);
        if !runs {
            breaches.push(format!("crates/{name}/src/lib.rs has none"));
        }
    }
    none("an example on the front page of each room", &breaches);
}

/// Rooms that compute have quick tests beside their code, so that an edit is
/// tested in seconds; whole answers are tested from outside.
#[test]
fn law_a_room_that_computes_has_tests_beside_its_code() {
    let computes =
        ["units", "solve", "body", "arrow", "workbench", "launch", "flight", "sight", "target"];
    let beside = tests();
    let bare: Vec<String> = computes
        .into_iter()
        .filter(|room| !beside.values().any(|place| place.starts_with(&format!("crates/{room}/"))))
        .map(str::to_owned)
        .collect();
    none("rooms without a test beside their code", &bare);
}

#[test]
fn law_every_model_card_names_its_checks() {
    let tests = tests();
    let mut breaches = Vec::new();
    for path in files("docs/model", "md") {
        let text = text(&path);
        let lower = text.to_ascii_lowercase();
        let Some(at) = lower.find("checked by") else {
            breaches.push(format!("{path} has no 'Checked by'"));
            continue;
        };
        let section = text[at..].split("\n#").next().unwrap_or_default();
        let named = named(section);
        if named.is_empty() {
            breaches.push(format!("{path} names no test under 'Checked by'"));
        }
        for name in named.into_iter().filter(|name| !tests.contains_key(*name)) {
            breaches.push(format!("{path} names {name}, which does not exist"));
        }
    }
    none("model cards and tests differ", &breaches);
}

#[test]
fn law_every_test_in_the_list_of_outside_checks_exists() {
    let tests = tests();
    let list = text("docs/validation.md");
    let named = named(&list);
    assert!(!named.is_empty(), "docs/validation.md names no test");
    let gone: Vec<String> =
        named.into_iter().filter(|name| !tests.contains_key(*name)).map(str::to_owned).collect();
    none("docs/validation.md names tests that do not exist", &gone);
}

#[test]
fn law_every_test_file_is_run() {
    let manifest = text("tests/Cargo.toml");
    let mut breaches = Vec::new();
    for main in files("tests", "rs").iter().filter(|path| path.ends_with("/main.rs")) {
        let folder = main.trim_end_matches("main.rs");
        if !manifest.contains(&format!("path = \"{}\"", main.trim_start_matches("tests/"))) {
            breaches.push(format!("{main} is no target in tests/Cargo.toml"));
        }
        let modules = text(main);
        for path in files(folder, "rs").iter().filter(|path| *path != main) {
            let name = path.trim_start_matches(folder).trim_end_matches(".rs");
            if !name.contains('/') && !modules.lines().any(|line| line == format!("mod {name};")) {
                breaches.push(format!("{path} is not named in {main}"));
            }
        }
    }
    none("test files that never run", &breaches);
}
