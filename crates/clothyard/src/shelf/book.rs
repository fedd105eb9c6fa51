//! Notebooks: the old one or the new one, never half a row.

use std::fs;
use std::io;
use std::path::Path;

use super::file::{LARGEST_TABLE, beside, create, read, write_synced};
use super::lock::Lock;
use crate::failure::Failure;

/// Puts a new text in the place of a notebook, or begins it; `make` gives the
/// text from the old one, which stays until the new one is whole. Says whether
/// there was an old one.
pub(crate) fn add_to_book(
    path: &Path,
    make: impl FnOnce(Option<&[u8]>) -> Result<Vec<u8>, Failure>,
) -> Result<bool, Failure> {
    // The book itself, not a link to it.
    let path = &fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let failed = |cause| Failure::Write { path: path.clone(), cause };
    let _lock = Lock::wait(&beside(path, "lock")).map_err(failed)?;
    let part = beside(path, "part");
    // Half a text of a program that was killed: the book never saw it.
    if fs::symlink_metadata(&part).is_ok_and(|there| there.is_file()) {
        fs::remove_file(&part).map_err(failed)?;
    }
    let old = there(path)?;
    let new = make(old.as_deref())?;
    // With nothing to add it stays as it is.
    if new.is_empty() {
        return Ok(old.is_some());
    }
    if old.is_none() {
        create(path, &new).map_err(failed)?;
        return Ok(false);
    }
    write_synced(&part, &new).map_err(failed)?;
    let placed = fs::metadata(path)
        .and_then(|kept| fs::set_permissions(&part, kept.permissions()))
        .map_err(failed)
        .and_then(|()| {
            // Some other program may have written meanwhile, one that asks no lock.
            if there(path)? == old {
                fs::rename(&part, path).map_err(failed)
            } else {
                Err(Failure::Changed { path: path.clone() })
            }
        });
    if placed.is_err() {
        let _ = fs::remove_file(&part);
    }
    placed.map(|()| true)
}

/// The bytes of a file; none where there is no such file.
fn there(path: &Path) -> Result<Option<Vec<u8>>, Failure> {
    match read(path, LARGEST_TABLE) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(None),
        Err(cause) => Err(Failure::Read { path: path.to_owned(), cause }),
    }
}
