//! Bench questions that need flights: what a face costs, which cut hits
//! closest, which arrows to keep together, which way to turn a nock.
//!
//! The readings and the choices themselves are in the room `workbench`; here
//! each arrow is built as it was measured, pushed and flown without drawn
//! values, and without the archer.

mod aimed;
mod blank;
mod building;
mod chanced;
mod cut_answer;
mod cutting;
mod indexing;
mod parted;
mod predict;
mod saw_points;
mod sorting;
mod spin;
mod square;
mod stock;
mod throw;
mod traits;

pub use building::{BuildAsk, BuildStep, Building, PlannedArrow, StepTaken, build};
pub use cut_answer::{
    BatchWay, CutAsk, CutShaft, Cutting, LeftOut, PLAIN, Read, ShaftToCut, Way, WayKind,
};
pub use cutting::cut;
pub use indexing::{
    HIT_WORTH, IndexAsk, IndexFit, IndexVerdict, Indexed, Indexing, Shooting, TurnShot, index,
};
pub use sorting::{ChosenSet, Flier, Foreseen, SortAsk, Sorting, sort};
pub use spin::{CROOKED, SpinLimit, Spun};
pub use square::{FaceCost, FaceReading, Flat, SquareAsk, Squareness, Where, square};
pub use stock::{Against, CLAIM, CLAIM_GRADE, Claim, Dial, claims};
pub use throw::FlownRings;
pub use traits::Trait;
pub use workbench::{FaceVerdict, KEEP, REJECT};
