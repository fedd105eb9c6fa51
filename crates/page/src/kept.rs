//! What is not known of the latest scenes: the sharp answer takes it from the better one.

use std::sync::{Mutex, PoisonError};

use study::PointsFound;

/// Scenes kept. Chosen: as many as visitors who look at once; each takes a megabyte at
/// most.
const MOST: usize = 8;

/// What was found at the outer points of the latest scenes, by the scene's text. It is
/// what would be found anew, so it does not show in any answer.
#[derive(Default)]
pub(crate) struct Kept(Mutex<Vec<(String, PointsFound)>>);

impl Kept {
    /// What is known of a scene.
    pub(crate) fn of(&self, text: &str) -> Option<PointsFound> {
        let kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.iter().find(|(of, _)| of == text).map(|(_, found)| found.clone())
    }

    /// Keeps it, in place of the oldest.
    pub(crate) fn put(&self, text: &str, found: PointsFound) {
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        kept.retain(|(of, _)| of != text);
        if kept.len() >= MOST {
            kept.remove(0);
        }
        kept.push((text.to_owned(), found));
    }
}
