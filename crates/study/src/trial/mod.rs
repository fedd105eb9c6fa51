//! A blind trial of two builds on the range: how many arrows settle it, in what order
//! they are shot, and what they say so far.
//!
//! Model card: `docs/model/trial.md`.

mod expected;
mod judge;
mod order;
mod plan;

pub use expected::{Expected, expected};
pub use judge::{EndShot, JudgedTrial, Trial, TrialNext};
pub use order::Lot;
pub use plan::{
    Claim, MOST_TRIAL_ARROWS, REST, REST_AT_LOOK, ReadBy, TrialAsk, TrialPlan, TrialSize,
};
