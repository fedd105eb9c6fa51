//! Files that commands wrote, until they are fetched or newer ones come.

use std::hash::{BuildHasher, Hasher, RandomState};
use std::sync::{Mutex, PoisonError};

/// Answers kept. Chosen: as many as visitors who look at once.
const MOST: usize = 16;

/// Most bytes of all of them. Chosen: four of the largest answers that are taken.
const MOST_BYTES: usize = 64 << 20;

/// A file: its plain name and its bytes.
type File = (String, Vec<u8>);

/// The files of the latest answers, each answer under a name that nobody can guess.
#[derive(Default)]
pub(crate) struct Results(Mutex<Vec<(String, Vec<File>)>>);

impl Results {
    /// Keeps the files of an answer, in place of the oldest; gives its name.
    pub(crate) fn keep(&self, files: Vec<File>) -> String {
        // The standard library keys every `RandomState` by chance.
        let chance = || RandomState::new().build_hasher().finish();
        let name = format!("{:016x}{:016x}", chance(), chance());
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let size = |files: &[File]| files.iter().map(|(_, bytes)| bytes.len()).sum::<usize>();
        let mut held = size(&files) + kept.iter().map(|(_, files)| size(files)).sum::<usize>();
        while kept.len() >= MOST || (held > MOST_BYTES && !kept.is_empty()) {
            held -= size(&kept.remove(0).1);
        }
        kept.push((name.clone(), files));
        name
    }

    /// One file of an answer.
    pub(crate) fn of(&self, answer: &str, name: &str) -> Option<Vec<u8>> {
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        let (_, files) = kept.iter().find(|(of, _)| of == answer)?;
        files.iter().find(|(of, _)| of == name).map(|(_, bytes)| bytes.clone())
    }
}
