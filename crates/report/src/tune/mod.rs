//! A tuning answer as people read it.

mod csv;
pub(crate) mod json;
mod page;
pub(crate) mod say;
mod tables;
pub(crate) mod text;

use study::{Answer, Tuned};
use units::Style;

pub(crate) use say::headline;
pub(crate) use text::terminal;

use crate::{File, Provenance, ReportError, plots};

/// Every file of the report.
pub(crate) fn files(
    answer: &Answer,
    tuned: &Tuned,
    provenance: &Provenance,
    style: Style,
) -> Result<Vec<File>, ReportError> {
    let value = crate::json(answer, provenance)?;
    let plots = plots::drawn(plots::tune::all(tuned, style))?;
    let page = page::page(answer, tuned, provenance, &plots, style);
    let mut files = vec![File::new("report.html", page)];
    files.extend(plots.into_iter().map(|plot| File::new(plot.name, plot.svg)));
    files.extend(csv::all(tuned, style).into_iter().map(|(name, text)| File::new(name, text)));
    files.push(File::new("result.json", format!("{value:#}\n")));
    files.push(File::new("scenario.toml", provenance.scenario.clone()));
    Ok(files)
}
