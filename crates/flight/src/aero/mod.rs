//! Aerodynamic coefficients, one family a file.
//!
//! Reference area is the shaft's frontal area, reference length its diameter.
//! Stations are measured from the bottom of the nock groove, forward.

mod build_up;
mod coefficients;
mod drag;
mod error;
mod fins;
mod head;
pub mod laminar;
mod nose;
mod roll;
mod sets;
mod vanes;

pub use build_up::{CROSS_FLOW_LENGTH_FACTOR, aero};
pub use coefficients::{Aero, Slopes, TwoBlades};
pub use drag::{DragParts, Friction, friction, laminar_plate, turbulent_plate};
pub use error::AeroError;
pub use fins::FinSet;
pub use head::{Wake, head_centre, head_slope, wake_share};
pub use roll::roll_shares;
pub use vanes::{Layer, vane_centre, vane_cross_flow, vane_slope};
