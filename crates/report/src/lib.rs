//! An answer as people read it: one plain sentence, tables, CSV, JSON, SVG
//! plots, and a page that holds them all in one file.
//!
//! Nothing here computes flight. Numbers come from [`study::Answer`] in SI and
//! leave through [`units::Role`], so that every one carries its unit. Every
//! function refuses an answer that holds a number that is not finite. Output
//! depends on the answer alone: no clock, no machine, no chance.

mod csv;
mod error;
mod flown;
mod html;
mod json;
mod json_pairs;
mod live;
mod markup;
mod pin;
mod plots;
mod prose;
mod push;
mod show;
mod single;
mod table;
mod tables;
mod text;
mod trade;
mod tree;
mod tune;
mod words;

use study::Answer;
use units::Style;

pub use error::ReportError;
pub use flown::{flight_csv, flight_json, flight_table};
pub use json::json;
pub use live::{Live, Picture, cautions, live, notes, owner_name, style_sheet};
pub use pin::{pin_json, pin_seen, pin_text};
pub use push::{PushReport, push_files, push_json, push_text};
pub use single::{arrow_json, arrow_text};
pub use text::terminal;
pub use words::headline;

/// Where an answer comes from. No time and no machine, so that the same
/// scenario gives the same bytes anywhere.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Provenance {
    /// Version of the program.
    pub version: String,
    /// The resolved scenario, TOML.
    pub scenario: String,
    /// Name of the scenario file.
    pub source_name: String,
    /// Seed of all chances.
    pub seed: u64,
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
