use std::collections::BTreeMap;
use std::sync::Arc;

use study::{Distribution, Per};

use crate::schema::{EXCLUSIVE, Id, NEEDS, ONLY_WITH, inside};
use crate::source::Place;

/// What was read for one key.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Value {
    /// Something was written, but it is wrong and has been reported.
    Bad,
    /// A number, SI.
    Fixed(f64),
    /// A number known only roughly, SI.
    Doubtful { value: f64, low: f64, high: f64 },
    /// A drawn number.
    Drawn { law: Distribution, per: Per },
    /// A word or text.
    Text(String),
    /// A whole number.
    Whole(u64),
    /// A yes or no.
    Flag(bool),
    /// Lengths, m.
    Lengths(Vec<f64>),
    /// Values of a sweep, not yet understood.
    Scalars(Vec<Scalar>),
    /// Dotted keys to vary, not yet looked up, each with its place if written.
    Names(Vec<(String, Option<Place>)>),
    /// Readings, SI.
    Rows(Vec<[f64; 2]>),
}

/// A text or bare number whose meaning another key decides.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Scalar {
    pub(crate) text: String,
    pub(crate) bare: bool,
    pub(crate) place: Place,
}

/// Where a value comes from.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Origin {
    /// A file.
    File(Place),
    /// The table's default, with its source.
    Default(&'static str),
    /// Worked out from other keys, in the way stated.
    Derived(&'static str),
    /// The command line.
    CommandLine,
}

/// A key's value and how it would be written.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Entry {
    pub(crate) value: Value,
    /// As TOML.
    pub(crate) written: String,
    pub(crate) origin: Origin,
}

impl Entry {
    pub(crate) fn place(&self) -> Option<Place> {
        match self.origin {
            Origin::File(place) => Some(place),
            Origin::Default(_) | Origin::Derived(_) | Origin::CommandLine => None,
        }
    }

    pub(crate) fn text(&self) -> Option<&str> {
        match &self.value {
            Value::Text(text) => Some(text),
            _ => None,
        }
    }

    pub(crate) fn rows(&self) -> Option<&[[f64; 2]]> {
        match &self.value {
            Value::Rows(rows) => Some(rows),
            _ => None,
        }
    }
}

/// How a table was written.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Mark {
    pub(crate) place: Place,
    /// Written as `"none"`.
    pub(crate) none: bool,
}

/// What one file, part or build says.
#[derive(Debug, Clone, Default)]
pub(crate) struct Layer {
    pub(crate) entries: BTreeMap<Id, Entry>,
    pub(crate) tables: BTreeMap<&'static str, Mark>,
    /// The arrow whose mass stands behind a chronograph reading that names none.
    pub(crate) own_arrow: Option<Arc<Layer>>,
}

impl Layer {
    /// Adds what another layer says of other keys.
    pub(crate) fn absorb(&mut self, other: Self) {
        self.entries.extend(other.entries);
        self.tables.extend(other.tables);
    }

    /// This layer with another laid over it.
    pub(crate) fn under(mut self, over: Self) -> Self {
        for (table, _) in over.tables.iter().filter(|(_, mark)| mark.none) {
            self.drop_table(table);
        }
        let shape = over.entries.get(&Id::PointShape).and_then(Entry::text);
        if shape.is_some_and(|shape| shape != FIXED_BLADE) {
            self.drop_table("arrow.point.blades");
        }
        for (key, choice, words) in ONLY_WITH {
            let word = over.entries.get(choice).and_then(Entry::text);
            if word.is_some_and(|word| !words.contains(&word)) {
                self.drop_key(*key);
            }
        }
        for (left, right, _) in EXCLUSIVE {
            for (said, unsaid) in [(left, right), (right, left)] {
                if said.iter().any(|id| over.entries.contains_key(id)) {
                    unsaid.iter().for_each(|id| self.drop_key(*id));
                }
            }
        }
        self.absorb(over);
        self
    }

    /// This layer without what it says of a key.
    pub(crate) fn without(mut self, id: Id) -> Self {
        self.drop_key(id);
        self
    }

    fn drop_table(&mut self, table: &str) {
        self.entries.retain(|id, _| !inside(id.path(), table));
        self.tables.retain(|path, _| !inside(path, table));
    }

    fn drop_key(&mut self, id: Id) {
        self.entries.remove(&id);
        for (dependent, _) in NEEDS.iter().filter(|(_, need)| *need == id) {
            self.entries.remove(dependent);
        }
    }
}

/// The shape that has blades.
pub(crate) const FIXED_BLADE: &str = "fixed-blade";
