//! Sight geometry: eye, pin and line of sight; no chance and no flight.
//!
//! The eye (a peep, or the eye above the anchor) stands [`Geometry::height`]
//! above the arrow, the pin [`Geometry::radius`] ahead of it along the arrow.
//! A sight is set when the line from eye through pin meets the target that the
//! arrow will meet. How steeply the arrow must leave for that is a [`Launches`],
//! made by whoever flies arrows. Described in `docs/model/sight.md`.
//!
//! Numbers are SI: m and rad. Heights count up from the arrow's own line; the
//! depression of a line of sight counts down from it.

mod error;
mod geometry;
mod launches;
mod sighting;

pub use error::SightError;
pub use geometry::Geometry;
pub use launches::Launches;
pub use sighting::{Dial, Sighting};
