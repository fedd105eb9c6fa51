use plotters::drawing::DrawingAreaErrorKind;

/// Why a picture cannot be drawn.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum DrawError {
    /// A number is infinite or not a number.
    #[error("a number in the picture {picture} is {value}; a report holds finite numbers only")]
    NotFinite {
        /// Which picture.
        picture: String,
        /// The value.
        value: f64,
    },
    /// The library failed.
    #[error("the plot {picture} could not be drawn: {source}")]
    Plot {
        /// Which picture.
        picture: String,
        /// What the plotting library said.
        source: DrawingAreaErrorKind<std::io::Error>,
    },
}
