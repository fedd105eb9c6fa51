//! Before the first shot: what gauge readings say, where to cut, which arrows
//! to keep together, which way to turn a nock. No chance and no files in here.
//!
//! One file for each job: [`Gauge`] and [`face`] for end faces
//! (`docs/model/gauges.md`), [`Axis`] and [`plan`] for run-out and cutting
//! (`docs/model/cut-plan.md`), [`best_set`] for batches (`docs/model/sorting.md`),
//! [`best_turns`] for nocks (`docs/model/nock-index.md`).

mod axis;
mod batch;
mod cut;
mod error;
mod face;
mod gauge;
mod harmonic;
mod piece;
mod set;
mod split;
mod turn;

pub use axis::{Axis, Dial, FULL_SPAN, RunOut, Straight};
pub use batch::{Measured, Spun};
pub use cut::{Cut, CutPlan, Job, plan};
pub use error::WorkbenchError;
pub use face::{Face, face};
pub use gauge::{Gauge, LIGHT, Span, off_axis};
pub use harmonic::{Harmonic, harmonic};
pub use piece::Seats;
pub use set::{Place, Set, best_by_value, best_set, set_of};
pub use split::{Split, split_in_turn, split_together};
pub use turn::{TurnFit, Turned, best_turns, fit_turns};
