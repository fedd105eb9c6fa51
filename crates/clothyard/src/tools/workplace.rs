//! Where a command runs for the page, and what it wrote there.

use std::cell::RefCell;
use std::fs::{self, File};
use std::hash::{BuildHasher, Hasher, RandomState};
use std::io;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// Most bytes of all files of an answer. Chosen: several times the largest report.
const MOST: u64 = 16 << 20;
/// How the folders are called, before a number that nobody can guess.
const NAME: &str = "clothyard-page-";
/// Held as long as a folder is in use.
const LOCK: &str = ".lock";
/// How old a folder without a lock is when nobody is about to take one. Chosen.
const OLD: Duration = Duration::from_mins(10);
/// Names tried. Chosen: a number that comes twice is a fault of something else.
const TRIES: usize = 8;

/// A folder of its own for one run, gone afterwards; what was given stands in it.
pub(super) struct Workplace {
    path: PathBuf,
    given: RefCell<Vec<(PathBuf, String)>>,
    lock: Option<File>,
}

impl Workplace {
    pub(super) fn make() -> io::Result<Self> {
        for _ in 0..TRIES {
            // The standard library keys every `RandomState` by chance.
            let chance = RandomState::new().build_hasher().finish();
            let path = std::env::temp_dir().join(format!("{NAME}{chance:016x}"));
            let mut folder = fs::DirBuilder::new();
            // Nobody else on this computer reads a customer's tables.
            #[cfg(unix)]
            std::os::unix::fs::DirBuilderExt::mode(&mut folder, 0o700);
            match folder.create(&path) {
                Err(cause) if cause.kind() == io::ErrorKind::AlreadyExists => continue,
                made => made?,
            }
            let mut own = Self { path, given: RefCell::default(), lock: None };
            let lock = File::create_new(own.at(LOCK))?;
            // Another page that sweeps may be before us.
            if lock.try_lock().is_ok() {
                own.lock = Some(lock);
                return Ok(own);
            }
        }
        Err(io::ErrorKind::AlreadyExists.into())
    }

    /// Takes away what killed pages of the same user left behind.
    pub(super) fn sweep() {
        let Ok(own) = Self::make() else { return };
        let Ok(entries) = fs::read_dir(std::env::temp_dir()) else { return };
        let ours = |name: &str| name.starts_with(NAME);
        for entry in entries.filter_map(Result::ok) {
            if entry.file_name().to_str().is_some_and(ours) && left(&entry.path(), &own.path) {
                // What cannot be taken away does no harm.
                let _ = fs::remove_dir_all(entry.path());
            }
        }
    }

    pub(super) fn at(&self, name: &str) -> PathBuf {
        self.path.join(name)
    }

    pub(super) fn write(&self, name: &str, text: &str) -> io::Result<PathBuf> {
        let path = self.at(name);
        fs::write(&path, text)?;
        self.given.borrow_mut().push((path.clone(), text.to_owned()));
        Ok(path)
    }

    /// What was said, with names in place of paths of this computer.
    pub(super) fn without(&self, text: &str, root: &Path) -> String {
        let mut text = text.to_owned();
        for (folder, name) in [(&*self.path, ""), (root, "")] {
            text =
                text.replace(&format!("{}{}", folder.display(), std::path::MAIN_SEPARATOR), name);
        }
        let told = |line: &&str| !line.starts_with("Written to out: ");
        let lines: Vec<&str> = text.lines().filter(told).collect();
        lines.join("\n")
    }

    /// Everything that was written, by plain names. A link or a pipe is nothing of ours.
    pub(super) fn files(&self, kept: Option<PathBuf>) -> io::Result<Vec<(String, Vec<u8>)>> {
        let (mut found, mut bytes) = (Vec::new(), 0);
        let mut folders: Vec<PathBuf> = std::iter::once(self.path.clone()).chain(kept).collect();
        while let Some(folder) = folders.pop() {
            let mut inside: Vec<PathBuf> = fs::read_dir(&folder)?
                .map(|entry| entry.map(|of| of.path()))
                .collect::<Result<_, _>>()?;
            inside.sort();
            for path in inside {
                let about = fs::symlink_metadata(&path)?;
                if about.is_dir() {
                    folders.push(path);
                    continue;
                }
                let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
                let name = name.unwrap_or_default();
                if !about.is_file() || name.starts_with('.') {
                    continue;
                }
                bytes += about.len();
                if bytes > MOST {
                    return Err(io::ErrorKind::FileTooLarge.into());
                }
                let read = fs::read(&path)?;
                let given = self.given.borrow();
                if !given.iter().any(|(of, text)| *of == path && text.as_bytes() == read) {
                    found.push((name, read));
                }
            }
        }
        Ok(found)
    }
}

impl Drop for Workplace {
    fn drop(&mut self) {
        // Some systems keep a folder with an open file in it.
        drop(self.lock.take());
        let _ = fs::remove_dir_all(&self.path);
    }
}

/// Whether a folder is of the one who made another, and nobody is in it any more.
fn left(path: &Path, own: &Path) -> bool {
    let (Ok(there), Ok(own)) = (fs::symlink_metadata(path), fs::symlink_metadata(own)) else {
        return false;
    };
    if !there.is_dir() || !same_user(&there, &own) {
        return false;
    }
    let lock = path.join(LOCK);
    if fs::symlink_metadata(&lock).is_ok_and(|lock| lock.is_file()) {
        return File::open(&lock).is_ok_and(|lock| lock.try_lock().is_ok());
    }
    let age = there.modified().ok().and_then(|then| then.elapsed().ok());
    age.is_some_and(|age| age > OLD)
}

#[cfg(unix)]
fn same_user(one: &fs::Metadata, other: &fs::Metadata) -> bool {
    use std::os::unix::fs::MetadataExt;
    one.uid() == other.uid()
}

#[cfg(not(unix))]
fn same_user(_: &fs::Metadata, _: &fs::Metadata) -> bool {
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_what_a_killed_page_left_is_swept_and_what_is_in_use_stays() {
        let (used, left) = (Workplace::make().expect("a folder"), Workplace::make().expect("one"));
        let (kept, gone) = (used.path.clone(), left.path.clone());
        used.write("table.csv", "1\n").expect("a file");
        left.write("table.csv", "1\n").expect("a file");
        // A program that is killed drops nothing, and the system lets go of its locks.
        let mut left = std::mem::ManuallyDrop::new(left);
        drop(left.lock.take());
        Workplace::sweep();
        assert_eq!((kept.exists(), gone.exists()), (true, false));
        drop(used);
        assert!(!kept.exists());
    }

    #[cfg(unix)]
    #[test]
    fn law_a_planted_link_is_not_read() {
        let own = Workplace::make().expect("a folder");
        std::os::unix::fs::symlink("/etc/hostname", own.at("planted.csv")).expect("a link");
        std::os::unix::fs::symlink("/etc", own.at("folder")).expect("a link");
        fs::write(own.at("sound.csv"), "1\n").expect("a file");
        let names: Vec<String> =
            own.files(None).expect("files").into_iter().map(|(name, _)| name).collect();
        assert_eq!(names, ["sound.csv"]);
    }
}
