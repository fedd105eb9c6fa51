//! The scenario runner: draw values, shoot one, shoot many, when is enough.
//!
//! [`run`] answers a whole [`Plan`]; [`nominal`] and [`fly_one`] fly a single
//! arrow. Described in `docs/model/study.md`.
//!
//! A value is drawn by its distribution from a stream that seed and key name, so it
//! depends on nothing else:
//!
//! ```
//! use study::{Distribution, RandomStream};
//!
//! let release = Distribution::Normal { mean: 0.0, sd: 2.0e-3 };
//! let mut stream = RandomStream::new(7, "form.aim_left");
//! let third = stream.value(&release, 3);
//!
//! // The same again, whatever else was drawn before.
//! assert_eq!(RandomStream::new(7, "form.aim_left").value(&release, 3), third);
//! // Half of all values lie below the median.
//! assert_eq!(release.at(0.5), 0.0);
//! ```

mod again;
mod alone;
mod answer;
mod banded;
mod causes_alone;
mod draw;
mod drawn_arrow;
mod enough;
mod error;
mod evidence;
mod first;
mod fit;
mod group_cache;
mod landing;
mod marks;
mod nock;
mod one;
mod own_spread;
mod paired;
mod per_build;
mod pinned;
mod plan;
mod pushes;
mod quantile;
mod questions;
mod run;
mod safety;
mod sample;
mod sampler;
mod score;
mod seen;
mod settled;
mod shares;
mod shoot;
mod sightin;
mod sobol;
mod strips;
mod trial;
mod two_groups;
mod unknown;
mod unpushed;
mod variant;
mod watch;
mod whole;
pub mod workbench;

pub use launch::{
    Buckling, Departure, INSTANTS, ModeShape, Moment, PushTrace, Reel, ShaftPlace, ShaftShape,
    Side, StrokePoint, Touch, UpperHalf,
};

pub use answer::{Answer, Found};
pub use banded::Banded;
pub use causes_alone::CausesAlone;
pub use draw::RandomStream;
pub use error::{StudyError, Who};
pub use evidence::{Against, Evident, Measured, ReadingFound, Said, Told};
pub use fit::{
    ErrorsFrom, FitPlan, FitRow, Fitted, FittedSpeed, FittedSpeeds, FittedValue, NextShot,
    Observed, Refit, ShotFault, Sought, What, fit,
};
pub use marks::{
    Arc, ChangeValue, FARTHEST, MarkChange, MarkRow, MarksPlan, NEAREST, Obstacle,
    ObstacleClearance, Passing, PointOn, SightMarks, SightPin, SightedArrow, Slope, SlopeShot,
    marks,
};
pub use own_spread::own_spread;
pub use per_build::{BuildAnswer, Cause, MarkAnswer, Nominal, Sampled};
pub use pinned::{Held, MeasuredShift, Moved, Pinned};
pub use plan::{
    BenchStep, Build, Correlated, Distribution, DrawnParameter, Evidence, Owner, Per, Plan,
    Question, Recipe, Refused, Setup, Shares, Sight, Slot, Stated, StopRule, Sweep, TargetChoice,
    Tune, UncertainParameter, Worth,
};
pub use quantile::normal_quantile;
pub use questions::compare::Compared;
pub use questions::ends::SquareEnds;
pub use questions::ends::answer::{Ends, EndsAlone, Lever};
pub use questions::ends::order::EndsOrder;
pub use questions::ends::trade::{EYE, EndsView, Finding, TradeClaim};
pub use questions::matters::{
    CauseName, CauseShare, CauseSpread, MarkShares, Matters, MattersBuild, Plane, SharesOf,
};
pub use questions::sides::SHOTS as USUAL_SHOTS;
pub use questions::sides::answer::{
    After, BuildMeasure, BuildSide, DRIFT_WIND, Difference, Farthest, MOST_BUILDS, Misjudged,
    Misjudgement, PowerRow, Reach, ReachMark, RoundScore, SideBySide, SideMark, SidePair,
    SidePairMark,
};
pub use questions::sweep::{SweepAnswer, SweepPoint, Swept};
pub use questions::tune::answer::{
    BareMark, Clearance, Nearest, Neutral, Offset, Tear, Trend, TrendPoint, TrendShot, Tuned,
    TunedBuild, TuningChange, Turn, Turns, leaving,
};
pub use questions::tune::pin::pin;
pub use questions::worth::MOST_STEPS;
pub use questions::worth::answer::{Done, DoneMark, GreedyStep, WorthBuild, WorthOfSteps};
pub use run::{
    OneFlight, apart, film_push, fly_one, nominal, push_unknown, run, run_on, run_with, trace_push,
};
pub use safety::{Caution, Danger, Far, FarAt, FarBy, SafetyAsk, Seat, cautions};
pub use seen::{ARCHER_SHOTS, MOST_SHOTS, OneSight, Pair, PairMark, Seen, Shots};
pub use shares::{ShareEstimator, VarianceSums};
pub use shoot::start;
pub use sightin::Sighted;
pub use sobol::{Design, REPLICATES};
pub use strips::{StripMarks, StripsPlan, strips};
pub use trial::{
    Claim, EndShot, Expected, JudgedTrial, Lot, MOST_TRIAL_ARROWS, REST, REST_AT_LOOK, ReadBy,
    Trial, TrialAsk, TrialNext, TrialPlan, TrialSize, expected,
};
pub use two_groups::{Look, ShotGroup, TwoGroups};
pub use unknown::{Band, Joint, Narrowing, OUTER_POINTS, OuterPoint, QUICK_POINTS, Standing, Word};
pub use watch::{Quiet, Watch};
pub use whole::PointsFound;
