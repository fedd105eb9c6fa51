//! Reading what the user gave: the scenario, the units, the marks.

use std::path::Path;

use scenario::Scenario;
use units::{Length, Style};

use crate::failure::Failure;
use crate::source::{Family, Source};

/// Widest text to print, in characters.
pub(crate) const WIDTH: usize = 80;

pub(crate) fn scenario(file: &Path) -> Result<Scenario, Failure> {
    scenario::read(file, &|path| std::fs::read_to_string(path)).map_err(Failure::Scenario)
}

pub(crate) fn style(source: &Source, scenario: &Scenario) -> Style {
    match source.units {
        Some(Family::Archery) => Style::Archery,
        Some(Family::Metric) => Style::Metric,
        None => scenario.style().unwrap_or_default(),
    }
}

/// The marks of the command line, or the scenario's distances.
pub(crate) fn marks(given: &[String], scenario: &Scenario) -> Result<Vec<f64>, Failure> {
    if given.is_empty() {
        return Ok(scenario.distances().iter().map(|d| d.si()).collect());
    }
    let mut marks: Vec<f64> = Vec::with_capacity(given.len());
    for text in given {
        let length: Length =
            text.parse().map_err(|cause| Failure::Mark { text: text.trim().to_owned(), cause })?;
        if length.si() <= marks.last().copied().unwrap_or(0.0) {
            return Err(Failure::MarkOrder { given: text.trim().to_owned() });
        }
        marks.push(length.si());
    }
    Ok(marks)
}
