//! Values at which nothing can be shot.

use crate::StudyError;

/// What a value gives; none where the bow then makes no push or the arrow does not get
/// there.
///
/// This is the one rule for a value that fails: there is no number at it. Any other
/// failure ends the run.
pub(crate) fn settled<T>(found: Result<T, StudyError>) -> Result<Option<T>, StudyError> {
    match found {
        Err(
            StudyError::Launch { .. } | StudyError::OutOfReach { .. } | StudyError::Short { .. },
        ) => Ok(None),
        other => other.map(Some),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn regress_only_a_shot_that_cannot_be_is_settled() {
        assert_eq!(settled::<u8>(Err(StudyError::Cancelled)), Err(StudyError::Cancelled));
        let who = crate::Who { build: String::new(), flight: None };
        let far = StudyError::OutOfReach { who, zero: 1.0, steepest: 0.1 };
        assert_eq!(settled::<u8>(Err(far)), Ok(None));
    }
}
