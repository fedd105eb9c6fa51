//! Runs the program inside a test, in a folder of its own.

use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

use clothyard::Stream;

/// What a command did.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ran {
    /// Its exit code.
    pub code: u8,
    /// What it printed.
    pub out: String,
    /// Errors and notes.
    pub err: String,
}

/// How hard tests try that could go on for ever: as they stand, or as the variable
/// `CLOTHYARD_HARD` asks, before a release.
pub fn hard() -> bool {
    std::env::var_os("CLOTHYARD_HARD").is_some()
}

fn arguments(words: &[&str]) -> Vec<std::ffi::OsString> {
    std::iter::once(&"clothyard").chain(words).map(Into::into).collect()
}

/// Runs a command, without terminal or colour.
pub fn run(words: &[&str]) -> Ran {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = clothyard::command(
        arguments(words),
        &mut Stream::plain(&mut out),
        &mut Stream::plain(&mut err),
    );
    let text = |bytes: Vec<u8>| String::from_utf8_lossy(&bytes).into_owned();
    Ran { code, out: text(out), err: text(err) }
}

/// A place that takes nothing.
struct Refusing(io::ErrorKind);

impl Write for Refusing {
    fn write(&mut self, _: &[u8]) -> io::Result<usize> {
        Err(self.0.into())
    }
    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// Runs a command whose standard output refuses every byte.
pub fn run_refused(words: &[&str], why: io::ErrorKind) -> Ran {
    let mut err = Vec::new();
    let code = clothyard::command(
        arguments(words),
        &mut Stream::plain(&mut Refusing(why)),
        &mut Stream::plain(&mut err),
    );
    Ran { code, out: String::new(), err: String::from_utf8_lossy(&err).into_owned() }
}

/// A path from the root of the workspace.
pub fn path(from_root: &str) -> String {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..").join(from_root).display().to_string()
}

/// A folder of a test's own, removed at its end.
pub struct Folder(PathBuf);

impl Folder {
    /// Makes the folder; the name tells it from those of other tests.
    ///
    /// # Panics
    /// When it cannot be made.
    #[expect(clippy::expect_used, reason = "a test without its folder should stop")]
    pub fn new(name: &str) -> Self {
        let path = std::env::temp_dir().join(format!("clothyard-{}-{name}", std::process::id()));
        fs::create_dir(&path).expect("a new folder");
        Self(path)
    }

    /// The path of a file or folder in it.
    pub fn at(&self, name: &str) -> String {
        self.0.join(name).display().to_string()
    }

    /// Writes a file into it and gives its path.
    ///
    /// # Panics
    /// When it cannot be written.
    #[expect(clippy::expect_used, reason = "a test without its file should stop")]
    pub fn write(&self, name: &str, text: &str) -> String {
        fs::write(self.0.join(name), text).expect("a file written");
        self.at(name)
    }

    /// Every file in it and below, by its name from here, with its bytes.
    ///
    /// # Panics
    /// When they cannot be read.
    pub fn files(&self) -> Vec<(String, Vec<u8>)> {
        let mut found = Vec::new();
        collect(&self.0, "", &mut found);
        found.sort();
        found
    }
}

#[expect(clippy::expect_used, reason = "a test that cannot look should stop")]
fn collect(folder: &Path, before: &str, found: &mut Vec<(String, Vec<u8>)>) {
    for entry in fs::read_dir(folder).expect("a folder") {
        let path = entry.expect("an entry").path();
        let name = format!("{before}{}", path.file_name().unwrap_or_default().display());
        if path.is_dir() {
            collect(&path, &format!("{name}/"), found);
        } else {
            found.push((name, fs::read(&path).expect("a file")));
        }
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        // A folder left behind does no harm.
        let _ = fs::remove_dir_all(&self.0);
    }
}
