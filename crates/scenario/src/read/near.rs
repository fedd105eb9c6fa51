//! What was probably meant.

use toml::de::DeValue;
use units::{Bare, Dimension, read};

use crate::entry::{Entry, Layer};
use crate::schema::{
    Id, KEYS, Kind, Named, TABLES, find, last, limits, parent, plain_word, plain_word_of,
    plain_words,
};
use crate::source::Place;
use crate::text::{measure, own_unit};
use crate::written::quoted;

/// How alike two names must be, 0 to 1. Chosen: a slip or two in a word passes.
const ALIKE: f64 = 0.6;

/// Longest word looked for, bytes. Chosen: twice the longest dotted key.
const LONGEST: usize = 100;

/// The nearest of some names, if any is near.
pub(crate) fn name<'a>(wrong: &str, among: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    // Nothing that long is a slip.
    if wrong.len() > LONGEST {
        return None;
    }
    let wrong = wrong.to_lowercase();
    among
        .into_iter()
        .map(|candidate| (strsim::normalized_damerau_levenshtein(&wrong, candidate), candidate))
        .filter(|(alike, _)| *alike >= ALIKE)
        .max_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, candidate)| candidate)
}

/// What a key that does not exist was meant to be: names that may stand in its place, and
/// where else something has its name.
pub(super) fn meant(
    key: &str,
    table: &str,
    allowed: &[&'static str],
    value: &DeValue<'_>,
) -> (Option<String>, Vec<String>) {
    let wrong = last(key);
    let top = table.is_empty();
    if !matches!(value, DeValue::Table(_) | DeValue::Array(_)) {
        let holding = holding(wrong, table, value);
        if !holding.is_empty() {
            return (Some(listed(&holding)), Vec::new());
        }
    }
    let near = name(wrong, allowed.iter().copied().chain(plain_words().filter(|_| top)));
    let here = |id: &Id| id.table() == table;
    let near = near.or_else(|| Some(last(plain_word(wrong).filter(here)?.path())));
    let keys = KEYS.iter().map(|key| key.path);
    let tables = TABLES.iter().map(|table| table.path);
    let elsewhere = keys.chain(tables).filter(|path| last(path) == wrong);
    // As the documentation has it: wind, not wind_speed.
    let table = |word: &&str| plain_word_of(plain_word(word)?.path());
    let near = near.map(|word| table(&word).filter(|name| find(name).is_some()).unwrap_or(word));
    (near.map(str::to_owned), elsewhere.map(|path| example(path, value)).collect())
}

/// Names of which the wrong one is a part, as weight of `draw_weight`: those that the value
/// fits, else all.
fn holding(wrong: &str, table: &str, value: &DeValue<'_>) -> Vec<&'static str> {
    let wrong = wrong.to_lowercase();
    let part = |name: &str| name.split('_').any(|part| part == wrong);
    let own = KEYS.iter().filter(|key| key.id.table() == table && part(last(key.path)));
    let mut ids: Vec<Id> = own.map(|key| key.id).collect();
    for id in plain_words().filter(|word| part(word)).filter_map(plain_word) {
        if (table.is_empty() || id.table() == table) && !ids.contains(&id) {
            ids.push(id);
        }
    }
    let fitting: Vec<Id> = ids.iter().copied().filter(|id| fits(*id, value)).collect();
    let ids = if fitting.is_empty() { ids } else { fitting };
    let word =
        |id: &Id| plain_word_of(id.path()).filter(|_| table.is_empty()).unwrap_or(last(id.path()));
    ids.iter().map(word).take(MOST).collect()
}

/// Most names told as meant. Chosen: more are a list, not an answer.
const MOST: usize = 3;

/// Names as a sentence has them.
fn listed(names: &[&str]) -> String {
    match names {
        [but_last @ .., last] if !but_last.is_empty() => {
            format!("{} or {last}", but_last.join(", "))
        }
        _ => names.concat(),
    }
}

/// Whether a value is a quantity in the range of a key.
fn fits(id: Id, value: &DeValue<'_>) -> bool {
    let read = || {
        let (dimension, ..) = measure(id)?;
        read(dimension, value.as_str()?, Bare::Asked(own_unit(id))).ok()
    };
    let (low, high) = limits(id);
    read().is_some_and(|read| (low..=high).contains(&read.si()))
}

/// A key or a table in full; of a table for which a quantity stands also how that is said.
fn example(path: &str, value: &DeValue<'_>) -> String {
    let child = match find(path) {
        Some(Named::Table(_)) => {
            KEYS.iter().find(|key| key.id.table() == path && fits(key.id, value))
        }
        _ => None,
    };
    match (child, value.as_str()) {
        (Some(key), Some(text)) => {
            // Lines of the top that follow would be taken for its own.
            let line = format!("{} = {}", last(key.path), quoted(text.trim()));
            format!("{path}: behind all other lines write [{path}] and below it {line}")
        }
        _ => path.to_owned(),
    }
}

/// The nearest key that can be swept.
pub(super) fn sweepable(wrong: &str) -> Option<&'static str> {
    let numbers = KEYS.iter().filter(|key| matches!(key.kind, Kind::Number(_)));
    name(wrong, numbers.map(|key| key.path))
}

/// The unit whose spelling is nearest.
pub(crate) fn unit(dimension: Dimension, wrong: &str) -> Option<&'static str> {
    let symbols = dimension.units().iter().map(|unit| (unit.symbol, unit.symbol));
    let all: Vec<_> = symbols.chain(dimension.spellings().iter().copied()).collect();
    let near = name(wrong, all.iter().map(|(said, _)| *said))?;
    all.iter().find(|(said, _)| *said == near).map(|(_, symbol)| *symbol)
}

/// Where a table, or the nearest one around it, is written.
pub(super) fn nearest_table(layer: &Layer, table: &str, start: Place) -> Place {
    let mut table = table;
    while !table.is_empty() {
        if let Some(mark) = layer.tables.get(table) {
            return mark.place;
        }
        table = parent(table);
    }
    start
}

/// Where the first key is written that a layer changes.
pub(super) fn changed(layer: &Layer, start: Place) -> Place {
    layer
        .entries
        .values()
        .filter_map(Entry::place)
        .min_by_key(|at| (at.file, at.start))
        .unwrap_or(start)
}
