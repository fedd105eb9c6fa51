//! One writer at a time, over all programs.

use std::fs::{self, File, TryLockError};
use std::io;
use std::path::{Path, PathBuf};

use same_file::Handle;

/// A locked file, gone when dropped. The system lets go of it when the program
/// is killed.
pub(super) struct Lock {
    path: PathBuf,
    _file: File,
}

impl Lock {
    /// Takes the lock, or none when another program holds it.
    pub(super) fn try_take(path: &Path) -> io::Result<Option<Self>> {
        Self::take(path, |file| match file.try_lock() {
            Ok(()) => Ok(true),
            Err(TryLockError::WouldBlock) => Ok(false),
            Err(TryLockError::Error(cause)) => Err(cause),
        })
    }

    /// Takes the lock as soon as nobody else holds it.
    pub(super) fn wait(path: &Path) -> io::Result<Self> {
        loop {
            if let Some(lock) = Self::take(path, |file| file.lock().map(|()| true))? {
                return Ok(lock);
            }
        }
    }

    fn take(path: &Path, lock: impl Fn(&File) -> io::Result<bool>) -> io::Result<Option<Self>> {
        loop {
            // Not through a link that somebody planted.
            if fs::symlink_metadata(path).is_ok_and(|there| !there.is_file()) {
                return Err(io::ErrorKind::AlreadyExists.into());
            }
            let file =
                File::options().read(true).write(true).create(true).truncate(false).open(path)?;
            if !lock(&file)? {
                return Ok(None);
            }
            // Whoever held it may have taken the file away since it was opened;
            // then this lock is on nothing.
            let ours = Handle::from_file(file.try_clone()?)?;
            if Handle::from_path(path).is_ok_and(|there| there == ours) {
                return Ok(Some(Self { path: path.to_owned(), _file: file }));
            }
        }
    }
}

impl Drop for Lock {
    fn drop(&mut self) {
        // A lock file left behind does no harm.
        let _ = fs::remove_file(&self.path);
    }
}
