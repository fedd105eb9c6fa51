//! Numbers with their bands over the doubts.

use rayon::prelude::*;

use super::bench::{Changed, Places};
use crate::{Banded, Doubt, Offset, StudyError};

/// Shares of a doubt's range at which it is tried. Chosen: both ends and three
/// places between, because a kick may cross zero inside a range.
pub(crate) const SHARES: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// Numbers read with one value changed; none where there is no such number.
pub(crate) type Numbers = Vec<Option<f64>>;

/// A number with its band, and whether the band is open.
pub(crate) type Known = Option<(Banded, bool)>;

/// A value inside a doubt's range: by ratio where the range is above zero.
pub(crate) fn inside(doubt: &Doubt, share: f64) -> f64 {
    if doubt.low > 0.0 {
        doubt.low * (doubt.high / doubt.low).powf(share)
    } else {
        doubt.low + share * (doubt.high - doubt.low)
    }
}

/// How many times [`bands`] reads.
pub(crate) fn readings(doubts: &[Doubt]) -> u64 {
    1 + (doubts.len() * SHARES.len()) as u64
}

/// Reads all numbers with the doubts at their own values, then with each doubt
/// at each of its places. A value of a doubt that makes no push at all leaves
/// the bands open.
pub(crate) fn bands(
    doubts: &[Doubt],
    read: &(dyn Fn(Changed) -> Result<Numbers, StudyError> + Sync),
) -> Result<Vec<Known>, StudyError> {
    let main = read(None)?;
    let probes: Vec<(usize, f64)> = doubts
        .iter()
        .enumerate()
        .flat_map(|(at, doubt)| SHARES.map(|share| (at, inside(doubt, share))))
        .collect();
    let found: Vec<Result<Numbers, StudyError>> = probes
        .par_iter()
        .map(|&(at, value)| match read(Some((doubts[at].slot, value))) {
            Err(StudyError::Launch { .. }) => Ok(vec![None; main.len()]),
            other => other,
        })
        .collect();
    let found: Vec<Numbers> = found.into_iter().collect::<Result<_, _>>()?;
    let one = |index: usize, main: f64| {
        let (mut below, mut above, mut open) = (0.0, 0.0, false);
        for doubt in found.chunks(SHARES.len()) {
            let (mut least, mut most) = (0.0_f64, 0.0_f64);
            for numbers in doubt {
                match numbers[index] {
                    Some(number) => {
                        least = least.min(number - main);
                        most = most.max(number - main);
                    }
                    None => open = true,
                }
            }
            below += least * least;
            above += most * most;
        }
        (Banded { value: main, low: main - below.sqrt(), high: main + above.sqrt() }, open)
    };
    Ok(main.iter().enumerate().map(|(index, main)| Some(one(index, (*main)?))).collect())
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
