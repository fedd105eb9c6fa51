//! A line that is not TOML, and how it was meant.

use std::ops::Range;

use toml::de::DeTable;
use units::{Bare, Dimension, UnitError, read};

use crate::schema::{Id, Kind, Named, find, in_a_word, inside, last, plain_word};
use crate::slip::{Slip, Slipped};
use crate::text::{measure, own_unit};
use crate::written::quoted;

/// Quotes of word processors, and marks that look like them.
const CURLY: [char; 12] = [
    '\u{201c}', '\u{201d}', '\u{201e}', '\u{201f}', '\u{2018}', '\u{2019}', '\u{201a}', '\u{201b}',
    '\u{ab}', '\u{bb}', '\u{2032}', '\u{2033}',
];

/// Most blanks looked at for the end of a key, and most lengths put into a list. Chosen: no
/// key has so many words, and no one shoots at so many distances.
const WORDS: usize = 8;
const LENGTHS: usize = 24;

/// Lists of tables, in which keys stand as at the top of a file.
const LISTED: [&str; 3] = ["build", "step", "evidence"];

fn is_quote(letter: char) -> bool {
    matches!(letter, '"' | '\'') || CURLY.contains(&letter)
}

/// What is wrong with the line at a byte, where it is known how it was meant, and with
/// which of its bytes.
pub(super) fn slip(text: &str, at: usize) -> Option<(Range<usize>, Slip)> {
    let from = start(text, at);
    let line = uncommented(text[from..].lines().next()?);
    let prefix = table(&text[..from]);
    let (key, sign, value) = parts(line, prefix)?;
    let name = key.trim().trim_matches(is_quote);
    let good = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | '.' | ' ' | '\t');
    if name.trim().is_empty() || !name.chars().all(good) {
        return None;
    }
    let one = |part: &str| part.split_whitespace().collect::<Vec<_>>().join("_");
    let joined = name.split('.').map(one).collect::<Vec<_>>().join(".");
    let words = |part: &str| part.split_whitespace().count();
    let blank = key.trim() == name && name.split('.').any(|part| words(part) > 1);
    // A key in straight quotes may hold blanks.
    let written = if blank {
        joined.to_lowercase()
    } else if key.contains(CURLY) {
        joined.clone()
    } else {
        key.trim().to_owned()
    };
    let meant = meant(id(prefix, &joined), value)?;
    let like = format!("{written} = {meant}");
    if DeTable::parse(&like).is_err() || like == line.trim() {
        return None;
    }
    let what = if key.contains(CURLY) || value.contains(CURLY) {
        Slipped::Curly
    } else if blank {
        Slipped::BlankInKey
    } else if sign.trim() != "=" {
        Slipped::NoEquals
    } else if value.matches(['"', '\'']).count() == 1 {
        Slipped::HalfQuoted
    } else {
        Slipped::Unquoted
    };
    let offset = |part: &str| part.as_ptr() as usize - text.as_ptr() as usize;
    let of = |part: &str| offset(part)..offset(part) + part.len();
    let (place, said) = match what {
        Slipped::BlankInKey => (of(name), format!("\"{name}\"")),
        Slipped::NoEquals => (of(line.trim()), line.trim().to_owned()),
        _ => (of(value), format!("{} = {value}", key.trim())),
    };
    Some((place, Slip { what, said, like }))
}

/// Where the line of a byte begins.
pub(super) fn start(text: &str, at: usize) -> usize {
    text[..text.floor_char_boundary(at)].rfind('\n').map_or(0, |end| end + 1)
}

/// A line without the comment behind it.
fn uncommented(line: &str) -> &str {
    let mut inside = false;
    let mut before = ' ';
    let whole = line.matches('"').count().is_multiple_of(2);
    for (at, letter) in line.char_indices() {
        match letter {
            '"' if whole => inside = !inside,
            '#' if !inside && before.is_whitespace() => return &line[..at],
            _ => {}
        }
        before = letter;
    }
    line
}

/// The table in which the next line stands.
fn table(above: &str) -> &str {
    let head = above.lines().rev().map(str::trim).find(|line| line.starts_with('['));
    let name = head.unwrap_or_default().trim_start_matches('[');
    let name = name.split(']').next().unwrap_or_default().trim();
    match LISTED.iter().find(|list| inside(name, list)) {
        Some(list) => name[list.len()..].trim_start_matches('.'),
        None => name,
    }
}

/// The key of a table, or what a table or an ordinary word means.
fn id(prefix: &str, name: &str) -> Option<Id> {
    let path = if prefix.is_empty() { name.to_owned() } else { format!("{prefix}.{name}") };
    match find(&path) {
        Some(Named::Key(id)) => Some(id),
        Some(Named::Table(table)) => in_a_word(table.path),
        None => plain_word(name).filter(|_| prefix.is_empty()),
    }
}

/// Key, what stands between, and value of a line.
fn parts<'a>(line: &'a str, prefix: &str) -> Option<(&'a str, &'a str, &'a str)> {
    let (key, sign, value) = if let Some(at) = line.find(['=', ':']) {
        let rest = &line[at..];
        let value = rest.trim_start_matches(|c: char| "=:".contains(c) || c.is_whitespace());
        (&line[..at], &rest[..rest.len() - value.len()], value)
    } else {
        // As many words as make a key.
        let ends = line.char_indices().filter(|(_, c)| c.is_whitespace()).map(|(at, _)| at);
        let known = |key: &str| {
            let joined = key.split_whitespace().collect::<Vec<_>>().join("_");
            id(prefix, &joined).is_some()
        };
        let few = ends.take(WORDS).filter(|at| known(&line[..*at]));
        let at = few.max_by_key(|at| line[..*at].trim().len())?;
        (&line[..at], "", line[at..].trim_start())
    };
    (!value.trim().is_empty()).then_some((key, sign, value.trim_end()))
}

/// A value as TOML, as it was meant.
fn meant(id: Option<Id>, value: &str) -> Option<String> {
    if value.starts_with(['[', '{']) {
        let straight = value.replace(['\u{201c}', '\u{201d}', '\u{201e}'], "\"");
        let list = id.filter(|id| matches!(id.key().kind, Kind::Lengths { .. }));
        return match list {
            Some(id) => in_list(id, value.trim_matches(['[', ']'])).map(|list| written(&list)),
            None => (straight != value).then_some(straight),
        };
    }
    let said = value.trim_matches(is_quote).replace('"', "");
    let said = said.replace(['\u{2018}', '\u{2019}'], "'");
    let said = said.trim();
    if said.is_empty() {
        return None;
    }
    let Some(id) = id else { return Some(quoted(said)) };
    match (&id.key().kind, said.to_lowercase().as_str()) {
        (Kind::Flag, "true" | "yes" | "on") => Some("true".to_owned()),
        (Kind::Flag, "false" | "no" | "off") => Some("false".to_owned()),
        (Kind::Flag, _) => None,
        (Kind::Whole { .. }, _) => said.parse::<u64>().ok().map(|_| said.to_owned()),
        (Kind::Lengths { .. }, _) => several(id, said).or_else(|| Some(with_unit(id, said, value))),
        _ => Some(with_unit(id, said, value)),
    }
}

/// What is wrong with several lengths in one text.
pub(super) fn one_text(id: Id, text: &str) -> Option<Slip> {
    let like = format!("{} = {}", last(id.path()), several(id, text)?);
    let said = format!("{} = {}", id.path(), quoted(text));
    Some(Slip { what: Slipped::NotAList, said, like })
}

/// A text of several lengths as a list, each with its unit.
fn several(id: Id, text: &str) -> Option<String> {
    in_list(id, text).filter(|list| list.len() > 1).map(|list| written(&list))
}

fn written(list: &[String]) -> String {
    format!("[{}]", list.join(", "))
}

/// Every part of a text as a length with its unit; none where one is no length.
fn in_list(id: Id, text: &str) -> Option<Vec<String>> {
    let text = text.replace(" and ", ",");
    let parts: Vec<&str> = text
        .split([',', ';'])
        .map(|part| part.trim().trim_matches(is_quote).trim())
        .filter(|part| !part.is_empty())
        .collect();
    let dimension = measure(id)?.0;
    let usual = own_unit(id);
    let said = |part: &&str| read(dimension, part, Bare::Asked(usual)).ok().map(|read| read.unit());
    // 20, 30 and 40 m are all metres.
    let unit = parts.iter().rev().find_map(said).unwrap_or(usual);
    let one = |part: &&str| match read(dimension, part, Bare::Asked(unit)) {
        Ok(_) => Some(quoted(part)),
        Err(UnitError::NoUnit { .. }) => Some(quoted(&format!("{part} {}", unit.written()))),
        Err(_) => None,
    };
    (parts.len() <= LENGTHS).then(|| parts.iter().map(one).collect())?
}

/// A text in quotes; a number that lacks a unit with the one that its users would mean.
fn with_unit(id: Id, said: &str, value: &str) -> String {
    let Some((dimension, ..)) = measure(id) else { return quoted(said) };
    let unit = own_unit(id);
    // As TOML has numbers: .340 is none.
    let number = said.parse::<f64>().is_ok() && said.starts_with(|c: char| c.is_ascii_digit());
    if number && id == Id::ShaftSpine && read(dimension, said, Bare::Spine).is_ok() {
        return said.to_owned();
    }
    match read(dimension, said, Bare::Asked(unit)) {
        Ok(_) if number && dimension == Dimension::Ratio => said.to_owned(),
        Err(UnitError::NoUnit { .. }) => quoted(&format!("{said} {}", unit.written())),
        // 5' 10" ends in its own mark.
        Err(_) => match read(dimension, value, Bare::Asked(unit)) {
            Ok(read) => quoted(&read.standard()),
            Err(_) => quoted(said),
        },
        Ok(_) => quoted(said),
    }
}
