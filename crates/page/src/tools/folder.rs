//! Jobs and trials of the folder that the page was started in: which there are, their tables,
//! and what one does with them next.

use std::path::Path;

use maud::{Markup, html};

use super::tool::{KEPT, PREFIX, Tool, ToolField};
use crate::state::encoded;
use crate::{PageError, Settings};

/// A table of the folder, which is one of those that are there.
pub(super) fn read(settings: &Settings, name: &str) -> Result<String, PageError> {
    let shown: String = name.chars().take(80).collect();
    if !settings.tools.tables().iter().any(|table| table == name) {
        return Err(PageError::NoFile { name: shown });
    }
    settings.shelf.read(Path::new(name)).map_err(|_| PageError::NoFile { name: shown })
}

/// The folders that a command may be asked of; none where it makes a new one.
pub(super) fn folders<'a>(tool: &Tool, tables: &'a [String]) -> Option<Vec<&'a str>> {
    let mark = match tool.name.as_str() {
        "job note" | "job show" | "job print" => "/job.csv",
        "trial judge" => "/plan.csv",
        _ => return None,
    };
    Some(tables.iter().filter_map(|table| table.strip_suffix(mark)).collect())
}

/// A list of those, to choose one.
pub(super) fn choice(id: &str, name: &str, label: &str, all: &[&str], given: &str) -> Markup {
    html! {
        div.control {
            label for=(id) { (label) }
            select id=(id) name=(name) {
                @for folder in all { option value=(folder) selected[*folder == given] { (folder) } }
                @if !given.is_empty() && !all.contains(&given) {
                    option value=(given) selected { (given) }
                }
            }
        }
    }
}

/// Tables of jobs that may stand in place of one that is pasted.
pub(super) fn kept(field: &ToolField, tables: &[String], given: &str) -> Markup {
    let own = ["/job.csv", "/plan.csv"];
    let all: Vec<&String> =
        tables.iter().filter(|table| !own.iter().any(|mark| table.ends_with(mark))).collect();
    let id = format!("f-{}-kept", field.id);
    html! {
        @if !all.is_empty() {
            div.control {
                label for=(id) { "Or, with nothing above, one of your jobs" }
                select id=(id) name=(format!("{PREFIX}{}.{KEPT}", field.id)) {
                    option value="" { "none" }
                    @for table in all { option value=(table) selected[table == given] { (table) } }
                }
            }
        }
    }
}

/// What is done with a job or a trial, by the table that it takes: the command's address, the
/// field, and the words.
const AFTER: [(&str, &str, &str, &str); 11] = [
    ("job.csv", "readings", "folder", "Fill in readings, an arrow a row"),
    ("job.csv", "job-note", "folder", "Note what was done"),
    ("job.csv", "job-show", "folder", "Where each arrow stands"),
    ("job.csv", "job-print", "folder", "Print labels and batch sheet"),
    ("profile.csv", "bench-cut", "readings.kept", "Where to cut them"),
    ("three.csv", "bench-cut", "three.kept", "Where to cut them"),
    ("faces.csv", "bench-square", "readings.kept", "How square they must be"),
    ("arrows.csv", "bench-sort", "batch.kept", "Sort them into sets"),
    ("arrows.csv", "bench-index", "batch.kept", "Turn their nocks"),
    ("parts.csv", "bench-build", "parts.kept", "Pair shafts and parts"),
    ("plan.csv", "trial-judge", "folder", "Judge what was shot"),
];

/// Links to what comes next in a folder, but for what was just done.
pub(super) fn next(tool: &Tool, folder: &str, tables: &[String]) -> Markup {
    let there = |file: &str| tables.iter().any(|table| *table == format!("{folder}/{file}"));
    let links: Vec<(String, &str)> = AFTER
        .iter()
        .filter(|(file, path, ..)| there(file) && *path != tool.path())
        .map(|(file, path, field, words)| {
            let whole = format!("{folder}/{file}");
            let value = encoded(if *field == "folder" { folder } else { &whole });
            (format!("/tools/{path}?{PREFIX}{field}={value}"), *words)
        })
        .collect();
    html! {
        @if !links.is_empty() {
            nav.next aria-label=(format!("Next, in {folder}")) {
                "Next, in " (folder) ": "
                @for (href, words) in links { a href=(href) { (words) } " " }
            }
        }
    }
}
