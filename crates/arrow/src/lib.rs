//! From parts and faults to a built arrow: where each part sits, what the
//! whole weighs, balances and bends like, and what each fault does to it.
//!
//! Stations are measured in metres from the bottom of the nock groove, forward
//! positive, so the trade's arrow length is the station of the shaft's front
//! end.

mod built;
mod error;
mod fault;
mod part;

pub use built::{Built, Effects, Layout, Note, VaneError, build};
pub use error::ArrowError;
pub use fault::{Bend, Faults, Lean, Shift, VaneFault};
pub use part::{
    Blades, Collar, Given, Insert, Nock, Outsert, Parts, Point, PointShape, Shaft, Vanes, Wrap,
};
