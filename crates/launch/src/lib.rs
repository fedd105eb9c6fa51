//! The push: from the bow's stored energy to the state in which the arrow
//! leaves the string.
//!
//! The arrow is elastic: two rigid motions and a few bending modes in each of
//! two planes, left and up. Nothing here draws chances and nothing knows the
//! air. [`depart`] is the full push, [`Kit`] the same as a linear map from
//! faults to departure, [`watch`] the push step by step.
//!
//! How far the string pushes, the least that every push needs to know:
//!
//! ```
//! use launch::power_stroke;
//!
//! // Draw length counts 1.75 in beyond the pivot, brace height does not.
//! let stroke = power_stroke("29 in".parse()?, "6.5 in".parse()?)?;
//! assert!((stroke.si() / 0.0254 - 20.75).abs() < 1e-9);
//! // A brace height taken for a draw length is told, not computed with.
//! assert!(power_stroke("6.5 in".parse()?, "29 in".parse()?).is_err());
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod beam;
mod bow;
mod check;
mod coast;
mod elastic;
mod energy;
mod error;
mod flex;
mod hold;
mod push;
mod shape;
mod sway;

pub use beam::{Beam, ELEMENTS, Lump, Modes};
pub use bow::{
    Bow, BowKind, CURVE_POINTS, Departure, DrawCurve, Form, GivenDeparture, NockPath, Release,
    Rest, RestKind, Side, SpeedSource,
};
pub use elastic::{Elastic, beam};
pub use energy::{
    Budget, DRAW_BEYOND_PIVOT, EnergyFit, RATING_DRAW_LENGTH, RATING_DRAW_WEIGHT, RATING_MASS,
    budget, fit_virtual_mass, kinetic_energy, momentum, own_speed, power_stroke, stored_energy,
};
pub use error::{LaunchError, Setting};
pub use flex::{Flex, MODES};
pub use push::{Detail, History, Kit, depart, watch};
pub use shape::{BowLaw, Law, PushShape, push_force};
pub use sway::{Frame, STEPS, Work};
