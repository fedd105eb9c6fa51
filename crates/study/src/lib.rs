//! The scenario runner: draw values, shoot one, shoot many, when is enough.
//!
//! [`run`] answers a whole [`Plan`]; [`nominal`] and [`fly_one`] fly a single
//! arrow. Described in `docs/model/study.md`.

mod answer;
mod bands;
mod draw;
mod enough;
mod error;
mod first;
mod fit;
mod group;
mod marks;
mod matters;
mod one;
mod paired;
mod pinned;
mod plan;
mod quantile;
mod questions;
mod range;
mod run;
mod score;
mod shares;
mod shoot;
mod sides;
mod sightin;
mod sobol;
mod story;
mod strips;
mod take;
mod tuned;
mod watch;
pub mod workbench;
mod worth;

pub use answer::{
    Answer, BuildAnswer, Cause, Ends, EndsAlone, EndsView, Finding, Lever, MarkAnswer, Nominal,
    Pair, PairMark, Sampled, Seen, Shots, SweepAnswer, SweepPoint, TradeClaim,
};
pub use draw::Stream;
pub use error::{StudyError, Who};
pub use fit::{
    ErrorsFrom, FitPlan, FitRow, Fitted, FittedValue, NextShot, Observed, Refit, ShotFault, Sought,
    What, fit,
};
pub use marks::{
    Arc, Change as MarkChange, ChangeValue, FARTHEST, Hill, HillShot, MarkRow, Marker, MarksPlan,
    NEAREST, Passing, Pin, PointOn, SightMarks, Twig, TwigAnswer, marks,
};
pub use matters::{Axis, Faulty, MarkShares, Matters, MattersBuild, Share, SharesOf, Spread};
pub use pinned::{Held, Measured, Moved, Pinned};
pub use plan::{
    BenchStep, Build, Doubt, Draw, Law, Owner, Per, Plan, Question, Recipe, Refused, Setup, Shares,
    Sight, Slot, StopRule, Sweep, TargetChoice, Tune, Worth,
};
pub use quantile::normal_quantile;
pub use questions::compare::{ARCHER_SHOTS, MOST_SHOTS};
pub use questions::sides::SHOTS as USUAL_SHOTS;
pub use questions::trade::EYE;
pub use questions::tune::pin::pin;
pub use questions::worth::MOST_STEPS;
pub use run::{OneFlight, fly_one, nominal, run, run_on};
pub use shares::{Ratio, Sums};
pub use shoot::start;
pub use sides::{
    After, Difference, Farthest, MOST_BUILDS, Measure, Misjudged, Misjudgement, Reach, ReachMark,
    RoundScore, Side, SideMark, SidePair, SidePairMark, Sides, Stated, Told,
};
pub use sightin::Sighted;
pub use sobol::{Design, REPLICATES};
pub use story::{
    Buckling, INSTANTS, ModeShape, Moment, PushStory, ShaftPlace, ShaftShape, StrokePoint, Touch,
    watch_push,
};
pub use strips::{StripMarks, StripsPlan, strips};
pub use tuned::{
    Banded, BareMark, Change, Clearance, Nearest, Neutral, Offset, Tear, Trend, TrendPoint,
    TrendShot, Tuned, TunedBuild, Turn, Turns, leaving,
};
pub use watch::{Quiet, Watch};
pub use worth::{Bench, Done, DoneMark, Link, WorthBuild};
