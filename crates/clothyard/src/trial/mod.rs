//! `clothyard trial`: a blind trial of two builds, from the sheet to the verdict.

pub(crate) mod cli;
mod judge;
mod sheet;

use crate::Stream;
use crate::failure::Failure;
use cli::TrialJob;

pub(crate) fn trial(
    order: &cli::TrialOrder,
    out: &mut Stream,
    err: &mut Stream,
) -> Result<(), Failure> {
    match &order.job {
        TrialJob::Sheet(order) => sheet::sheet(order, out, err),
        TrialJob::Judge(order) => judge::judge(order, out, err),
    }
}

/// Files of a trial's folder.
const PLAN: &str = "plan.csv";
const KEY: &str = "key.csv";
const SHOTS: &str = "shots.csv";
const SPREADS: &str = "spreads.csv";

/// A quantity of an option.
fn quantity<Q: units::Quantity>(option: &'static str, text: &str) -> Result<Q, Failure> {
    units::parse(text.trim()).map_err(|cause| Failure::Size {
        option,
        text: text.to_owned(),
        cause,
    })
}
