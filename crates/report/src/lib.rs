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
mod html;
mod json;
mod json_pairs;
mod live;
mod markup;
mod matters;
mod plots;
mod prose;
mod sheet;
mod show;
mod sides;
mod table;
mod tables;
mod tape;
mod text;
mod trade;
mod tree;
mod tune;
mod words;
mod worth;

use study::Answer;
use units::Style;

pub use answers::{BenchAnswer, Judged, ShotGroup, Subject, arrow, bench, fit, fit_seen, flight, marks, pin, pin_seen, push, verdict};
pub use document::{Cell, Column, Document, Kind, Part, Table};
pub use error::ReportError;
pub use json::json;
pub use live::{Live, Picture, cautions, live, notes, owner_name, style_sheet};
pub use sheet::Paper;
pub use tape::{
    About, Card, Finest, Ink, Look, Strip, Tape, TapeMark, card_files, cards, tape, tape_files,
};
pub use text::terminal;
pub use words::headline;

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

/// Every file of the report: `report.html`, the plots as SVG, the tables as
/// CSV, `result.json` and the resolved `scenario.toml`.
///
/// # Errors
/// As [`json`]; and [`ReportError::Plot`] where a plot cannot be drawn.
pub fn files(
    answer: &Answer,
    provenance: &Provenance,
    style: Style,
) -> Result<Vec<File>, ReportError> {
    if let Some(tuned) = &answer.tuned {
        return tune::files(answer, tuned, provenance, style);
    }
    if let Some(found) = &answer.matters {
        return matters::files(answer, found, provenance, style);
    }
    if let Some(found) = &answer.worth {
        return worth::files(answer, found, provenance, style);
    }
    let value = json(answer, provenance)?;
    let plots = plots::all(answer, style)?;
    let page = html::page(answer, provenance, &plots, style)?;
    let mut files = vec![File::new("report.html", page)];
    files.extend(plots.into_iter().map(|plot| File::new(plot.name, plot.svg)));
    files.extend(csv::all(answer, style).into_iter().map(|(name, text)| File::new(name, text)));
    files.push(File::new("result.json", format!("{value:#}\n")));
    files.push(File::new("scenario.toml", provenance.scenario.clone()));
    Ok(files)
}

impl File {
    fn new(name: impl Into<String>, text: String) -> Self {
        Self { name: name.into(), bytes: text.into_bytes() }
    }
}
