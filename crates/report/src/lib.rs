//! An answer as people read it: one plain sentence, tables, CSV, JSON, SVG
//! plots, and a page that holds them all in one file; sight tapes and cards to
//! print. How a picture is drawn and a print laid out is left to [`draw`] and
//! `print`.
//!
//! Nothing here computes flight. Numbers come from [`study::Answer`] in SI and
//! leave through [`units::Role`], so that every one carries its unit. Every
//! function refuses an answer that holds a number that is not finite. Output
//! depends on the answer alone: no clock, no machine, no chance.
//!
//! ```
//! use study::{ShotGroup, TwoGroups};
//! use target::PowerTest;
//! use units::Style;
//!
//! // A dozen arrows each, 53 mm and 41 mm from their centre on average.
//! let groups = [("old", 0.053), ("new", 0.041)];
//! let [old, new] = groups.map(|(name, radius)| ShotGroup::of_numbers(name, 12, radius));
//! let judged = TwoGroups::of([old?, new?], PowerTest::default())?;
//! let document = report::verdict(&judged, "0.1.0", Style::Metric)?;
//! assert!(document.lead().starts_with("These shots do not show which groups tighter"));
//! assert!(document.csv("verdict").is_some_and(|text| text.contains("mean radius [cm]")));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod answers;
mod document;
mod error;
pub mod gate;
mod job;
mod markup;
mod measure;
mod plots;
mod prose;
mod safety;
mod show;
mod tape;
mod trial;
mod words;

use study::Owner;

pub use answers::{
    BenchAnswer, Live, LiveFigure, Picture, Subject, answer, arrow, bench, fit, fit_seen, flight,
    live, marks, may_be, pin, pin_seen, push, trial_judged, trial_size, verdict,
};
pub use document::{Cell, Column, Document, Kind, Known, Part, Table, minded};
pub use error::ReportError;
pub use job::{ArrowSizes, ComputedArrow, JobStory, job, job_files};
pub use safety::{CautionText, FIRST, Job, cautions, standing};
pub use tape::{About, OwnScale, card_files, card_files_on, tape_files};
pub use trial::trial_files;

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
