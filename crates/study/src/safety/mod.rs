//! What could hurt somebody: the one list of cautions, for every medium to show
//! before its answer. Model card: docs/model/safety.md.

mod arrow;
mod ask;
mod danger;
mod gate;
mod group;

pub use ask::SafetyAsk;
pub use danger::{Caution, Danger, Far, FarAt, FarBy, Seat};
pub(crate) use gate::among;
pub use gate::cautions;
