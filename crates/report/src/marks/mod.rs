//! Sight marks as people read them: words, tables, pictures, and a page.

mod csv;
mod json;
mod page;
mod say;
mod tables;
mod text;

use study::SightMarks;
use units::Style;

use crate::plots::{self, Plot};
use crate::{File, Provenance, ReportError};
pub use json::marks_json;
pub use text::marks_text;

/// Sight marks and where they come from.
#[derive(Debug, Clone, Copy)]
pub struct MarksReport<'a> {
    /// Title of the scenario.
    pub title: &'a str,
    /// Name of the build; none where there is only one.
    pub build: Option<&'a str>,
    /// The marks.
    pub marks: &'a SightMarks,
    /// Where they come from.
    pub provenance: &'a Provenance,
    /// Tape and cards; the page shows those that are SVG.
    pub prints: &'a [File],
}

/// A print as a picture, if it is one.
fn print(file: &File) -> Option<Plot> {
    let (_, "svg") = file.name.rsplit_once('.')? else { return None };
    let svg = String::from_utf8(file.bytes.clone()).ok()?;
    let caption = "Smaller than it prints: clothyard tape makes it at true scale, as PDF.";
    Some(Plot { name: file.name.clone(), caption: caption.to_owned(), svg })
}

/// Every file of the report: `report.html`, the plots as SVG, the tables as
/// CSV, `marks.json` and the resolved `scenario.toml`.
///
/// # Errors
/// As [`marks_json`]; and [`ReportError::Plot`] where a plot cannot be drawn.
pub fn marks_files(report: &MarksReport, style: Style) -> Result<Vec<File>, ReportError> {
    let value = marks_json(report)?;
    let mut plots = plots::drawn(plots::marks::all(report.marks, style))?;
    plots.extend(report.prints.iter().filter_map(print));
    let page = page::page(report, &plots, style);
    let mut files = vec![File::new("report.html", page)];
    files.extend(plots.into_iter().map(|plot| File::new(plot.name, plot.svg)));
    let tables = csv::all(report.marks, style);
    files.extend(tables.into_iter().map(|(name, text)| File::new(name, text)));
    files.push(File::new("marks.json", format!("{value:#}\n")));
    files.push(File::new("scenario.toml", report.provenance.scenario.clone()));
    Ok(files)
}

/// The table of marks as CSV.
///
/// # Errors
/// As [`marks_json`].
pub fn marks_csv(report: &MarksReport, style: Style) -> Result<String, ReportError> {
    marks_json(report)?;
    Ok(csv::rows(report.marks, style))
}

/// The heading of a report: the title, with the build where there are several.
fn heading(report: &MarksReport) -> String {
    report.build.map_or_else(|| report.title.to_owned(), |name| format!("{}: {name}", report.title))
}

/// A place on the sight, mm; sights are made in millimetres the world over.
fn mm(si: f64) -> String {
    let text = format!("{:.2}", 1e3 * si);
    // A rounded negative zero reads as a mistake.
    if text == "-0.00" { "0.00".to_owned() } else { text }
}
