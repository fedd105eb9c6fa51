//! The push: from the bow's stored energy to the state in which the arrow
//! leaves the string.

mod bow;

pub use bow::{Bow, BowKind, Departure, Form, GivenDeparture, Rest, SpeedSource};
