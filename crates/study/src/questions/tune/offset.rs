//! Offsets with their bands over the doubts.

use super::bench::Places;
use crate::band::{Changed, Numbers, SHARES, bands_of, inside, numbers_at};
use crate::{Banded, Offset, StudyError, UncertainParameter};

/// A number with its band, and whether the band is open.
pub(crate) type Known = Option<(Banded, bool)>;

/// How many times [`bands`] reads.
pub(crate) fn readings(uncertain: &[UncertainParameter]) -> u64 {
    1 + (uncertain.len() * SHARES.len()) as u64
}

/// Reads all numbers with the doubts at their own values, then with each doubt
/// at each of its places.
pub(crate) fn bands(
    uncertain: &[UncertainParameter],
    read: &(dyn Fn(Changed) -> Result<Numbers, StudyError> + Sync),
) -> Result<Vec<Known>, StudyError> {
    let main = read(None)?;
    let places = |doubt| SHARES.map(|share| (doubt, share));
    let probes = uncertain.iter().flat_map(places).map(|(d, share)| (d.slot, inside(d, share)));
    let moved = numbers_at(&probes.collect::<Vec<_>>(), read)?;
    let known = bands_of(&main, &moved, SHARES.len()).into_iter().zip(main);
    Ok(known.map(|(band, main)| Some((band.about(main?), band.open))).collect())
}

/// Left, up and size of each place, one after another.
pub(crate) fn numbers(places: &Places) -> Numbers {
    places
        .iter()
        .flat_map(|place| match place {
            Some([left, up]) => [Some(*left), Some(*up), Some(left.hypot(*up))],
            None => [None; 3],
        })
        .collect()
}

/// Offsets from what [`bands`] made of [`numbers`].
pub(crate) fn offsets(known: &[Known]) -> Vec<Option<Offset>> {
    let (threes, _) = known.as_chunks::<3>();
    threes
        .iter()
        .map(|three| {
            let [Some((left, open)), Some((up, _)), Some((size, _))] = *three else { return None };
            let size = Banded { low: size.low.max(0.0), ..size };
            Some(Offset { left, up, size, open })
        })
        .collect()
}
