//! Files of one room that import each other in a circle. A small reader of
//! paths that begin with `crate`, `self` or `super`, or with a module declared
//! in the file; a path ends at the file that defines what it names, so a file
//! that only declares and re-exports its children is in no circle.

use std::collections::{BTreeMap, BTreeSet};

use crate::map::rooms;
use crate::{files, none, text};

/// Rooms still tangled, each to be taken off the list when it is put in order.
const TANGLED: [&str; 0] = [];

/// Modules of a room by their path from its root; the root has none.
type Room = BTreeMap<Vec<String>, Module>;

/// What one file declares, imports and names.
#[derive(Default)]
struct Module {
    file: String,
    /// Its text without comments and without a module of tests at its end.
    code: String,
    children: BTreeSet<String>,
    /// What each imported name stands for, as a path from this module.
    names: BTreeMap<String, Vec<String>>,
    /// Paths that pass children on to others.
    passed: BTreeSet<Vec<String>>,
    /// Every path it names, those of its imports among them.
    paths: BTreeSet<Vec<String>>,
}

fn word(c: char) -> bool {
    c.is_alphanumeric() || c == '_'
}

/// Reads a tree of paths, as in `a::{b, c::d as e}`: each path with the name
/// it gets, and what follows the tree.
fn tree<'a>(mut rest: &'a str, before: &[String], out: &mut Vec<(Vec<String>, String)>) -> &'a str {
    let mut path = before.to_vec();
    loop {
        rest = rest.trim_start();
        if let Some(mut group) = rest.strip_prefix('{') {
            loop {
                group = tree(group, &path, out).trim_start();
                group = group.strip_prefix(',').unwrap_or(group).trim_start();
                match group.strip_prefix('}') {
                    Some(after) => return after,
                    None if group.is_empty() => return group,
                    None => {}
                }
            }
        }
        let end = rest.find(|c| !word(c)).unwrap_or(rest.len());
        if end == 0 {
            // A glob, or the type arguments of an expression.
            let glob = rest.strip_prefix('*');
            let name = if glob.is_some() { "*" } else { "" };
            out.push((path, name.to_owned()));
            return glob.unwrap_or_else(|| rest.get(1..).unwrap_or_default());
        }
        path.push(rest[..end].to_owned());
        rest = &rest[end..];
        match rest.strip_prefix("::") {
            Some(more) => rest = more,
            None => break,
        }
    }
    let mut name = path.last().cloned().unwrap_or_default();
    if name == "self" {
        path.pop();
        name = path.last().cloned().unwrap_or_default();
    }
    if let Some(other) = rest.trim_start().strip_prefix("as ") {
        let end = other.find(|c| !word(c)).unwrap_or(other.len());
        other[..end].clone_into(&mut name);
        rest = &other[end..];
    }
    out.push((path, name));
    rest
}

/// A file as far as imports go.
fn module(file: &str, text: &str) -> Module {
    let lines = text.lines().map(|line| line.split("//").next().unwrap_or_default());
    let code: String = lines.flat_map(|line| [line, "\n"]).collect();
    let code = code.split("#[cfg(test)]\nmod ").next().unwrap_or_default().to_owned();
    let mut of = Module { file: file.to_owned(), ..Module::default() };
    for line in code.lines() {
        let line = match line.strip_prefix("pub") {
            Some(scoped) if scoped.starts_with('(') => scoped.split_once(") ").map_or("", |s| s.1),
            Some(open) => open.trim_start(),
            None => line,
        };
        if let Some(name) = line.strip_prefix("mod ").and_then(|rest| rest.strip_suffix(';')) {
            of.children.insert(name.to_owned());
        }
    }
    for (at, _) in code.match_indices("use ") {
        let line = code[..at].rsplit('\n').next().unwrap_or_default();
        let passes = line.trim_start().starts_with("pub");
        if !passes && !line.trim().is_empty() {
            continue;
        }
        let mut found = Vec::new();
        tree(&code[at + 4..], &[], &mut found);
        for (path, name) in found {
            if passes && path.first().is_some_and(|first| of.children.contains(first)) {
                of.passed.insert(path.clone());
            }
            let name = if name == "*" { format!("*{}", of.names.len()) } else { name };
            of.names.insert(name, path);
        }
    }
    let starts = of.children.iter().map(String::as_str).chain(["crate", "self", "super"]);
    for start in starts {
        for (at, _) in code.match_indices(&format!("{start}::")) {
            // `pub(in super::super)` names who may look, and imports nothing.
            let before = &code[..at];
            let scope = before.ends_with("pub(in ");
            if !scope && !before.ends_with(|c| word(c) || c == ':' || c == '$') {
                let mut found = Vec::new();
                tree(&code[at..], &[], &mut found);
                of.paths.extend(found.into_iter().map(|(path, _)| path));
            }
        }
    }
    of.code = code;
    of
}

/// The modules of a room, from its files below `src`.
fn room(sources: impl IntoIterator<Item = (String, String)>) -> Room {
    let mut room = Room::new();
    for (file, text) in sources {
        let mut path: Vec<String> =
            file.trim_end_matches(".rs").split('/').map(str::to_owned).collect();
        if path.last().is_some_and(|last| ["lib", "mod", "main"].contains(&last.as_str())) {
            path.pop();
        }
        // The program's `main` and its library are two roots; only one has modules.
        if file != "main.rs" {
            room.insert(path, module(&file, &text));
        }
    }
    room
}

/// Whether a file defines an item of this name.
fn defines(module: &Module, name: &str) -> bool {
    ["fn", "struct", "enum", "trait", "type", "const", "static", "union"].iter().any(|kind| {
        let head = format!("{kind} {name}");
        module
            .code
            .match_indices(&head)
            .any(|(at, _)| !module.code[at + head.len()..].starts_with(word))
    })
}

/// The module whose file defines what a path names, if it is of this room.
fn home(room: &Room, from: &[String], path: &[String], deep: usize) -> Option<Vec<String>> {
    let mut at = from.to_vec();
    let mut path = path.iter().peekable();
    while let Some(step) = path.next_if(|s| ["crate", "self", "super"].contains(&s.as_str())) {
        match step.as_str() {
            "crate" => at.clear(),
            "super" => drop(at.pop()),
            _ => {}
        }
    }
    while let Some(step) = path.next() {
        let here = room.get(&at)?;
        if here.children.contains(step) {
            at.push(step.clone());
            continue;
        }
        if defines(here, step) || deep == 0 {
            return Some(at);
        }
        if let Some(known) = here.names.get(step) {
            let more: Vec<String> = known.iter().chain(path).cloned().collect();
            let ours = |first: &String| {
                here.children.contains(first)
                    || ["crate", "self", "super"].contains(&first.as_str())
            };
            return more
                .first()
                .filter(|first| ours(first))
                .and_then(|_| home(room, &at, &more, deep - 1));
        }
        let globs = here.names.iter().filter(|(name, _)| name.starts_with('*'));
        let through = globs.filter_map(|(_, path)| home(room, &at, path, deep - 1));
        return through.into_iter().find(|m| defines(&room[m], step)).or(Some(at));
    }
    Some(at)
}

/// Files that name each other, each circle as a list of files.
fn circles(room: &Room) -> Vec<String> {
    let arrows: BTreeMap<&Vec<String>, BTreeSet<Vec<String>>> = room
        .iter()
        .map(|(at, module)| {
            let paths = module.paths.iter().filter(|path| !module.passed.contains(*path));
            let mut to: BTreeSet<_> = paths.filter_map(|path| home(room, at, path, 8)).collect();
            to.remove(at);
            (at, to)
        })
        .collect();
    let reach = |from: &Vec<String>| {
        let (mut seen, mut open) = (BTreeSet::new(), vec![from]);
        while let Some(at) = open.pop() {
            open.extend(arrows[at].iter().filter(|to| seen.insert((*to).clone())));
        }
        seen
    };
    let reached: BTreeMap<&Vec<String>, BTreeSet<Vec<String>>> =
        room.keys().map(|at| (at, reach(at))).collect();
    let mut found = BTreeSet::new();
    for (at, seen) in reached.iter().filter(|(at, seen)| seen.contains(**at)) {
        let others = seen.iter().filter(|other| reached[other].contains(*at));
        let names: Vec<&str> = others.map(|other| room[other].file.as_str()).collect();
        found.insert(names.join(", "));
    }
    found.into_iter().collect()
}

#[test]
fn law_no_file_of_a_room_imports_in_a_circle() {
    let mut breaches = Vec::new();
    for name in rooms().into_iter().map(|room| room.name) {
        let folder = format!("crates/{name}/src/");
        let sources = files(&folder, "rs").into_iter().map(|path| {
            let text = text(&path);
            (path.trim_start_matches(&folder).to_owned(), text)
        });
        let found = circles(&room(sources));
        match (TANGLED.contains(&name.as_str()), found.is_empty()) {
            (true, true) => breaches.push(format!("{name} is in order: take it off TANGLED")),
            (false, false) => {
                breaches.extend(found.iter().map(|circle| format!("{name}: {circle}")));
            }
            _ => {}
        }
    }
    none("files that import each other in a circle", &breaches);
}

#[test]
fn exact_a_circle_is_told_from_a_face_of_its_children() {
    let tell = |sources: &[(&str, &str)]| {
        circles(&room(sources.iter().map(|(file, text)| ((*file).to_owned(), (*text).to_owned()))))
    };
    // Two files that name each other, one of them through the root's re-export.
    let root = ("lib.rs", "mod a;\nmod b;\npub use a::One;\n");
    let b = ("b.rs", "use crate::One;\npub struct Two(One);\n");
    assert_eq!(tell(&[root, ("a.rs", "pub struct One(u8);\n"), b]), [""; 0]);
    let back = ("a.rs", "pub struct One(u8);\nfn f() { super::b::Two::new::<u8>(); }\n");
    assert_eq!(tell(&[root, back, b]), ["a.rs, b.rs"]);
    // Comments and tests at the end of a file do not count.
    let words = "pub struct One(u8); // crate::b\n#[cfg(test)]\nmod tests {\n use crate::b;\n}\n";
    assert_eq!(tell(&[root, ("a.rs", words), b]), [""; 0]);
    // A parent that works with its child, whose child names the parent's type.
    let parent = ("a/mod.rs", "mod c;\nuse c::{Three as T, self};\npub struct One(T);\n");
    let child = ("a/c.rs", "use super::{One};\npub struct Three;\n");
    assert_eq!(tell(&[root, parent, child, b]), ["a/mod.rs, a/c.rs"]);
    let child = ("a/c.rs", "pub struct Three;\n");
    assert_eq!(tell(&[root, parent, child, b]), [""; 0]);
    // Children that are shown to some only are children too.
    let root = ("lib.rs", "pub(super) mod a;\npub(crate) mod b;\n");
    let (a, b) = (("a.rs", "use super::b;\n"), ("b.rs", "use super::{a};\n"));
    assert_eq!(tell(&[root, a, b]), ["a.rs, b.rs"]);
}
