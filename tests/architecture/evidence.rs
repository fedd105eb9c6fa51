use std::collections::BTreeMap;

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
