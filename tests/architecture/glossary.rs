use std::collections::BTreeSet;

use crate::map::quoted;
use crate::{files, none, text};

#[test]
fn law_every_identifier_of_the_glossary_exists() {
    let word = |c: char| c.is_ascii_alphanumeric() || c == '_';
    let sources: Vec<String> = files("crates", "rs").iter().map(|path| text(path)).collect();
    let used: BTreeSet<&str> = sources.iter().flat_map(|text| text.split(|c| !word(c))).collect();
    let glossary = text("docs/glossary.md");
    let rows = glossary.lines().filter(|line| line.starts_with("| "));
    let last = rows.filter_map(|line| line.trim_end_matches('|').rsplit('|').next());
    let named: Vec<String> = last.flat_map(quoted).collect();
    assert!(!named.is_empty(), "docs/glossary.md names no identifier");
    let gone: Vec<String> =
        named.into_iter().filter(|name| !used.contains(name.as_str())).collect();
    none("docs/glossary.md names what is in no source", &gone);
}
