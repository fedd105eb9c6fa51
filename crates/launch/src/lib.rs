//! The push: from the bow's stored energy to the state in which the arrow
//! leaves the string.
//!
//! The arrow is rigid here. Two planes, left and up, obey the same linear
//! equations; each fault's part in them is added, so twice the fault gives
//! twice the kick. Nothing here draws chances and nothing knows the air.

mod bow;
mod check;
mod depart;
mod energy;
mod error;
mod ride;
mod shape;

pub use bow::{Bow, BowKind, Departure, Form, GivenDeparture, Rest, SpeedSource};
pub use depart::depart;
pub use energy::{
    DRAW_BEYOND_PIVOT, RATING_DRAW_LENGTH, RATING_DRAW_WEIGHT, RATING_MASS, kinetic_energy,
    momentum, own_speed, power_stroke,
};
pub use error::{LaunchError, Setting};
pub use ride::{Guide, STEPS, Sideways, Stick, at_full_draw, ride};
pub use shape::{Law, PushShape, push_force};
