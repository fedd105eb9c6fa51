//! What was probably meant.

use units::Dimension;

use crate::entry::{Entry, Layer};
use crate::schema::{KEYS, Kind, TABLES, last, parent};
use crate::source::Place;

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

/// Keys and tables of this name anywhere, in full.
pub(super) fn elsewhere(name: &str) -> Vec<String> {
    let keys = KEYS.iter().map(|key| key.path);
    let tables = TABLES.iter().map(|table| table.path);
    keys.chain(tables).filter(|path| last(path) == name).map(str::to_owned).collect()
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
