//! The tree as it is, held against the map in `DEVELOPERS.md` and the rules
//! that go with it. Every test collects all breaches before it fails.
#![expect(clippy::expect_used, clippy::unwrap_used, reason = "a broken tree should stop a test")]

mod circles;
mod evidence;
mod glossary;
mod map;
mod rooms;
mod sources;

use std::path::{Path, PathBuf};

/// The root of the workspace.
fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests lies in the workspace").into()
}

/// The text of a file given by its path from the root.
fn text(path: &str) -> String {
    std::fs::read_to_string(root().join(path)).unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// All files below a folder with this ending, as paths from the root, sorted.
fn files(folder: &str, ending: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut open = vec![root().join(folder)];
    while let Some(folder) = open.pop() {
        let Ok(entries) = std::fs::read_dir(&folder) else { continue };
        for path in entries.map(|e| e.unwrap().path()) {
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|e| e == ending) {
                found.push(path.strip_prefix(root()).unwrap().display().to_string());
            }
        }
    }
    found.sort();
    found
}

/// All Rust sources of the project.
fn rust_files() -> Vec<String> {
    ["crates", "tests", "benches"].iter().flat_map(|folder| files(folder, "rs")).collect()
}

/// Fails with all breaches, if there are any.
fn none(rule: &str, breaches: &[String]) {
    assert!(breaches.is_empty(), "{rule}:\n  {}\n", breaches.join("\n  "));
}
