//! Aerodynamic coefficients, one family a file.
//!
//! Reference area is the shaft's frontal area, reference length its diameter.
//! Stations are measured from the bottom of the nock groove, forward.

mod build_up;
mod drag;
mod fins;
pub mod laminar;
mod nose;

pub use build_up::{Aero, AeroError, CROSS_FLOW_LENGTH_FACTOR, DragParts, aero};
pub use drag::{Friction, friction, laminar_plate, turbulent_plate};
pub use fins::FinSet;
