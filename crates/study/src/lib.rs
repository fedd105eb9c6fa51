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
mod pinned;
mod plan;
mod quantile;
mod questions;
mod range;
mod run;
mod score;
mod shoot;
mod sightin;
mod story;
mod take;
mod tuned;
mod watch;
pub mod workbench;

pub use answer::{
    Answer, BuildAnswer, Cause, Ends, EndsAlone, EndsView, Finding, Lever, MarkAnswer, Nominal,
    Pair, PairMark, Sampled, Seen, Shots, SweepAnswer, SweepPoint, TradeClaim,
};
pub use draw::Stream;
pub use error::{StudyError, Who};
pub use pinned::{Measured, Moved, Pinned};
pub use plan::{
    Build, Doubt, Draw, Law, Owner, Per, Plan, Question, Recipe, Refused, Setup, Sight, Slot,
    StopRule, Sweep, TargetChoice, Tune,
};
pub use quantile::normal_quantile;
pub use questions::compare::{ARCHER_SHOTS, MOST_SHOTS};
pub use questions::trade::EYE;
pub use questions::tune::pin::pin;
pub use run::{OneFlight, fly_one, nominal, run, run_on};
pub use shoot::start;
pub use sightin::Sighted;
pub use story::{
    Buckling, INSTANTS, ModeShape, Moment, PushStory, ShaftPlace, ShaftShape, StrokePoint, Touch,
    watch_push,
};
pub use tuned::{
    Banded, BareMark, Change, Clearance, Nearest, Neutral, Offset, Tear, Trend, TrendPoint,
    TrendShot, Tuned, TunedBuild, Turn, Turns, leaving,
};
pub use watch::{Quiet, Watch};
