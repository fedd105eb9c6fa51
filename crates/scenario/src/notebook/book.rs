//! The kinds of notebook and their columns.

use units::Dimension::{self, Angle, Length, Mass};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Kind {
    /// A quantity between two ends (SI), and the units of a new notebook:
    /// archery, metric.
    Quantity { dimension: Dimension, low: f64, high: f64, units: [&'static str; 2] },
    /// A whole number up to this.
    Whole { high: u32 },
    /// Any text.
    Text,
    /// One of some words.
    Word(&'static [&'static str]),
}

/// A column.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Column {
    pub(crate) name: &'static str,
    /// Other names it goes by.
    pub(crate) also: &'static [&'static str],
    pub(crate) kind: Kind,
    /// Whether it must be there, with no cell blank.
    pub(crate) needed: bool,
}

/// A kind of notebook.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Book {
    /// Shafts or arrows, one to a row.
    Batch,
    /// End faces, one reading to a row.
    Faces,
    /// Run-out along shafts, one reading to a row.
    Profile,
    /// Shots with nocks turned, one to a row.
    Shots,
}

const fn quantity(dimension: Dimension, low: f64, high: f64, units: [&'static str; 2]) -> Kind {
    Kind::Quantity { dimension, low, high, units }
}

const PART: [&str; 2] = ["in", "mm"];
/// Chosen: any arrow there is.
const LONG: Kind = quantity(Length, 0.0, 2.0, PART);
/// Chosen: no gauge on a bench reads more.
const GAUGE: Kind = quantity(Length, 0.0, 0.01, PART);
/// An indicator may stand anywhere.
const INDICATOR: Kind = quantity(Length, -0.05, 0.05, PART);
const CLOCK: Kind = quantity(Angle, -13.0, 13.0, ["deg", "deg"]);

const fn need(name: &'static str, also: &'static [&'static str], kind: Kind) -> Column {
    Column { name, also, kind, needed: true }
}

const fn may(name: &'static str, also: &'static [&'static str], kind: Kind) -> Column {
    Column { name, also, kind, needed: false }
}

const NAMES: &[&str] = &["shaft", "number", "no", "no.", "id", "label"];

const BATCH: &[Column] = &[
    need("arrow", &["name", "shaft", "number", "no", "no.", "id", "label"], Kind::Text),
    may("mass", &["weight"], quantity(Mass, 1e-3, 0.5, ["gr", "g"])),
    may("balance", &["balance point"], LONG),
    may("spine", &["deflection", "static spine"], quantity(Length, 5e-4, 0.25, PART)),
    may("stiff side", &["spine clock", "stiff clock"], CLOCK),
    may("length", &["arrow length"], quantity(Length, 0.1, 2.0, PART)),
    may("run-out", &["runout", "tir", "straightness"], GAUGE),
    may("run-out high", &["run-out clock", "runout clock", "runout high"], CLOCK),
    may("run-out span", &["span"], quantity(Length, 0.1, 2.0, PART)),
    may("tip wobble", &["wobble", "tip run-out", "tip runout"], GAUGE),
    may("tip high", &["wobble clock", "tip clock"], CLOCK),
    may("nock wobble", &["nock run-out", "groove wobble"], GAUGE),
    may("nock high", &["nock clock"], CLOCK),
    may("note", &["notes", "remark", "remarks"], Kind::Text),
];

pub(crate) const PLACES: &[&str] = &["front", "insert", "rear", "point", "nock"];
pub(crate) const GAUGES: &[&str] = &["leaf", "light", "dial", "wobble", "strokes"];

const FACES: &[Column] = &[
    need("arrow", &["name", "shaft", "number", "no", "no.", "id", "label"], Kind::Text),
    need("where", &["end", "face"], Kind::Word(PLACES)),
    may("stage", &["when"], Kind::Text),
    need("gauge", &["how", "method"], Kind::Word(GAUGES)),
    may("reading", &["gap", "tir", "total"], GAUGE),
    may("step", &["resolution"], quantity(Length, 0.0, 1e-3, PART)),
    may("across", &["diameter"], quantity(Length, 5e-4, 0.05, PART)),
    may("radius", &[], quantity(Length, 2e-4, 0.05, PART)),
    may("ahead", &["seat to tip"], quantity(Length, 1e-3, 0.5, PART)),
    may("light", &["light seen"], Kind::Word(&["yes", "no"])),
    may("refused", &["leaf that does not go"], GAUGE),
    may("count", &["strokes"], Kind::Whole { high: 10_000 }),
    may("depth", &["depth of a stroke"], quantity(Length, 0.0, 1e-3, PART)),
    may("depth give", &["depth range"], quantity(Length, 0.0, 1e-3, PART)),
    may("note", &["notes", "remark", "remarks"], Kind::Text),
];

const PROFILE: &[Column] = &[
    need("shaft", &["arrow", "name", "number", "no", "no.", "id", "label"], Kind::Text),
    need("station", &["position", "place"], LONG),
    may("clock", &["clock position"], CLOCK),
    may("reading", &["indicator", "dial"], INDICATOR),
    may("run-out", &["runout", "tir", "total"], GAUGE),
    may("high", &["run-out high", "high side"], CLOCK),
    may("stock", &["shaft length", "length"], quantity(Length, 0.05, 2.0, PART)),
    may("note", &["notes", "remark", "remarks"], Kind::Text),
];

const SHOTS: &[Column] = &[
    need("arrow", NAMES, Kind::Text),
    need("turn", &["nock turn", "nock"], CLOCK),
    need("left", &[], quantity(Length, -5.0, 5.0, ["in", "cm"])),
    need("up", &["high"], quantity(Length, -5.0, 5.0, ["in", "cm"])),
    may("note", &["notes", "remark", "remarks"], Kind::Text),
];

impl Book {
    pub(crate) fn columns(self) -> &'static [Column] {
        match self {
            Self::Batch => BATCH,
            Self::Faces => FACES,
            Self::Profile => PROFILE,
            Self::Shots => SHOTS,
        }
    }

    /// The names of its columns, for messages.
    pub(crate) fn names(self) -> String {
        let names: Vec<&str> = self.columns().iter().map(|column| column.name).collect();
        names.join(", ")
    }

    pub(crate) fn find(self, name: &str) -> Option<usize> {
        let plain = plain(name);
        self.columns().iter().position(|c| {
            self::plain(c.name) == plain || c.also.iter().any(|a| self::plain(a) == plain)
        })
    }
}

/// A name without case, hyphens and spare blanks.
pub(crate) fn plain(name: &str) -> String {
    let spaced: String =
        name.chars().map(|c| if matches!(c, '-' | '_') { ' ' } else { c }).collect();
    let words: Vec<String> = spaced.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}
