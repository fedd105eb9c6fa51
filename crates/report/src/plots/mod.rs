//! The pictures, as SVG. This is the only place that names the plotting
//! library.

mod axes;
mod ink;
pub(crate) mod marks;
mod paper;
pub(crate) mod push;
pub(crate) mod verdict;
pub(crate) mod workbench;

/// A finished picture.
pub(crate) struct Plot {
    /// File name.
    pub(crate) name: String,
    /// What it shows, for those who cannot see it and for the caption.
    pub(crate) caption: String,
    /// The drawing.
    pub(crate) svg: String,
}
