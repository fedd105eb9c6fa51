//! Bench answers as people read them: faces, cut lists, sets, nock turns.

mod cut;
mod index;
mod json;
mod part;
mod sort;
mod square;
mod stock;
mod words;

use serde_json::Value;
use study::workbench::{Cutting, Grade, Indexing, Sorting, Squareness, StockGain};
use units::Style;
use workbench::Job;

use crate::plots::{self, Plot};
use crate::{File, Provenance, ReportError};
use part::Story;
pub(crate) use words::{trait_word, way_word, where_word};

/// What was asked at the bench, and found.
#[derive(Debug, Clone, Copy)]
pub enum BenchAnswer<'a> {
    /// End faces.
    Square(&'a Squareness),
    /// Where to cut shafts that were read along their length.
    Cut(&'a Cutting),
    /// What cutting gains on shafts that were not.
    Stock(&'a StockGain, &'a Grade, &'a Job),
    /// Which arrows to keep together.
    Sort(&'a Sorting),
    /// Which way to turn nocks.
    Index(&'a Indexing),
}

/// A bench answer and where it comes from.
#[derive(Debug, Clone, Copy)]
pub struct BenchReport<'a> {
    /// Title of the scenario.
    pub title: &'a str,
    /// What was found.
    pub answer: BenchAnswer<'a>,
    /// Where it comes from.
    pub provenance: &'a Provenance,
    /// Names and texts of the notebooks read.
    pub notebooks: &'a [(String, String)],
}

/// Every file of the report: `report.html`, the plots as SVG, the tables as
/// CSV, `result.json` and the resolved `scenario.toml`.
///
/// # Errors
/// As [`bench_json`]; and [`ReportError::Plot`] where a plot cannot be drawn.
pub fn bench_files(report: &BenchReport, style: Style) -> Result<Vec<File>, ReportError> {
    let value = bench_json(report)?;
    let plots = plots(report, style)?;
    let story = story(report, style);
    let page = story.page(report, &plots);
    let mut files = vec![File::new("report.html", page)];
    files.extend(plots.into_iter().map(|plot| File::new(plot.name, plot.svg)));
    files.extend(story.sheets.into_iter().map(|(name, text)| File::new(name, text)));
    files.push(File::new("result.json", format!("{value:#}\n")));
    files.push(File::new("scenario.toml", report.provenance.scenario.clone()));
    Ok(files)
}

/// The answer for a terminal of `width` characters.
///
/// # Errors
/// As [`bench_json`].
pub fn bench_text(report: &BenchReport, style: Style, width: usize) -> Result<String, ReportError> {
    bench_json(report)?;
    Ok(story(report, style).lines(report.title, width))
}

/// The answer as JSON, every number in SI with its unit.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number.
pub fn bench_json(report: &BenchReport) -> Result<Value, ReportError> {
    json::tree(report).write()
}

fn story(report: &BenchReport, style: Style) -> Story {
    match report.answer {
        BenchAnswer::Square(found) => square::story(found, style),
        BenchAnswer::Cut(found) => cut::story(found, style),
        BenchAnswer::Stock(found, grade, job) => stock::story(found, grade, job, style),
        BenchAnswer::Sort(found) => sort::story(found, style),
        BenchAnswer::Index(found) => index::story(found, style),
    }
}

fn plots(report: &BenchReport, style: Style) -> Result<Vec<Plot>, ReportError> {
    match report.answer {
        BenchAnswer::Square(_) | BenchAnswer::Stock(..) => Ok(Vec::new()),
        BenchAnswer::Cut(found) => found
            .shafts
            .iter()
            .enumerate()
            .map(|s| plots::workbench::profile(s, style).plot())
            .collect(),
        BenchAnswer::Sort(found) => Ok(vec![plots::workbench::strip(found, style).plot()?]),
        BenchAnswer::Index(found) => Ok(vec![plots::workbench::clocks(found).plot()?]),
    }
}
