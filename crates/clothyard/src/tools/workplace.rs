//! Where a command runs for the page, and what it wrote there.

use std::cell::RefCell;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

/// Most bytes of all files of an answer. Chosen: several times the largest report.
const MOST: usize = 16 << 20;

/// A folder of its own for one run, gone afterwards; what was given stands in it.
pub(super) struct Workplace(PathBuf, RefCell<Vec<(PathBuf, String)>>);

impl Workplace {
    pub(super) fn make() -> io::Result<Self> {
        static NEXT: AtomicU64 = AtomicU64::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let path = std::env::temp_dir().join(format!("clothyard-{}-{number}", std::process::id()));
        let mut folder = fs::DirBuilder::new();
        // Nobody else on this computer reads a customer's tables.
        #[cfg(unix)]
        std::os::unix::fs::DirBuilderExt::mode(&mut folder, 0o700);
        folder.create(&path)?;
        Ok(Self(path, RefCell::default()))
    }

    pub(super) fn at(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    pub(super) fn write(&self, name: &str, text: &str) -> io::Result<PathBuf> {
        let path = self.at(name);
        fs::write(&path, text)?;
        self.1.borrow_mut().push((path.clone(), text.to_owned()));
        Ok(path)
    }

    /// What was said, with names in place of paths of this computer.
    pub(super) fn without(&self, text: &str, root: &Path) -> String {
        let mut text = text.to_owned();
        for (folder, name) in [(&*self.0, ""), (root, "")] {
            text =
                text.replace(&format!("{}{}", folder.display(), std::path::MAIN_SEPARATOR), name);
        }
        let told = |line: &&str| !line.starts_with("Written to out: ");
        let lines: Vec<&str> = text.lines().filter(told).collect();
        lines.join("\n")
    }

    /// Everything that was written, by plain names.
    pub(super) fn files(&self, kept: Option<PathBuf>) -> io::Result<Vec<(String, Vec<u8>)>> {
        let (mut found, mut bytes) = (Vec::new(), 0);
        let mut folders: Vec<PathBuf> = std::iter::once(self.0.clone()).chain(kept).collect();
        while let Some(folder) = folders.pop() {
            let mut inside: Vec<PathBuf> = fs::read_dir(&folder)?
                .map(|entry| entry.map(|of| of.path()))
                .collect::<Result<_, _>>()?;
            inside.sort();
            for path in inside {
                if path.is_dir() {
                    folders.push(path);
                    continue;
                }
                let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
                let name = name.unwrap_or_default();
                let read = fs::read(&path)?;
                let given = self.1.borrow();
                let same = given.iter().any(|(of, text)| *of == path && text.as_bytes() == read);
                if same || name.starts_with('.') {
                    continue;
                }
                bytes += read.len();
                if bytes > MOST {
                    return Err(io::ErrorKind::FileTooLarge.into());
                }
                found.push((name, read));
            }
        }
        Ok(found)
    }
}

impl Drop for Workplace {
    fn drop(&mut self) {
        let _ = fs::remove_dir_all(&self.0);
    }
}
