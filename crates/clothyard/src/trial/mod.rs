//! `clothyard trial`: a blind trial of two builds, from the sheet to the verdict.

pub(crate) mod cli;
mod judge;
mod sheet;
mod words;

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
