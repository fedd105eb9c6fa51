use std::collections::BTreeSet;

use crate::map::{free, quoted, rooms};
use crate::{files, none, root, text};

/// The manifest at a path from the root.
fn manifest(path: &str) -> toml::Table {
    text(path).parse().unwrap_or_else(|e| panic!("{path}: {e}"))
}

/// Everything a manifest depends on, of any kind.
fn dependencies(manifest: &toml::Table) -> BTreeSet<String> {
    // Those of one kind of system stand in a table of their own.
    let systems = manifest.get("target").and_then(toml::Value::as_table);
    let systems = systems.into_iter().flat_map(|all| all.values()).filter_map(|one| one.as_table());
    std::iter::once(manifest)
        .chain(systems)
        .flat_map(|table| {
            ["dependencies", "dev-dependencies", "build-dependencies"]
                .iter()
                .filter_map(|kind| table.get(*kind)?.as_table())
        })
        .flat_map(|table| table.keys().cloned())
        .collect()
}

#[test]
fn law_the_map_names_every_room_and_no_other() {
    let mapped: BTreeSet<String> = rooms().into_iter().map(|room| room.name).collect();
    let built: BTreeSet<String> = std::fs::read_dir(root().join("crates"))
        .unwrap()
        .map(|entry| entry.unwrap())
        .filter(|entry| entry.path().is_dir())
        .map(|entry| entry.file_name().into_string().unwrap())
        .collect();
    let mut breaches = Vec::new();
    for name in built.difference(&mapped) {
        breaches.push(format!("crates/{name} is not in the table of DEVELOPERS.md"));
    }
    for name in mapped.difference(&built) {
        breaches.push(format!("DEVELOPERS.md names {name}, but there is no crates/{name}"));
    }
    none("map and tree differ", &breaches);
}

#[test]
fn law_a_folder_is_called_what_its_crate_is_called() {
    let mut breaches = Vec::new();
    for room in rooms() {
        let path = format!("crates/{}/Cargo.toml", room.name);
        let name = manifest(&path)["package"]["name"].as_str().map(str::to_owned);
        if name.as_ref() != Some(&room.name) {
            breaches.push(format!("{path} calls its crate {name:?}"));
        }
    }
    none("folder and crate differ in name", &breaches);
}

#[test]
fn law_a_room_names_only_what_the_map_allows() {
    let rooms = rooms();
    let free = free();
    let names: Vec<&String> = rooms.iter().map(|room| &room.name).collect();
    let mut breaches = Vec::new();
    for room in &rooms {
        let path = format!("crates/{}/Cargo.toml", room.name);
        for wanted in dependencies(&manifest(&path)) {
            if names.contains(&&wanted) {
                if !room.ours.contains(&wanted) {
                    breaches.push(format!("{path}: {} may not name the room {wanted}", room.name));
                }
            } else if !room.theirs.contains(&wanted) && !free.contains(&wanted) {
                let who: Vec<&str> = rooms
                    .iter()
                    .filter(|other| other.theirs.contains(&wanted))
                    .map(|other| other.name.as_str())
                    .collect();
                breaches.push(format!(
                    "{path}: {} may not name {wanted}; the map gives it to {who:?}",
                    room.name
                ));
            }
        }
    }
    none("an arrow that is not in the table of DEVELOPERS.md", &breaches);
}

/// Whether any source of a room has this crate's name before two colons.
fn names_crate(room: &str, wanted: &str) -> bool {
    let word = format!("{}::", wanted.replace('-', "_"));
    files(&format!("crates/{room}/src"), "rs").iter().any(|path| {
        text(path).lines().any(|line| names(line.split("//").next().unwrap_or_default(), &word))
    })
}

#[test]
fn law_every_grant_of_the_map_is_used() {
    let mut breaches = Vec::new();
    for room in rooms() {
        let path = format!("crates/{}/Cargo.toml", room.name);
        let wanted = dependencies(&manifest(&path));
        for granted in room.ours.iter().chain(&room.theirs) {
            if !wanted.contains(granted) {
                breaches.push(format!("{} may name {granted}, and {path} does not", room.name));
            }
        }
        for wanted in wanted.iter().filter(|wanted| !names_crate(&room.name, wanted)) {
            breaches.push(format!("{path} names {wanted}, and no source of the room does"));
        }
    }
    none("an arrow of the table of DEVELOPERS.md that nothing uses", &breaches);
}

#[test]
fn law_the_map_runs_one_way() {
    let rooms = rooms();
    let mut seen: Vec<&String> = Vec::new();
    let mut breaches = Vec::new();
    for room in &rooms {
        for ours in room.ours.iter().filter(|ours| !seen.contains(ours)) {
            breaches.push(format!("{} names {ours}, which does not stand above it", room.name));
        }
        seen.push(&room.name);
    }
    none("the table of DEVELOPERS.md is not in the order of the chain", &breaches);
}

#[test]
fn law_only_the_program_touches_the_outside_world() {
    let outside = [
        "print!(",
        "println!(",
        "eprint!(",
        "eprintln!(",
        "std::fs",
        "std::env",
        "std::time",
        "std::net",
        "std::process",
        "env!(",
    ];
    let mut breaches = Vec::new();
    for room in rooms().iter().filter(|room| room.name != "clothyard") {
        for path in files(&format!("crates/{}/src", room.name), "rs") {
            for (number, line) in text(&path).lines().enumerate() {
                let code = line.split("//").next().unwrap_or_default();
                for word in outside.iter().filter(|word| names(code, word)) {
                    breaches.push(format!("{path}:{} has {word}", number + 1));
                }
            }
        }
    }
    none("only clothyard prints, opens files, reads clock or environment", &breaches);
}

/// Whether code has this word, not as the end of a longer one.
fn names(code: &str, word: &str) -> bool {
    code.match_indices(word).any(|(at, _)| {
        !code[..at].ends_with(|c: char| c.is_ascii_alphanumeric() || c == '_')
            // The version of the package is fixed when it is built.
            && !code[at..].starts_with("env!(\"CARGO_PKG_VERSION\")")
    })
}

#[test]
fn law_every_lint_exception_is_explained() {
    let lints = &manifest("Cargo.toml")["workspace"]["lints"];
    let allowed: BTreeSet<String> = lints
        .as_table()
        .unwrap()
        .values()
        .flat_map(|group| group.as_table().unwrap())
        .filter(|(_, level)| level.as_str() == Some("allow"))
        .map(|(lint, _)| lint.clone())
        .collect();
    let explained: BTreeSet<String> = text("docs/decisions/0002-lints.md")
        .lines()
        .filter(|line| line.starts_with("| `"))
        .flat_map(|line| quoted(line).into_iter().take(1))
        .collect();
    assert_eq!(allowed, explained, "Cargo.toml (left) and docs/decisions/0002-lints.md (right)");
}

/// The benches once had a program of their own; `cargo run`, and with it the
/// README's first command, then could not tell which one was meant.
#[test]
fn regress_cargo_run_finds_one_program() {
    let manifests = ["crates", "tests", "benches"].iter().flat_map(|f| crate::files(f, "toml"));
    let programs: Vec<String> = manifests
        .filter(|path| path.ends_with("Cargo.toml"))
        .filter(|path| crate::text(path).contains("default-run = "))
        .collect();
    assert_eq!(programs, ["crates/clothyard/Cargo.toml"]);
    let own = manifest("crates/clothyard/Cargo.toml");
    assert_eq!(own["package"]["default-run"].as_str(), Some("clothyard"));
}
