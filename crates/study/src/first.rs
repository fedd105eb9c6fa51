//! Work on all cores, told as if done in order.

use rayon::prelude::*;

use crate::StudyError;

/// All results, or the first error in the order of the items, whichever thread
/// met one first.
pub(crate) fn all_or_first<T: Send>(
    items: impl IndexedParallelIterator<Item = Result<T, StudyError>>,
) -> Result<Vec<T>, StudyError> {
    let mut results = Vec::new();
    items.collect_into_vec(&mut results);
    results.into_iter().collect()
}
