use arrow::ArrowError;
use flight::FlightError;
use launch::LaunchError;

/// How a measured thing cannot be used.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum EvidenceFault {
    /// A key that this kind of measured thing does not hold.
    #[error("evidence.{key} is not used with kind = \"{kind}\"")]
    Idle {
        /// The key.
        key: &'static str,
        /// The kind.
        kind: String,
    },
    /// A value that was measured but is not poorly known.
    #[error("{key} is not poorly known here, so measuring it changes nothing")]
    NotInDoubt {
        /// The key.
        key: &'static str,
    },
    /// An arrow or a bow with which nothing can have been measured.
    #[error("nothing can have been measured so, \"{name}\": {cause}")]
    Impossible {
        /// What the measured thing is called.
        name: String,
        /// Why.
        cause: Unmeasurable,
    },
}

/// Why nothing can have been measured with an arrow and a bow.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Unmeasurable {
    /// Parts that do not make an arrow.
    #[error("these parts do not make an arrow: {0}")]
    Arrow(ArrowError),
    /// A bow that cannot shoot it, or a string that holds no nock.
    #[error("this bow cannot shoot this arrow: {0}")]
    Bow(LaunchError),
    /// An arrow that does not make a flight.
    #[error("this arrow cannot be flown: {0}")]
    Flight(FlightError),
}

impl EvidenceFault {
    /// A few words to stand under the marked place.
    pub(crate) fn label(&self) -> String {
        match self {
            Self::Idle { .. } => "not used".into(),
            Self::NotInDoubt { .. } => "measured here".into(),
            Self::Impossible { cause: Unmeasurable::Arrow(_), .. } => "this arrow".into(),
            Self::Impossible { cause: Unmeasurable::Bow(_), .. } => "this bow".into(),
            Self::Impossible { cause: Unmeasurable::Flight(_), .. } => "in this air".into(),
        }
    }

    /// What to do about it.
    pub(crate) fn helps(&self) -> Vec<String> {
        match self {
            Self::Idle { .. } => Vec::new(),
            Self::NotInDoubt { .. } => {
                let help = "write the value with its range, { value, low, high }, or leave the \
                    reading out";
                vec![help.to_owned()]
            }
            Self::Impossible { .. } => vec![
                "a measured thing is laid over its build: look at what it changes there, and at the \
                 units"
                    .to_owned(),
            ],
        }
    }
}
