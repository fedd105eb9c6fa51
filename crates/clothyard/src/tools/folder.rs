//! Jobs and trials in the folder that the page was started in.

use std::fs;
use std::path::{Path, PathBuf};

/// Most folders looked into. Chosen: a shop's jobs of several years.
const MOST: usize = 500;
/// What says that a folder is a job's or a trial's, and what nobody looks into before the
/// last arrow of a trial is shot.
const MARKS: [&str; 2] = ["job.csv", "plan.csv"];
const SEALED: &str = "key.csv";

/// The folder of a plain name, which leads nowhere else.
pub(super) fn plain(root: &Path, name: &str) -> Result<PathBuf, String> {
    if !sound(name) {
        return Err(format!(
            "error: \"{name}\" cannot be the name of a folder here\n  hint: letters, digits, \
             space, dot, dash and underscore, beginning with a letter or digit, such as tansy, \
             and no name of a device such as con or nul"
        ));
    }
    let path = root.join(name);
    if inside(root, &path) {
        return Ok(path);
    }
    Err(format!(
        "error: \"{name}\" leads out of the folder that the page was started in\n  hint: name a \
         folder that is in it, or use the command line"
    ))
}

fn sound(name: &str) -> bool {
    let letters = |letter: char| letter.is_ascii_alphanumeric() || " ._-".contains(letter);
    let begins = name.starts_with(|letter: char| letter.is_ascii_alphanumeric());
    begins
        && !page::device(name)
        && name.chars().all(letters)
        && name.len() <= 60
        && !name.ends_with(['.', ' '])
}

/// Whether a path is not there yet, or is no link.
fn inside(root: &Path, path: &Path) -> bool {
    match fs::symlink_metadata(path) {
        Ok(_) => fs::canonicalize(path).is_ok_and(|real| real.starts_with(root)),
        Err(_) => true,
    }
}

/// The tables of every job and trial, by folder and name, such as `tansy/arrows.csv`.
pub(super) fn tables(root: &Path) -> Vec<String> {
    names(root)
        .into_iter()
        .filter(|name| sound(name) && root.join(name).is_dir() && inside(root, &root.join(name)))
        .take(MOST)
        .flat_map(|folder| {
            let files = names(&root.join(&folder));
            let kept = MARKS.iter().any(|mark| files.iter().any(|file| file == mark));
            let tables = files
                .into_iter()
                .filter(move |file| kept && sound(file) && table(file) && file != SEALED);
            tables.map(move |file| format!("{folder}/{file}")).collect::<Vec<_>>()
        })
        .collect()
}

fn table(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|ending| ending == "csv")
}

fn names(folder: &Path) -> Vec<String> {
    let Ok(entries) = fs::read_dir(folder) else { return Vec::new() };
    let mut names: Vec<String> =
        entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
    names.sort();
    names
}
