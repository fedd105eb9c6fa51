//! The folder of an answer: written beside its place and put there in one step.

use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

use super::file::{beside, write_synced};
use super::lock::Lock;
use super::manifest::{self, Manifest};
use crate::failure::Failure;

/// A place for an answer that no other program writes to meanwhile.
pub(crate) struct AnswerFolder {
    place: Place,
    /// Where the answer is written, and where an old one waits to be removed.
    part: PathBuf,
    /// The folder above, where it was made for this one.
    made: Option<PathBuf>,
    /// Let go in the end, before the folder above may be empty.
    lock: Option<Lock>,
}

/// Where an answer goes, and what that may cost.
struct Place {
    path: PathBuf,
    replace: bool,
    inputs: Vec<PathBuf>,
}

impl AnswerFolder {
    /// Claims a folder, before anything is computed for it.
    ///
    /// # Errors
    /// Where it is there and may not be replaced; where it holds anything but an
    /// earlier answer, as it was written; where an input lies in it; where
    /// another program writes to it.
    pub(crate) fn claim(path: &Path, inputs: &[&Path], replace: bool) -> Result<Self, Failure> {
        // Without a slash at the end, which would lead through a link.
        let path: PathBuf = path.components().collect();
        let path = if path.as_os_str().is_empty() { PathBuf::from(".") } else { path };
        let inputs = inputs.iter().map(|input| (*input).to_owned()).collect();
        let mut place = Place { path, replace, inputs };
        place.check()?;
        if matches!(
            place.path.components().next_back(),
            Some(Component::CurDir | Component::ParentDir)
        ) && let Ok(path) = fs::canonicalize(&place.path)
        {
            place.path = path;
        }
        let failed = |path: &Path| Failure::write(path);
        let above = place.path.parent().filter(|above| !above.as_os_str().is_empty());
        let made = above.filter(|above| !above.exists()).map(Path::to_owned);
        if let Some(above) = above {
            fs::create_dir_all(above).map_err(failed(above))?;
        }
        let locked = beside(&place.path, "lock");
        let Some(lock) = Lock::try_take(&locked).map_err(failed(&locked))? else {
            return Err(Failure::InUse { path: place.path });
        };
        let part = beside(&place.path, "part");
        let claimed = Self { place, part, made, lock: Some(lock) };
        claimed.recover()?;
        claimed.place.check()?;
        Ok(claimed)
    }

    /// Where an earlier answer is that this one would replace; none where there is none.
    pub(crate) fn earlier(&self) -> Option<&Path> {
        Some(self.place.path.as_path()).filter(|path| path.exists())
    }

    /// Writes the files, then puts them in place of whatever was there, in one
    /// step.
    pub(crate) fn fill(self, files: &[report::File]) -> Result<PathBuf, Failure> {
        let failed = |path: &Path| Failure::write(path);
        fs::create_dir(&self.part).map_err(failed(&self.part))?;
        // First of all what will be there, so that a half is known as one.
        let hashes = self.part.join(manifest::NAME);
        write_synced(&hashes, Manifest::of(files).text().as_bytes()).map_err(failed(&hashes))?;
        for file in files {
            let path = self.part.join(&file.name);
            write_synced(&path, &file.bytes).map_err(failed(&path))?;
        }
        // What was there may have been touched meanwhile.
        self.place.check()?;
        let path = &self.place.path;
        if path.exists() {
            self.exchange().map_err(failed(path))?;
            clear(&self.part)?;
        } else {
            fs::rename(&self.part, path).map_err(failed(path))?;
        }
        Ok(path.clone())
    }

    /// The new folder takes the place of the old, which then lies where the new
    /// one was written.
    fn exchange(&self) -> io::Result<()> {
        #[cfg(any(target_os = "linux", target_vendor = "apple"))]
        {
            use rustix::fs::{CWD, RenameFlags, renameat_with};
            if renameat_with(CWD, &self.part, CWD, &self.place.path, RenameFlags::EXCHANGE).is_ok()
            {
                return Ok(());
            }
        }
        // A system or disk that cannot: for an instant there is none, and the old
        // one lies beside, from where the next run fetches it.
        let old = self.old();
        fs::rename(&self.place.path, &old)?;
        fs::rename(&self.part, &self.place.path)?;
        fs::rename(&old, &self.part)
    }

    fn old(&self) -> PathBuf {
        beside(&self.place.path, "old")
    }

    /// Clears up after a run that was killed.
    fn recover(&self) -> Result<(), Failure> {
        let old = self.old();
        if old.is_dir() {
            if self.place.path.exists() {
                clear(&old)?;
            } else {
                fs::rename(&old, &self.place.path).map_err(Failure::write(&old))?;
            }
        }
        if fs::symlink_metadata(&self.part).is_ok() { clear(&self.part) } else { Ok(()) }
    }
}

impl Drop for AnswerFolder {
    fn drop(&mut self) {
        // What cannot be cleared up now is by the next run.
        if self.part.is_dir() {
            let _ = clear(&self.part);
        }
        drop(self.lock.take());
        if let Some(made) = &self.made {
            let _ = fs::remove_dir(made);
        }
    }
}

/// Removes a folder of ours beside the place.
fn clear(folder: &Path) -> Result<(), Failure> {
    let failed = Failure::write(folder);
    if !fs::symlink_metadata(folder).is_ok_and(|there| there.is_dir()) {
        return Err(Failure::NotOurs { path: folder.to_owned() });
    }
    match Manifest::read(folder).and_then(|ours| ours.remove(folder)).map_err(failed)? {
        Some(path) => Err(Failure::NotOurs { path }),
        None => Ok(()),
    }
}

impl Place {
    /// Whether the answer may go there.
    fn check(&self) -> Result<(), Failure> {
        let path = &self.path;
        let Ok(there) = fs::symlink_metadata(path) else { return Ok(()) };
        if !self.replace || !there.is_dir() {
            return Err(Failure::Exists { path: path.clone(), replace: there.is_dir() });
        }
        let failed = |cause| Failure::Read { path: path.clone(), cause };
        let whole = fs::canonicalize(path).map_err(failed)?;
        let within =
            |input: &&PathBuf| fs::canonicalize(input).is_ok_and(|input| input.starts_with(&whole));
        if let Some(input) = self.inputs.iter().find(within) {
            return Err(Failure::InputWithin { input: input.clone(), path: path.clone() });
        }
        match Manifest::read(path).and_then(|ours| ours.foreign(path)).map_err(failed)? {
            Some(path) => Err(Failure::NotOurs { path }),
            None => Ok(()),
        }
    }
}
