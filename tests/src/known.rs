//! What every result document must say of its numbers.

use std::path::Path;

use serde_json::Value as Json;
use study::{Plan, Question};

use crate::program::path;

/// Tables that hold no answer: impacts as drawn, what was asked and read, and how
/// the outer points were drawn. What was measured has its error beside it.
pub const NO_ANSWER: [&str; 9] = [
    "impacts",
    "target",
    "stated",
    "doubts",
    "unknown",
    "measure-next",
    "evidence",
    "narrowed",
    "weights",
];

/// How many numbers of a document have a band, how many need none, and how many
/// lie outside their band and say so.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Counted {
    /// With a band.
    pub banded: usize,
    /// Certain.
    pub certain: usize,
    /// At the usual values, outside the band.
    pub usual: usize,
}

fn number(of: &Json) -> Option<f64> {
    of["value"].as_f64().or_else(|| of["each"].as_f64())
}

/// An end of a band; null is endless.
fn end(of: &Json, endless: f64) -> f64 {
    of.as_f64().unwrap_or(endless)
}

/// Walks every table of a `result.json` but `but`: each number with a unit has a
/// band or is certain, and lies in its band or says why not.
///
/// # Panics
/// When one does not; `of` says whose document it is.
pub fn walk(of: &str, json: &Json, but: &[&str]) -> Counted {
    let mut counted = Counted::default();
    let tables = json["tables"].as_object().into_iter().flatten();
    for (name, rows) in tables.filter(|(name, _)| !but.contains(&name.as_str())) {
        for row in rows.as_array().into_iter().flatten() {
            for (key, cell) in row.as_object().into_iter().flatten() {
                let told = ["value", "each", "more_than", "ends"];
                if !told.iter().any(|of| cell.get(of).is_some_and(|of| !of.is_string())) {
                    continue;
                }
                let (band, certain) = (cell.get("band"), cell.get("certain").is_some());
                assert!(band.is_some() != certain, "{of}: {name}: {key}: {cell} in {row}");
                counted.certain += usize::from(certain);
                let Some(band) = band else { continue };
                counted.banded += 1;
                let (low, high) = (end(&band[0], f64::INFINITY), end(&band[1], f64::INFINITY));
                assert!(low <= high, "{of}: {name}: {key}: {cell}");
                let Some(value) = number(cell) else { continue };
                let inside = low <= value && value <= high;
                let said = cell.get("at").is_some();
                assert!(inside != said, "{of}: {name}: {key}: {cell} in {row}");
                counted.usual += usize::from(said);
            }
        }
    }
    counted
}

/// The shipped scenarios by name, with so many flights to a group; shares take some
/// flights for each cause.
///
/// # Panics
/// Where one does not read.
#[expect(clippy::expect_used, reason = "they are shipped")]
pub fn plans(flights: usize) -> Vec<(String, Plan)> {
    let folder = std::fs::read_dir(path("scenarios")).expect("it is there");
    let mut files: Vec<std::path::PathBuf> = folder
        .map(|entry| entry.expect("it reads").path())
        .filter(|path| path.extension().is_some_and(|end| end == "toml"))
        .collect();
    files.sort();
    let plan = |file: std::path::PathBuf| {
        let name = file.file_stem().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
        let files = |path: &Path| std::fs::read_to_string(path);
        let Ok(scenario) = scenario::read(&file, &files) else { panic!("{name} does not read") };
        let mut plan = scenario.plan().expect("it asks something");
        let shares = matches!(plan.question, Question::Matters(_));
        (plan.flights, plan.stop) = (if shares { 3_000 } else { flights }, None);
        (name, plan)
    };
    files.into_iter().map(plan).collect()
}
