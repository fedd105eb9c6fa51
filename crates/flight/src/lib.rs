//! Flight: air, wind, aerodynamics, point mass and six degrees of freedom.
//!
//! A [`Model`] holds everything the force on one arrow depends on. It is made
//! from parts and a built arrow by [`model`], and flown by [`fly`] (six degrees
//! of freedom) or [`fly_point`] (point mass). The equations of motion are
//! written once, generic over the number type, in `Model::rise`.
//!
//! Flight is computed in the line frame (see `body`), with the distance along
//! the line to the target as the independent variable.
//!
//! The air that a flight meets, thinner on a hot day in the hills:
//!
//! ```
//! use flight::{Air, Weather};
//!
//! let air = |temperature: &str, pressure: &str| -> Result<Air, Box<dyn std::error::Error>> {
//!     Ok(Air::of(&Weather {
//!         temperature: temperature.parse()?,
//!         pressure: pressure.parse()?,
//!         humidity: "50 %".parse()?,
//!     })?)
//! };
//! let (sea, hills) = (air("15 degC", "1013.25 hPa")?, air("30 degC", "850 hPa")?);
//! assert!((sea.density - 1.22).abs() < 0.005); // kg/m3
//! assert!(hills.density < 0.81 * sea.density);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

pub mod aero;
mod air;
mod batch;
mod error;
mod extra;
mod fly;
mod model;
mod motion;
mod pilot;
mod rigid;
mod site;
mod turning;
mod wind;

pub use air::{Air, standard_pressure, standard_temperature};
pub use batch::{Entry, Steps, fly_batch};
pub use error::{FlightError, StartFault};
pub use fly::{Flight, FlightEnd, Shortfall, Tolerance, fly, fly_point};
pub use model::{Model, model};
pub use pilot::pilot_steps;
pub use rigid::{Fall, RigidBody, RigidState, tumble};
pub use site::{AeroChoice, AeroFactors, GivenAero, Site, Weather, Wind, WindProfile};
pub use solve::limit_width;
