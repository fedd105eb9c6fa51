use body::MassError;

/// Why parts do not make an arrow.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ArrowError {
    /// The mass properties are impossible.
    #[error(transparent)]
    Mass(#[from] MassError),
}
