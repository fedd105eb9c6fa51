//! Single files: what is read is bounded, what is written is whole or not there.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use scenario::measured::{Opened, Table};

use crate::Stream;
use crate::failure::Failure;

/// Largest scenario or part file, bytes. Chosen: a hundred times a long one.
pub(crate) const LARGEST_TEXT: u64 = 1 << 20;
/// Largest measured table, bytes. Chosen: a lifetime of shots.
pub(crate) const LARGEST_TABLE: u64 = 1 << 24;

/// Reads a file of at most so many bytes.
pub(crate) fn read(path: &Path, most: u64) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(most + 1).read_to_end(&mut bytes)?;
    if bytes.len() as u64 > most { Err(io::ErrorKind::FileTooLarge.into()) } else { Ok(bytes) }
}

/// Reads a scenario or a part of one.
pub(crate) fn text(path: &Path) -> io::Result<String> {
    String::from_utf8(read(path, LARGEST_TEXT)?).map_err(|_| io::ErrorKind::InvalidData.into())
}

/// Reads a measured table, and says which of its columns and rows say nothing here.
pub(crate) fn table<T>(
    path: &Path,
    read_table: impl FnOnce(&Path, Opened) -> Result<Table<T>, scenario::Report>,
    err: &mut Stream,
) -> Result<Table<T>, Failure> {
    let table = read_table(path, read(path, LARGEST_TABLE)).map_err(Failure::Mistakes)?;
    if !table.passed_over.is_empty() {
        let own = table.passed_over.join(", ");
        err.print(&format!("note: {}: passed over column {own}\n", path.display()))?;
    }
    if !table.left_out.is_empty() {
        let rows = table.left_out.join(", ");
        err.print(&format!("note: {}: passed over {rows}\n", path.display()))?;
    }
    Ok(table)
}

/// Writes one new file; refuses to touch one that is there.
pub(crate) fn write_new(path: &Path, text: &str) -> Result<(), Failure> {
    match create(path, text.as_bytes()) {
        Ok(()) => Ok(()),
        Err(cause) if cause.kind() == io::ErrorKind::AlreadyExists => {
            Err(Failure::Exists { path: path.to_owned(), replace: false })
        }
        Err(cause) => Err(Failure::Write { path: path.to_owned(), cause }),
    }
}

/// Writes a file that must not be there yet: the name appears with the whole
/// text behind it, or not at all.
pub(crate) fn create(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let part = beside(path, &format!("{}.part", std::process::id()));
    write_synced(&part, bytes)?;
    // A link, unlike a rename, refuses a name that is taken.
    let placed = match fs::hard_link(&part, path) {
        Err(cause) if cause.kind() != io::ErrorKind::AlreadyExists => {
            // A disk without links: the name is reserved, then filled in one go.
            File::create_new(path).and_then(|_| fs::rename(&part, path))
        }
        done => done,
    };
    let _ = fs::remove_file(&part);
    placed
}

/// Writes a file that must not be there, down to the disk; takes it away again
/// where that fails.
pub(super) fn write_synced(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let mut file = File::create_new(path)?;
    file.write_all(bytes).and_then(|()| file.sync_all()).inspect_err(|_| {
        let _ = fs::remove_file(path);
    })
}

/// A hidden name beside a file or folder: `.NAME.ending`.
pub(super) fn beside(path: &Path, ending: &str) -> PathBuf {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    path.with_file_name(format!(".{name}.{ending}"))
}
