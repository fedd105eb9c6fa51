//! The scenario runner: draw values, shoot one, shoot many, when is enough.

mod answer;
mod plan;

pub use answer::{
    Answer, BuildAnswer, Cause, EndsView, MarkAnswer, Nominal, Pair, PairMark, Sampled, Seen,
    Shots, SweepAnswer, SweepPoint, TradeClaim,
};
pub use plan::{
    Build, Doubt, Draw, Law, Owner, Per, Plan, Question, Recipe, Refused, Setup, Sight, Slot,
    StopRule, Sweep, TargetChoice,
};
