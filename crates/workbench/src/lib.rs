//! Before the first shot: what gauge readings say, where to cut, which arrows
//! to keep together, which way to turn a nock. No chance and no files in here.
//!
//! One file for each job: [`Gauge`] and [`face`] for end faces
//! (`docs/model/gauges.md`), [`Axis`], [`Known`] and [`plan`] for run-out and
//! cutting (`docs/model/cut-plan.md`), [`best_set`] for batches (`docs/model/sorting.md`),
//! [`best_turns`] for nocks (`docs/model/nock-index.md`), [`pair`] for parts (`docs/model/pairing.md`),
//! [`Job`] for arrows through their stages.
//!
//! An indicator read at four clock positions: the shaft's centre lies 0.01 mm off
//! the axis of turning, toward clock position 90 degrees.
//!
//! ```
//! use workbench::harmonic;
//!
//! let turn = |quarter: f64| quarter * std::f64::consts::FRAC_PI_2;
//! let read = [(turn(0.0), 5.00), (turn(1.0), 5.01), (turn(2.0), 5.00), (turn(3.0), 4.99)];
//! let found = harmonic(&read)?;
//! assert!((found.mean - 5.0).abs() < 1e-12);
//! assert!((found.wave.size() - 0.01).abs() < 1e-12);
//! assert!((found.wave.clock() - turn(1.0)).abs() < 1e-9);
//! # Ok::<(), workbench::WorkbenchError>(())
//! ```

mod axis;
mod batch;
mod cut;
mod error;
mod face;
mod gauge;
mod gauged;
mod harmonic;
mod job;
mod known;
mod pairing;
mod part;
mod piece;
mod population;
mod routine;
mod set;
mod sighting;
mod sound;
mod split;
mod turn;

pub use axis::{Axis, FULL_SPAN, Indicator, RunOut, Straight};
pub use batch::{Bare, Measured, Spun, Stage, Worked};
pub use cut::{Cut, CutPlan, SawJob, plan};
pub use error::WorkbenchError;
pub use face::{EndFace, FaceVerdict, KEEP, REJECT, face};
pub use gauge::{Gauge, LIGHT, Span, off_axis};
pub use gauged::Gauged;
pub use harmonic::{Harmonic, harmonic};
pub use job::{Job, STAGES};
pub use known::{Drawn, Known, Thrown};
pub use pairing::{Pairing, Share, pair};
pub use part::{LoosePart, PART_KINDS, PartKind};
pub use piece::{Seats, Throw};
pub use population::Population;
pub use routine::ThreeReadings;
pub use set::{Place, Set, best_by_value, best_set, set_of, sortable};
pub use sighting::Sighting;
pub use split::{Split, split_in_turn, split_together};
pub use turn::{TurnFit, Turned, best_turns, fit_turns};
