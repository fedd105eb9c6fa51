//! The one table that says what a scenario may hold. The reader, the range
//! checks, the suggestions, the resolved scenario, the JSON Schema and the key
//! reference all follow from it.

mod chance;
mod control;
mod evidence;
mod keys;
mod make;
mod plain_words;
mod steps;
mod tables;

use std::collections::HashMap;
use std::sync::LazyLock;

use study::Slot;
use units::{Dimension, parse_si};

pub(crate) use chance::Chance;
pub(crate) use control::Dial;
pub use control::{Form, Part, Slide};
pub(crate) use evidence::{
    EVIDENCE_AGAINST, EVIDENCE_AT, EVIDENCE_BUILD, EVIDENCE_ERROR, EVIDENCE_HELD, EVIDENCE_KEY,
    EVIDENCE_KEYS, EVIDENCE_KIND, EVIDENCE_KINDS, EVIDENCE_NAME, EVIDENCE_OWN, EVIDENCE_TEXTS,
    EVIDENCE_VALUE, EvidenceKey,
};
pub(crate) use keys::{COUNT, Id, KEYS};
pub(crate) use plain_words::{
    in_a_word, plain_choice, plain_word, plain_word_of, plain_words, said_so,
};
pub(crate) use steps::{STEP_COST, STEP_NAME, STEP_TIME, StepKey};
pub(crate) use tables::{EXCLUSIVE, NEEDS, ONLY_WITH, TABLES, Table};

/// One key: its place in the file, what it holds, its default, its meaning,
/// whose doing it is, and its control.
pub(crate) struct Key {
    pub(crate) id: Id,
    pub(crate) path: &'static str,
    pub(crate) kind: Kind,
    pub(crate) fallback: Fallback,
    pub(crate) doc: &'static str,
    /// What is true of the value where it is drawn.
    pub(crate) chance: Chance,
    /// Its control on the page.
    pub(crate) control: Option<Dial>,
    /// The key whose control moves this one too.
    pub(crate) along: Option<Id>,
    /// Whether it stands first in its room though it has no slider.
    pub(crate) first: bool,
}

impl Key {
    const fn row(
        id: Id,
        path: &'static str,
        kind: Kind,
        fallback: Fallback,
        doc: &'static str,
    ) -> Self {
        Self {
            id,
            path,
            kind,
            fallback,
            doc,
            chance: chance::ASKED,
            control: None,
            along: None,
            first: false,
        }
    }

    const fn by(mut self, chance: Chance) -> Self {
        self.chance = chance;
        self
    }

    const fn control(mut self, dial: Dial) -> Self {
        self.control = Some(dial);
        self
    }

    const fn first(mut self) -> Self {
        self.first = true;
        self
    }

    const fn along(mut self, other: Id) -> Self {
        self.along = Some(other);
        self
    }
}

/// What a key holds.
pub(crate) enum Kind {
    /// A number of the setup: may be fixed, drawn, swept or in doubt.
    Number(Number),
    /// A quantity that cannot be drawn.
    Quantity { dimension: Dimension, low: &'static str, high: &'static str },
    /// A list of rising lengths.
    Lengths { low: &'static str, high: &'static str },
    /// One of these words.
    Choice(&'static [&'static str]),
    /// A whole number.
    Whole { low: u64, high: u64 },
    /// True or false.
    Flag,
    /// Free text.
    Text,
    /// The dotted key of a sweep.
    SweepKey,
    /// A value of the swept key's own kind.
    SweepValue,
    /// A list of such values.
    SweepValues,
    /// A list of dotted keys to vary.
    SweepKeys,
    /// Texts, or one.
    Texts,
    /// Readings of two things each.
    Rows(&'static Rows),
}

/// Readings, each a small table of two quantities.
pub(crate) struct Rows {
    pub(crate) columns: [Column; 2],
    /// Fewest and most readings.
    pub(crate) least: usize,
    pub(crate) most: usize,
    /// Whether the first column must rise.
    pub(crate) rising: bool,
}

/// One quantity of a reading. Range ends are texts with units.
pub(crate) struct Column {
    pub(crate) name: &'static str,
    pub(crate) dimension: Dimension,
    pub(crate) low: &'static str,
    pub(crate) high: &'static str,
}

impl Column {
    /// The lowest and highest SI value.
    pub(crate) fn limits(&self) -> (f64, f64) {
        (si(self.dimension, self.low), si(self.dimension, self.high))
    }
}

/// A number of the setup. Range ends are texts with units.
pub(crate) struct Number {
    pub(crate) dimension: Dimension,
    pub(crate) low: &'static str,
    pub(crate) high: &'static str,
    /// Counts only whole things.
    pub(crate) whole: bool,
    /// A clock position: takes `"any"`.
    pub(crate) turn: bool,
    /// The size of a two-sided fault: may be Rayleigh.
    pub(crate) size: bool,
}

/// What holds when a key is not written.
pub(crate) enum Fallback {
    /// Nothing: the key must be written.
    Required,
    /// Nothing is used.
    Absent,
    /// A value.
    Is { usual: Usual, source: &'static str },
    /// A value for each word of a choice; an empty word stands for the rest.
    By { choice: Id, cases: &'static [(&'static str, Usual)], source: &'static str },
    /// As `By`, for an arrow to the left of the riser; the sign turns with
    /// `bow.rest.side`.
    Handed { choice: Id, cases: &'static [(&'static str, Usual)], source: &'static str },
    /// Another key's value, scaled.
    Times { base: Id, factor: f64, source: &'static str },
}

/// A default, as it would be written.
#[derive(Clone, Copy)]
pub(crate) struct Usual {
    pub(crate) text: &'static str,
    /// The stated range of a poorly known default.
    pub(crate) doubt: Option<(&'static str, &'static str)>,
}

impl Id {
    /// The key's row.
    pub(crate) fn key(self) -> &'static Key {
        &KEYS[self as usize]
    }

    /// The dotted path.
    pub(crate) fn path(self) -> &'static str {
        self.key().path
    }

    /// The number's row, if the key is a number of the setup.
    pub(crate) fn number(self) -> Option<&'static Number> {
        match &self.key().kind {
            Kind::Number(number) => Some(number),
            _ => None,
        }
    }

    /// The slot by which the study names this value.
    pub(crate) fn slot(self) -> Slot {
        Slot(self as usize)
    }

    /// Whether the key is part of a build.
    pub(crate) fn built(self) -> bool {
        matches!(find(self.table()), Some(Named::Table(table)) if table.in_build)
    }

    /// The path of the table the key stands in; empty for the top level.
    pub(crate) fn table(self) -> &'static str {
        parent(self.path())
    }
}

/// The part of a dotted path before its last name.
pub(crate) fn parent(path: &str) -> &str {
    path.rsplit_once('.').map_or("", |(parent, _)| parent)
}

/// The last name of a dotted path.
pub(crate) fn last(path: &str) -> &str {
    path.rsplit_once('.').map_or(path, |(_, last)| last)
}

/// Whether `path` is `table` or lies inside it.
pub(crate) fn inside(path: &str, table: &str) -> bool {
    path.strip_prefix(table).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
}

/// What a dotted path names.
#[derive(Clone, Copy)]
pub(crate) enum Named {
    Key(Id),
    Table(&'static Table),
}

/// Looks a dotted path up.
pub(crate) fn find(path: &str) -> Option<Named> {
    static NAMES: LazyLock<HashMap<&'static str, Named>> = LazyLock::new(|| {
        let keys = KEYS.iter().map(|key| (key.path, Named::Key(key.id)));
        let tables = TABLES.iter().map(|table| (table.path, Named::Table(table)));
        keys.chain(tables).collect()
    });
    NAMES.get(path).copied()
}

/// The names that may stand in a table, in the table's own order.
pub(crate) fn children(table: &str) -> Vec<&'static str> {
    let keys = KEYS.iter().map(|key| key.path);
    let tables = TABLES.iter().map(|table| table.path);
    keys.chain(tables).filter(|path| parent(path) == table).map(last).collect()
}

/// The lowest and highest SI value of every number; unused for other keys.
pub(crate) fn limits(id: Id) -> (f64, f64) {
    static LIMITS: LazyLock<Vec<(f64, f64)>> = LazyLock::new(|| {
        KEYS.iter()
            .map(|key| match &key.kind {
                Kind::Number(n) => (si(n.dimension, n.low), si(n.dimension, n.high)),
                Kind::Quantity { dimension, low, high } => {
                    (si(*dimension, low), si(*dimension, high))
                }
                Kind::Lengths { low, high } => {
                    (si(Dimension::Length, low), si(Dimension::Length, high))
                }
                _ => (f64::NEG_INFINITY, f64::INFINITY),
            })
            .collect()
    });
    LIMITS[id as usize]
}

/// A quantity text of the table itself, in SI.
pub(crate) fn si(dimension: Dimension, text: &str) -> f64 {
    match parse_si(dimension, text) {
        Ok(value) => value,
        Err(error) => unreachable!("the table's own quantities are well formed (tested): {error}"),
    }
}

/// A default that goes by the word of a choice.
const fn by(choice: Id, cases: &'static [(&'static str, Usual)], source: &'static str) -> Fallback {
    Fallback::By { choice, cases, source }
}

/// The same, mirrored for the other hand.
const fn handed(
    choice: Id,
    cases: &'static [(&'static str, Usual)],
    source: &'static str,
) -> Fallback {
    Fallback::Handed { choice, cases, source }
}

/// A default so many times another key.
const fn like(base: Id, factor: f64, source: &'static str) -> Fallback {
    Fallback::Times { base, factor, source }
}
