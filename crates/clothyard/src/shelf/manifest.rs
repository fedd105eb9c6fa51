//! Which files of a folder are ours: their names and hashes, in a file among
//! them that `sha256sum --check` understands.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use sha2::{Digest, Sha256};

/// The file with the hashes.
pub(super) const NAME: &str = "clothyard.sha256";
/// Largest manifest, bytes. Chosen: thousands of files.
const LARGEST: u64 = 1 << 20;
/// Largest file of an answer, bytes. Chosen: far above any.
const LARGEST_FILE: u64 = 1 << 30;

/// Hashes by file name.
pub(super) struct Manifest(BTreeMap<String, String>);

impl Manifest {
    pub(super) fn of(files: &[report::File]) -> Self {
        Self(files.iter().map(|file| (file.name.clone(), hash(&file.bytes))).collect())
    }

    pub(super) fn text(&self) -> String {
        let mut text = String::new();
        for (name, hash) in &self.0 {
            let _ = writeln!(text, "{hash}  {name}");
        }
        text
    }

    /// The manifest of a folder; empty where it has none.
    pub(super) fn read(folder: &Path) -> io::Result<Self> {
        let path = folder.join(NAME);
        if !fs::symlink_metadata(&path).is_ok_and(|there| there.is_file()) {
            return Ok(Self(BTreeMap::new()));
        }
        let bytes = super::read(&path, LARGEST)?;
        let text = String::from_utf8_lossy(&bytes);
        let pair = |line: &str| line.split_once("  ").map(|(a, b)| (b.to_owned(), a.to_owned()));
        Ok(Self(text.lines().filter_map(pair).collect()))
    }

    /// An entry of the folder that is not as this manifest has it; none where the
    /// folder holds nothing but what was written into it.
    pub(super) fn foreign(&self, folder: &Path) -> io::Result<Option<PathBuf>> {
        first(folder, |name, path| {
            let Some(known) = self.0.get(name) else { return Ok(false) };
            Ok(hash(&super::read(path, LARGEST_FILE)?) == *known)
        })
    }

    /// Takes a folder of ours away, file by file: what the manifest names and the
    /// manifest, and then the folder if nothing else is in it. Gives the entry
    /// that is in the way.
    pub(super) fn remove(&self, folder: &Path) -> io::Result<Option<PathBuf>> {
        if let Some(path) = first(folder, |name, _| Ok(self.0.contains_key(name)))? {
            return Ok(Some(path));
        }
        for name in self.0.keys() {
            gone(fs::remove_file(folder.join(name)))?;
        }
        gone(fs::remove_file(folder.join(NAME)))?;
        fs::remove_dir(folder).map(|()| None)
    }
}

/// The first entry, by name, beside the manifest that is no plain file or not
/// ours.
fn first(
    folder: &Path,
    ours: impl Fn(&str, &Path) -> io::Result<bool>,
) -> io::Result<Option<PathBuf>> {
    let entries: io::Result<Vec<_>> = fs::read_dir(folder)?.collect();
    let mut paths: Vec<PathBuf> = entries?.iter().map(fs::DirEntry::path).collect();
    paths.sort();
    for path in paths {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let plain = fs::symlink_metadata(&path)?.is_file();
        if !plain || (name != NAME && !ours(&name, &path)?) {
            return Ok(Some(path));
        }
    }
    Ok(None)
}

/// Done, also where it was done already.
fn gone(outcome: io::Result<()>) -> io::Result<()> {
    match outcome {
        Err(cause) if cause.kind() == io::ErrorKind::NotFound => Ok(()),
        other => other,
    }
}

fn hash(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(64);
    for byte in Sha256::digest(bytes) {
        let _ = write!(text, "{byte:02x}");
    }
    text
}
