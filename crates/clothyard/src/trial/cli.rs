//! What may be said on the command line of `trial`.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use crate::orders::{PaperWord, RuleWord};
use crate::source::Family;

#[derive(Debug, Args)]
pub(crate) struct TrialOrder {
    #[command(subcommand)]
    pub(crate) job: TrialJob,
}

#[derive(Debug, Subcommand)]
pub(crate) enum TrialJob {
    /// Say how many arrows settle it, and print a blind shooting sheet with its key
    #[command(after_long_help = "\
Say what the trial is to show in one of three ways: --times, how many times as wide one
build groups; --apart and --spread, how far their centres lie apart and what your groups
span; or --of, a scenario with both builds and an archer, from which it is computed.

The folder gets sheet.pdf to shoot by, key.pdf for the helper, a table to fill in, and
plan.csv and key.csv, which `clothyard trial judge` reads. Where no sane number of
arrows shows it, the answer says so and nothing is written.

Examples:
  clothyard trial sheet square crooked --distance '30 yd' --times 1.3
  clothyard trial sheet squared sawn --distance '40 yd' --apart '3 in' --spread '5 arrows 6 in'
  clothyard trial sheet --of scenarios/broadhead-ends.toml --distance '40 yd'")]
    Sheet(Box<SheetOrder>),
    /// Say stop or go on, from what was shot so far
    #[command(after_long_help = "\
Ends not yet shot stay blank in the table. A look is made only after the ends that the
plan says, with those before it; the first that tells ends the trial. The result can be
named in a scenario as evidence = \"FILE\" with --evidence, so that other answers use it.

Examples:
  clothyard trial judge out/trial
  clothyard trial judge out/trial --end '6 in, 4 1/2 in' --end '5 in, 5 in'
  clothyard trial judge out/trial --evidence measured.toml")]
    Judge(JudgeOrder),
}

#[derive(Debug, Args)]
pub(crate) struct SheetOrder {
    /// Names of the two builds; with --of, two of its builds [default: its first two]
    #[arg(value_name = "BUILD", num_args = 0..=2)]
    pub(crate) builds: Vec<String>,
    /// How far away the target is
    #[arg(long, value_name = "LENGTH")]
    pub(crate) distance: String,
    /// To show that one groups so many times as wide as the other
    #[arg(long, value_name = "NUMBER", conflicts_with_all = ["apart", "of"])]
    pub(crate) times: Option<String>,
    /// To show that the centres lie so far apart
    #[arg(long, value_name = "LENGTH", conflicts_with = "of", requires = "spread")]
    pub(crate) apart: Option<String>,
    /// What your groups span there, as '5 arrows 6 in'
    #[arg(long, value_name = "GROUP", requires = "apart")]
    pub(crate) spread: Option<String>,
    /// A scenario with both builds and an archer, to compute the difference from
    #[arg(long, value_name = "FILE")]
    pub(crate) of: Option<PathBuf>,
    /// With --of, which difference it is for [default: the one that takes fewer arrows]
    #[arg(long, value_name = "WHICH", requires = "of")]
    pub(crate) asks: Option<AsksWord>,
    /// What is measured of each end
    #[arg(long, value_name = "WHAT", default_value = "places")]
    pub(crate) by: ByWord,
    /// Arrows of each build in each end
    #[arg(long, value_name = "NUMBER", default_value_t = 3, value_parser = clap::value_parser!(u32).range(1..=6))]
    pub(crate) arrows: u32,
    /// How many looks the trial has, evenly spaced
    #[arg(long, value_name = "NUMBER", default_value_t = 3, value_parser = clap::value_parser!(u32).range(1..=10))]
    pub(crate) looks: u32,
    /// How strict early looks are
    #[arg(long, value_name = "RULE", default_value = "obrien-fleming")]
    pub(crate) rule: RuleWord,
    /// How sure it must be [default: 95 %]
    #[arg(long, value_name = "SHARE")]
    pub(crate) confidence: Option<String>,
    /// How often a true difference must show [default: 80 %]
    #[arg(long, value_name = "SHARE")]
    pub(crate) power: Option<String>,
    /// Seed of order and key, to print the same again; kept in plan.csv and on the key
    /// [default: a fresh one each time]
    #[arg(long, value_name = "NUMBER")]
    pub(crate) seed: Option<u32>,
    /// Units on output [default: as the distance is said, metric for metres]
    #[arg(long, value_name = "FAMILY")]
    pub(crate) units: Option<Family>,
    /// Paper to print on [default: letter; A4 with metric units]
    #[arg(long, value_name = "PAPER")]
    pub(crate) paper: Option<PaperWord>,
    /// Answer as JSON on standard output, every number in SI with its unit
    #[arg(long)]
    pub(crate) json: bool,
    /// Folder for sheet, key and tables [default: out/trial]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace an earlier sheet nobody has written in; anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
}

/// What a trial is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum AsksWord {
    /// Which groups tighter
    Width,
    /// Whether they hit in one place
    Centre,
}

/// What is measured of each end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum ByWord {
    /// Left and up of every arrow
    Places,
    /// The widest distance between two arrows of each build
    Spreads,
}

#[derive(Debug, Args)]
pub(crate) struct JudgeOrder {
    /// The folder of the trial
    pub(crate) folder: PathBuf,
    /// The table that was filled in [default: shots.csv or spreads.csv in the folder]
    #[arg(long, value_name = "FILE")]
    pub(crate) shots: Option<PathBuf>,
    /// Spreads of one end, first build and second, in place of the table; one for each end
    #[arg(long, value_name = "SPREADS", conflicts_with = "shots")]
    pub(crate) end: Vec<String>,
    /// Write how far the centres lie apart to this file, as evidence for a scenario; it must
    /// not exist yet
    #[arg(long, value_name = "FILE")]
    pub(crate) evidence: Option<PathBuf>,
    /// Units on output [default: archery]
    #[arg(long, value_name = "FAMILY")]
    pub(crate) units: Option<Family>,
    /// Answer as JSON on standard output, every number in SI with its unit
    #[arg(long)]
    pub(crate) json: bool,
}
