//! The scenario runner: draw values, shoot one, shoot many, when is enough.
//!
//! [`run`] answers a whole [`Plan`]; [`nominal`] and [`fly_one`] fly a single
//! arrow. Described in `docs/model/study.md`.

mod answer;
mod bands;
mod draw;
mod enough;
mod error;
mod group;
mod one;
mod paired;
mod plan;
mod quantile;
mod questions;
mod range;
mod run;
mod score;
mod shoot;
mod sightin;
mod take;
mod watch;

pub use answer::{
    Answer, BuildAnswer, Cause, Ends, EndsAlone, EndsView, Finding, Lever, MarkAnswer, Nominal,
    Pair, PairMark, Sampled, Seen, Shots, SweepAnswer, SweepPoint, TradeClaim,
};
pub use draw::Stream;
pub use error::{StudyError, Who};
pub use plan::{
    Build, Doubt, Draw, Law, Owner, Per, Plan, Question, Recipe, Refused, Setup, Sight, Slot,
    StopRule, Sweep, TargetChoice,
};
pub use quantile::normal_quantile;
pub use questions::compare::{ARCHER_SHOTS, MOST_SHOTS};
pub use questions::trade::EYE;
pub use run::{OneFlight, fly_one, nominal, run, run_on};
pub use shoot::start;
pub use sightin::Sighted;
pub use watch::{Quiet, Watch};
