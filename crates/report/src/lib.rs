//! An answer as people read it: one plain sentence, tables, CSV, JSON, SVG
//! plots, and a page that holds them all in one file.
//!
//! Nothing here computes flight. Numbers come from [`study::Answer`] in SI and
//! leave through [`units::Role`], so that every one carries its unit. Every
//! function refuses an answer that holds a number that is not finite. Output
//! depends on the answer alone: no clock, no machine, no chance.

mod answers;
mod csv;
mod document;
mod error;
mod figure;
mod fit;
mod html;
mod json;
mod marks;
mod markup;
mod plots;
mod prose;
mod push;
mod sheet;
mod show;
mod table;
mod tape;
mod tree;
mod verdict;
mod words;
mod workbench;

use study::Owner;

pub use answers::{Live, Picture, answer, arrow, flight, live, pin, pin_seen};
pub use document::{Cell, Column, Document, Kind, Part, Table};
pub use error::ReportError;
pub use fit::{fit_json, fit_seen, fit_text};
pub use marks::{MarksReport, marks_csv, marks_files, marks_json, marks_text};
pub use push::{PushReport, push_files, push_json, push_text};
pub use sheet::Paper;
pub use tape::{
    About, Card, Finest, Ink, Look, Strip, Tape, TapeMark, card_files, cards, tape, tape_files,
};
pub use verdict::{ShotGroup, VerdictReport, verdict_files, verdict_json, verdict_text};
pub use workbench::{BenchAnswer, BenchReport, bench_files, bench_json, bench_text};

/// Where an answer comes from. No time and no machine, so that the same
/// scenario gives the same bytes anywhere.
#[derive(Debug, Clone, Default, PartialEq, Eq, serde::Serialize)]
pub struct Provenance {
    /// Version of the program.
    pub version: String,
    /// Name of the scenario file.
    #[serde(rename = "source")]
    pub source_name: String,
    /// Seed of all chances.
    pub seed: u64,
    /// The resolved scenario, TOML.
    pub scenario: String,
}

/// A file of the report, to be written by the caller.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct File {
    /// Name, without a folder.
    pub name: String,
    /// Contents.
    pub bytes: Vec<u8>,
}

/// What to mind before shooting.
pub fn cautions() -> &'static [&'static str] {
    &prose::CAUTIONS
}

/// Whose faults, in plain words.
pub fn owner_name(owner: Owner) -> &'static str {
    words::owner(owner)
}

/// The colours and type of the report, for pages that show its pictures.
pub fn style_sheet() -> &'static str {
    markup::STYLE
}

impl File {
    fn new(name: impl Into<String>, text: String) -> Self {
        Self { name: name.into(), bytes: text.into_bytes() }
    }
}
