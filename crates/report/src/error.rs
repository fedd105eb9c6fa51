use draw::DrawError;
use print::PrintError;

/// Why an answer cannot be shown.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ReportError {
    /// A number is infinite or not a number.
    #[error("{path} is {value}; a report holds finite numbers only")]
    NotFinite {
        /// Where in the answer, such as `builds[0].marks[2].full.r50.low`.
        path: String,
        /// The value.
        value: f64,
    },
    /// The answer compares no builds.
    #[error("the answer compares no builds")]
    NoComparison,
    /// The answer holds neither a build nor a sweep.
    #[error("the answer holds no build and no sweep point")]
    NoBuild,
    /// A list has more or fewer entries than there are distances.
    #[error("{path} has {found} entries for {expected} distances")]
    Ragged {
        /// Which list.
        path: String,
        /// Its length.
        found: usize,
        /// The number of distances of the first build.
        expected: usize,
    },
    /// A list has more or fewer entries than there are builds.
    #[error("{path} has {found} entries for {expected} builds")]
    Builds {
        /// Which list.
        path: String,
        /// Its length.
        found: usize,
        /// The number of builds.
        expected: usize,
    },
    /// A pair names a build that the answer does not hold.
    #[error("pairs[{pair}] names build {build}, but there are only {builds}")]
    NoSuchBuild {
        /// Index of the pair.
        pair: usize,
        /// Index it names.
        build: usize,
        /// Number of builds.
        builds: usize,
    },
    /// A picture cannot be drawn.
    #[error(transparent)]
    Draw(#[from] DrawError),
    /// The text of a document could not be made.
    #[error("the answer cannot be written as JSON: {0}")]
    Json(serde_json::Error),
    /// A page cannot be printed.
    #[error(transparent)]
    Print(#[from] PrintError),
}
