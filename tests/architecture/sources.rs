use std::collections::BTreeSet;

use crate::{none, rust_files, text};

/// Longest source file allowed, lines.
const LONGEST: usize = 400;

/// Source keys in a comment: `[key]` or `[key, place]` with a number in the
/// place; both brackets may be escaped, so that they are not taken for a link. A key is three or more lower case letters, digits and hyphens and
/// starts with a letter; quoted code and the text of a link are none.
fn keys(comment: &str) -> Vec<&str> {
    let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
    let mut found = Vec::new();
    for (at, _) in comment.match_indices('[') {
        let Some((inside, after)) = comment[at + 1..].split_once(']') else { continue };
        let inside = inside.trim_end_matches('\\');
        let (key, place) = inside.split_once(", ").unwrap_or((inside, "0"));
        if key.starts_with(|c: char| c.is_ascii_lowercase())
            && key.len() > 2
            && key.chars().all(plain)
            && place.contains(|c: char| c.is_ascii_digit())
            && !after.starts_with(['(', '[', ':'])
            && comment[..at].matches('`').count().is_multiple_of(2)
        {
            found.push(key);
        }
    }
    found
}

/// The keys of `docs/sources.md`: the first quoted word of each list item.
fn known() -> Vec<String> {
    text("docs/sources.md")
        .lines()
        .filter_map(|line| line.trim_start_matches("- ").strip_prefix('`')?.split('`').next())
        .map(str::to_owned)
        .collect()
}

#[test]
fn law_every_source_key_is_listed() {
    let known = known();
    let mut breaches = Vec::new();
    for path in rust_files() {
        for (number, line) in text(&path).lines().enumerate() {
            // Keys stand in comments and in defaults that name their source.
            let place = line.split_once("//").or_else(|| line.split_once("sourced: "));
            let Some((_, place)) = place else { continue };
            for key in keys(place).into_iter().filter(|key| !known.iter().any(|k| k == key)) {
                breaches.push(format!("{path}:{} has [{key}]", number + 1));
            }
        }
    }
    none("source keys that docs/sources.md does not list", &breaches);
}

#[test]
fn law_the_list_of_sources_is_sorted_without_doubles() {
    let known = known();
    let sorted: Vec<String> = known.iter().cloned().collect::<BTreeSet<_>>().into_iter().collect();
    assert_eq!(known, sorted, "docs/sources.md (left) should be in the order on the right");
}

#[test]
fn law_source_files_are_short() {
    let mut breaches = Vec::new();
    for path in rust_files() {
        let lines = text(&path).lines().count();
        if lines >= LONGEST {
            breaches.push(format!("{path} has {lines} lines"));
        }
    }
    none(&format!("source files of {LONGEST} lines or more"), &breaches);
}

#[test]
fn exact_source_keys_are_told_from_other_brackets() {
    assert_eq!(keys("the table \\[dlmf\\]"), ["dlmf"]);
    assert_eq!(keys("of it. [own-solution] and [dlmf, table 3.5.2]"), ["own-solution", "dlmf"]);
    assert_eq!(keys("[`Name`] [text](link) [0, 1] [left, up] `#[test]` [t] [X]"), [""; 0]);
}
