use crate::plain::in_build;

/// Why a sweep cannot be made.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SweepFault {
    /// A sweep of a key that does not exist.
    #[error("cannot sweep \"{key}\": there is no such key")]
    Unknown {
        /// The key.
        key: String,
        /// The nearest key that can be swept.
        near: Option<&'static str>,
    },
    /// A sweep of a key that is not a number of the setup.
    #[error("cannot sweep {key}: it is not a number of the setup")]
    NotNumber {
        /// The key.
        key: &'static str,
    },
    /// A sweep of a value that is drawn as well.
    #[error("cannot sweep {key}: it is drawn{}", in_build(build.as_deref()))]
    Drawn {
        /// The key.
        key: &'static str,
        /// The build that draws it, if builds are listed.
        build: Option<String>,
    },
    /// A sweep of a value that is not in use.
    #[error("cannot sweep {key}: it is not in use{}", in_build(build.as_deref()))]
    Unused {
        /// The key.
        key: &'static str,
        /// What is missing.
        because: String,
        /// The build, if builds are listed.
        build: Option<String>,
    },
    /// A sweep that does not say which values.
    #[error("the sweep does not say which {what}")]
    Open {
        /// Key or values.
        what: &'static str,
    },
}

impl SweepFault {
    /// A few words to stand under the marked place.
    pub(crate) fn label(&self) -> String {
        match self {
            Self::Unknown { near: None, .. } => "not a key".into(),
            Self::Unknown { near: Some(near), .. } => format!("did you mean {near}?"),
            Self::NotNumber { .. } => "not a number".into(),
            Self::Drawn { .. } => "drawn and swept at once".into(),
            Self::Unused { because, .. } => because.clone(),
            Self::Open { .. } => "this question".into(),
        }
    }

    /// What to do about it.
    pub(crate) fn helps(&self) -> Vec<String> {
        let help = match self {
            Self::Unknown { .. } => "a sweep names a key in full, such as arrow.point.mass",
            Self::NotNumber { .. } => "write one [[build]] for each choice instead",
            Self::Drawn { .. } => "give it one fixed value, or none, where it is drawn",
            Self::Unused { .. } => return Vec::new(),
            Self::Open { what: "key" } => "write, say, key = \"arrow.point.mass\"",
            Self::Open { .. } => "write values = [...], or from, to and steps",
        };
        vec![help.to_owned()]
    }
}
