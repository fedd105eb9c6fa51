//! Files.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use report::Document;
use scenario::measured::{Reader, Table};

use crate::failure::Failure;
use crate::{Stream, ask};

/// Where an answer is written: the folder named, or one named after the
/// scenario and what was `asked` of it.
///
/// # Errors
/// [`Failure::Exists`] when it is there already and may not be replaced.
pub(crate) fn folder(
    out: Option<&Path>,
    scenario: &Path,
    asked: &str,
    replace: bool,
) -> Result<PathBuf, Failure> {
    let usual = || {
        let stem = scenario.file_stem().unwrap_or("answer".as_ref()).to_string_lossy();
        Path::new("out").join(format!("{stem}{asked}"))
    };
    let path = out.map_or_else(usual, Path::to_owned);
    let may_use = !path.exists() || (replace && path.is_dir());
    if may_use { Ok(path) } else { Err(Failure::Exists { path, replace: true }) }
}

/// Prints a report that was written: as JSON, or as text with the place.
pub(crate) fn told(
    document: &Document,
    json: bool,
    folder: &Path,
    out: &mut Stream,
) -> Result<(), Failure> {
    if json {
        return out.print(&document.json()?);
    }
    let text = document.terminal(ask::WIDTH);
    out.print(&format!("{text}\nWritten to {}: open report.html\n", folder.display()))
}

/// Writes the files of a report into a folder, each whole or not at all.
pub(crate) fn fill(folder: &Path, files: &[report::File]) -> Result<(), Failure> {
    let failed = |path: &Path| {
        let path = path.to_owned();
        move |cause| Failure::Write { path, cause }
    };
    fs::create_dir_all(folder).map_err(failed(folder))?;
    for file in files {
        let path = folder.join(&file.name);
        let part = folder.join(format!(".{}.part", file.name));
        fs::write(&part, &file.bytes).map_err(failed(&part))?;
        fs::rename(&part, &path).map_err(failed(&path))?;
    }
    Ok(())
}

/// Writes one new file; refuses to touch one that is there.
pub(crate) fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    match create(path, text) {
        Ok(()) => Ok(()),
        Err(cause) if cause.kind() == io::ErrorKind::AlreadyExists => {
            Err(Failure::Exists { path: path.to_owned(), replace: false })
        }
        Err(cause) => Err(Failure::Write { path: path.to_owned(), cause }),
    }
}

/// Reads a measured table, and says which of its columns say nothing here.
pub(crate) fn table<T>(
    path: &Path,
    read: Reader<T>,
    err: &mut Stream,
) -> Result<Table<T>, Failure> {
    let table = read(path, fs::read(path)).map_err(Failure::Mistakes)?;
    if !table.passed_over.is_empty() {
        let own = table.passed_over.join(", ");
        err.print(&format!("note: {}: passed over column {own}\n", path.display()))?;
    }
    Ok(table)
}

/// Reads a file; none where there is no such file.
pub(crate) fn read_if_there(path: &Path) -> Result<Option<Vec<u8>>, Failure> {
    match fs::read(path) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(cause) => Err(Failure::Read { path: path.to_owned(), cause }),
    }
}

/// Adds to the end of a file, or begins it; what is there stays.
pub(crate) fn append(path: &Path, text: &str) -> Result<(), Failure> {
    let opened = fs::OpenOptions::new().append(true).create(true).open(path);
    opened
        .and_then(|mut file| file.write_all(text.as_bytes()))
        .map_err(|cause| Failure::Write { path: path.to_owned(), cause })
}

/// Writes a file that must not be there yet.
pub(crate) fn create(path: &Path, text: &str) -> io::Result<()> {
    let opened = fs::OpenOptions::new().write(true).create_new(true).open(path);
    opened.and_then(|mut file| file.write_all(text.as_bytes()))
}
