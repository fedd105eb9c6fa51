//! The push: from the bow's stored energy to the state in which the arrow
//! leaves the string.
//!
//! The arrow is elastic: two rigid motions and a few bending modes in each of
//! two planes, left and up. Nothing here draws chances and nothing knows the
//! air. [`depart`] is the full push, [`LinearResponse`] the same as a linear map from
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

mod again;
mod batch;
mod beam;
mod bow;
mod cams;
mod check;
mod coast;
mod contact;
mod course;
mod crooked;
mod departing;
mod elastic;
mod energy;
mod error;
mod film;
mod flex;
mod frame;
mod hold;
mod kind;
mod lane;
mod leave;
mod limbs;
mod machine;
mod nominal;
mod pose;
mod probe;
mod push;
mod reel;
mod response;
mod ritz;
mod search;
mod shape;
mod stage;
mod start;
mod strain;
mod stroke;
mod sway;
mod trace;
mod track;

pub use again::ArrowAgain;
pub use batch::{PushBatch, Shot};
pub use beam::{Beam, ELEMENTS, Lump, Modes};
pub use bow::{
    Bow, BowKind, BowString, CURVE_POINTS, Departure, DrawCurve, Form, GivenDeparture, NockPath,
    Release, Rest, RestKind, Restraint, Side, SpeedSource,
};
pub use cams::{CamParts, Cams};
pub use elastic::{Elastic, beam};
pub use energy::{
    Budget, EnergyFit, RATING_DRAW_LENGTH, RATING_DRAW_WEIGHT, RATING_MASS, budget,
    fit_virtual_mass, kinetic_energy, momentum, own_speed, push_forces,
};
pub use error::{LaunchError, Setting};
pub use flex::{Flex, MODES};
pub use frame::{Frame, Work};
pub use hold::Hold;
pub use kind::{BowAndArrow, Range};
pub use limbs::Limbs;
pub use machine::{Machine, Still, UpperHalf, hold_at};
pub use nominal::{Instant, NominalPush};
pub use pose::Twine;
pub use push::{Detail, History, depart, watch};
pub use reel::{Reel, filmed};
pub use response::LinearResponse;
pub use shape::{BowLaw, ForceLaw, PushShape, stored_energy};
pub use strain::{PushBend, push_bend};
pub use stroke::{DRAW_BEYOND_PIVOT, power_stroke};
pub use trace::{
    Buckling, INSTANTS, ModeShape, Moment, PushTrace, ShaftPlace, ShaftShape, StrokePoint, Touch,
    story,
};
pub use track::STEPS;
