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
            // Another page that sweeps may be before us, and have taken it away.
            if lock.try_lock().is_ok() && own.at(LOCK).exists() {
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
            if !entry.file_name().to_str().is_some_and(ours) {
                continue;
            }
            // Its lock is held until it is gone: whoever has just made it takes another.
            if let Some(Left(lock)) = left(&entry.path(), &own.path) {
                // What cannot be taken away does no harm.
                let _ = fs::remove_dir_all(entry.path());
                drop(lock);
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

/// A folder that nobody is in any more, with its lock, where it has one.
struct Left(Option<File>);

/// Whether a folder is of the one who made another, and nobody is in it any more.
fn left(path: &Path, own: &Path) -> Option<Left> {
    let (there, own) = (fs::symlink_metadata(path).ok()?, fs::symlink_metadata(own).ok()?);
    if !there.is_dir() || !same_user(&there, &own) {
        return None;
    }
    let lock = path.join(LOCK);
    if fs::symlink_metadata(&lock).is_ok_and(|lock| lock.is_file()) {
        let lock = File::open(&lock).ok()?;
        return lock.try_lock().is_ok().then_some(Left(Some(lock)));
    }
    let age = there.modified().ok()?.elapsed().ok()?;
    (age > OLD).then_some(Left(None))
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

    /// A page that started took away the folder that another had just made: its lock was
    /// let go of before the folder was gone.
    #[test]
    fn regress_who_sweeps_takes_nothing_that_is_just_made() {
        let done = std::sync::atomic::AtomicBool::new(false);
        std::thread::scope(|scope| {
            let sweeper = || {
                while !done.load(std::sync::atomic::Ordering::Relaxed) {
                    Workplace::sweep();
                }
            };
            scope.spawn(sweeper);
            scope.spawn(sweeper);
            let made = |_| {
                let own = Workplace::make().ok()?;
                std::thread::yield_now();
                own.write("table.csv", "1\n").ok().filter(|path| path.exists())
            };
            let there = (0..500).filter_map(made).count();
            done.store(true, std::sync::atomic::Ordering::Relaxed);
            assert_eq!(there, 500);
        });
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
