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
//!
//! ```
//! use sight::{Geometry, Launches, Sighting};
//!
//! // An arrow at 80 m/s in no air: half the arc sine of g d / v^2.
//! let launch = |d: f64| (d, 0.5 * (9.80665 * d / 6400.0).asin());
//! let launches = Launches::new([10.0, 20.0, 30.0, 40.0, 50.0].map(launch).to_vec())?;
//! let eye = Geometry::new("12 cm".parse()?, "85 cm".parse()?)?;
//! let sight = Sighting::new(eye, launches)?;
//! // From the 20 m mark to the 50 m mark the pin goes down 16 mm.
//! assert!((sight.travel(20.0, 50.0)? - 0.0165).abs() < 0.0005);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod error;
mod geometry;
mod launches;
mod sighting;

pub use error::SightError;
pub use geometry::Geometry;
pub use launches::Launches;
pub use sighting::{Dial, Sighting};
