//! Scenarios and tables read, their mistakes told.

use std::path::Path;

use scenario::{Report, Scenario};

use crate::{PageError, Wrong};

/// Reads a scenario; its mistakes belong to no field.
pub(crate) fn read(path: &Path, files: &scenario::Files<'_>) -> Result<Scenario, PageError> {
    scenario::read(path, files).map_err(|report| told(&report))
}

/// The mistakes of a file, with their places.
pub(crate) fn told(report: &Report) -> PageError {
    let text = |problem| {
        let at = report.position(problem);
        let at = at.map_or_else(String::new, |(file, line, _)| format!("{file}:{line}: "));
        format!("{at}{}", problem.error)
    };
    let mut all: Vec<String> = report.problems().iter().map(text).collect();
    if report.more() > 0 {
        all.push(format!("{} more mistakes are not shown", report.more()));
    }
    PageError::Wrong(all.into_iter().map(|text| Wrong { field: None, text }).collect())
}
