//! Defaults: what holds where nothing is written.

use std::collections::BTreeMap;

use study::Law;
use units::Dimension;

use crate::draw::ANY;
use crate::entry::{Entry, FIXED_BLADE, Layer, Origin, Value};
use crate::schema::{EXCLUSIVE, Fallback, Id, KEYS, Kind, NEEDS, TABLES, Usual, inside, last, si};
use crate::written::{any_clock, quoted};

/// Every key in use with its value.
pub(crate) type Entries = BTreeMap<Id, Entry>;

/// A build, every default filled in.
#[derive(Debug, Clone)]
pub(crate) struct Settled {
    /// The name, if builds are listed.
    pub(crate) name: Option<String>,
    /// What was written.
    pub(crate) layer: Layer,
    /// What holds.
    pub(crate) entries: Entries,
}

/// Whether a key of a build means anything, given what was written.
pub(crate) fn in_use(layer: &Layer, id: Id) -> bool {
    unused_because(layer, id).is_none()
}

/// Why a key of a build means nothing.
pub(crate) fn unused_because(layer: &Layer, id: Id) -> Option<String> {
    let path = id.path();
    let absent = TABLES
        .iter()
        .filter(|table| table.optional && inside(path, table.path))
        .find(|table| layer.tables.get(table.path).is_none_or(|mark| mark.none));
    if let Some(table) = absent {
        return Some(format!("there is no [{}]", table.path));
    }
    if inside(path, "arrow.point.blades") && choice(layer, Id::PointShape) != FIXED_BLADE {
        return Some("the point has no blades".to_owned());
    }
    let rival = EXCLUSIVE.iter().find_map(|(left, right, _)| {
        let rivals = if left.contains(&id) {
            right
        } else if right.contains(&id) {
            left
        } else {
            return None;
        };
        rivals.iter().find(|rival| layer.entries.contains_key(rival))
    });
    if let Some(rival) = rival.filter(|_| !layer.entries.contains_key(&id)) {
        return Some(format!("{} is given instead", rival.path()));
    }
    let need = NEEDS.iter().find(|(key, _)| *key == id).map(|(_, need)| *need);
    need.filter(|need| !layer.entries.contains_key(need))
        .map(|need| format!("{} is not given", need.path()))
}

/// The word of a choice, or its default.
pub(crate) fn choice(layer: &Layer, id: Id) -> &str {
    let given = layer.entries.get(&id).and_then(Entry::text);
    given.unwrap_or(match &id.key().fallback {
        Fallback::Is { usual, .. } => usual.text,
        _ => "",
    })
}

/// Fills a build's defaults in. Keys that follow others stay out.
pub(crate) fn fill(layer: &Layer, ids: impl Iterator<Item = Id>) -> Entries {
    let mut entries: Entries = ids
        .filter_map(|id| {
            let given = layer.entries.get(&id).cloned();
            given.or_else(|| default(layer, id)).map(|entry| (id, entry))
        })
        .collect();
    scatter_clocks(&mut entries);
    entries
}

/// The default of a key, if it has one of its own.
fn default(layer: &Layer, id: Id) -> Option<Entry> {
    let (Usual { text, doubt }, source) = match &id.key().fallback {
        Fallback::Is { usual, source } => (*usual, *source),
        Fallback::By { choice: of, cases, source } => {
            let word = choice(layer, *of);
            let (_, usual) = cases.iter().find(|(w, _)| *w == word || w.is_empty())?;
            (*usual, *source)
        }
        Fallback::Required | Fallback::Absent | Fallback::Times { .. } => return None,
    };
    let (value, written) = match &id.key().kind {
        Kind::Number(number) => {
            let value = si(number.dimension, text);
            match doubt.filter(|_| !moot(layer, id)) {
                Some((low, high)) => {
                    let ends = (si(number.dimension, low), si(number.dimension, high));
                    let written = format!(
                        "{{ value = {}, low = {}, high = {} }}",
                        toml(text),
                        toml(low),
                        toml(high)
                    );
                    (Value::Doubtful { value, low: ends.0, high: ends.1 }, written)
                }
                None => (Value::Fixed(value), toml(text)),
            }
        }
        Kind::Quantity { dimension, .. } => (Value::Fixed(si(*dimension, text)), toml(text)),
        Kind::Lengths { .. } => {
            let texts: Vec<&str> = text.split(", ").collect();
            let written: Vec<String> = texts.iter().map(|text| toml(text)).collect();
            let values = texts.iter().map(|text| si(Dimension::Length, text)).collect();
            (Value::Lengths(values), format!("[{}]", written.join(", ")))
        }
        Kind::Whole { .. } => (Value::Whole(text.parse().ok()?), text.to_owned()),
        Kind::Flag => (Value::Flag(text == "true"), text.to_owned()),
        Kind::Choice(_) | Kind::Text | Kind::SweepKey | Kind::SweepValue | Kind::SweepValues => {
            (Value::Text(text.to_owned()), quoted(text))
        }
    };
    Some(Entry { value, written, origin: Origin::Default(source) })
}

/// Whether a doubt no longer matters: drag is given, not built up.
fn moot(layer: &Layer, id: Id) -> bool {
    let given = |id: Id| layer.entries.contains_key(&id);
    matches!(id, Id::Turbulence | Id::NockDrag)
        && (given(Id::GivenDrag) || given(Id::GivenDeceleration))
}

/// A Rayleigh size has no preferred side, so its clock is anywhere unless
/// written.
fn scatter_clocks(entries: &mut Entries) {
    let clocks: Vec<_> = entries
        .iter()
        .filter_map(|(id, entry)| match entry.value {
            Value::Drawn { law: Law::Rayleigh { .. }, per } => {
                let clock = KEYS
                    .iter()
                    .find(|key| key.id.table() == id.table() && last(key.path) == "clock")?;
                Some((clock.id, per))
            }
            _ => None,
        })
        .collect();
    for (clock, per) in clocks {
        if let Some(entry) = entries.get_mut(&clock)
            && matches!(entry.origin, Origin::Default(_))
        {
            entry.value = Value::Drawn { law: ANY, per };
            entry.written = any_clock(per);
            entry.origin = Origin::Default("defined: a Rayleigh size has no preferred side");
        }
    }
}

/// A default as TOML: bare numbers bare, the rest quoted.
fn toml(text: &str) -> String {
    if text.parse::<f64>().is_ok() { text.to_owned() } else { quoted(text) }
}
