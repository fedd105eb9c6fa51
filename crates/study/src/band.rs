//! How far the poorly known values move a restraint that is pinned by a
//! measured shift.
//!
//! Each doubt is moved through its range, the others at their own values; the
//! largest change on each side counts, and the doubts add as the root of the sum
//! of squares.

use crate::{Banded, Slot, StudyError, UncertainParameter};

/// A value set apart from the scenario's own.
pub(crate) type Changed = Option<(Slot, f64)>;

/// Shares of a doubt's range at which it is tried. Chosen: both ends and three
/// places between, because a kick may cross zero inside a range.
pub(crate) const SHARES: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// A value inside a doubt's range: by ratio where the range is above zero.
pub(crate) fn inside(doubt: &UncertainParameter, share: f64) -> f64 {
    if doubt.low > 0.0 {
        doubt.low * (doubt.high / doubt.low).powf(share)
    } else {
        doubt.low + share * (doubt.high - doubt.low)
    }
}

/// What a value of a doubt gives; none where the bow then makes no push or the
/// arrow does not get there.
///
/// This is the one rule for a value that fails: there is no number at it, so the
/// band leaves it out and is open. Any other failure ends the run.
pub(crate) fn settled<T>(found: Result<T, StudyError>) -> Result<Option<T>, StudyError> {
    match found {
        Err(
            StudyError::Launch { .. } | StudyError::OutOfReach { .. } | StudyError::Short { .. },
        ) => Ok(None),
        other => other.map(Some),
    }
}

/// What doubts do to one number: sums of squares of the changes below and
/// above.
#[derive(Debug, Clone, Copy, Default)]
pub(crate) struct Band {
    below: f64,
    above: f64,
    /// Whether some value gave no number at all.
    pub(crate) open: bool,
}

impl Band {
    /// One doubt more, by the changes at its values; none where one gave no
    /// number.
    pub(crate) fn add(&mut self, changes: impl IntoIterator<Item = Option<f64>>) {
        let (mut least, mut most) = (0.0_f64, 0.0_f64);
        for change in changes {
            match change {
                Some(change) => {
                    least = least.min(change);
                    most = most.max(change);
                }
                None => self.open = true,
            }
        }
        self.below += least * least;
        self.above += most * most;
    }

    /// Lower and upper end, less the number.
    pub(crate) fn range(self) -> (f64, f64) {
        (-self.below.sqrt(), self.above.sqrt())
    }

    /// The number with its band.
    pub(crate) fn about(self, value: f64) -> Banded {
        let (below, above) = self.range();
        Banded { value, low: value + below, high: value + above }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_doubts_add_as_the_root_of_the_sum_of_squares() {
        let mut band = Band::default();
        band.add([Some(-3.0), Some(1.0)]);
        band.add([Some(2.0), Some(-4.0)]);
        // Both of one doubt's changes to one side: the other side stays.
        band.add([Some(2.0), Some(1.0)]);
        let Banded { value, low, high } = band.about(10.0);
        assert_eq!((value, low, high), (10.0, 5.0, 13.0));
        assert!(!band.open);
    }

    #[test]
    fn regress_only_a_shot_that_cannot_be_is_settled() {
        assert_eq!(settled::<u8>(Err(StudyError::Cancelled)), Err(StudyError::Cancelled));
        let who = crate::Who { build: String::new(), flight: None };
        let far = StudyError::OutOfReach { who, zero: 1.0, steepest: 0.1 };
        assert_eq!(settled::<u8>(Err(far)), Ok(None));
    }
}
