//! What may be said on the command line of `fit` and `tape`, and words that several
//! commands know.

use std::path::PathBuf;

use clap::{Args, ValueEnum};
use units::Style;

use crate::source::OneBuild;

/// A value to seek.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Seek {
    /// Departure speed
    Speed,
    /// Drag coefficient
    Drag,
    /// Eye to pin along the arrow
    Radius,
    /// Eye above the arrow
    Height,
}

/// What was shot, and what is sought in it.
#[derive(Debug, Args)]
pub(crate) struct ShotsOrder {
    /// What to seek, comma separated; everything else stays as in the scenario
    #[arg(long, value_name = "LIST", value_delimiter = ',', default_value = "speed")]
    pub(crate) seek: Vec<Seek>,
}

#[derive(Debug, Args)]
pub(crate) struct FitOrder {
    #[command(flatten)]
    pub(crate) of: OneBuild,
    /// The shots: a file of comma-separated values
    #[arg(long, value_name = "FILE")]
    pub(crate) shots: PathBuf,
    #[command(flatten)]
    pub(crate) shot: ShotsOrder,
    /// Write the fitted values as part files into this folder; it must not exist yet
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
}

/// Paper to print on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum PaperWord {
    /// 210 x 297 mm
    A4,
    /// 8.5 x 11 in
    Letter,
}

/// The paper asked for, or the one that goes with the units.
pub(crate) fn paper(asked: Option<PaperWord>, style: Style) -> print::Paper {
    match (asked, style) {
        (Some(PaperWord::A4), _) | (None, Style::Metric) => print::Paper::A4,
        (Some(PaperWord::Letter), _) | (None, Style::Archery) => print::Paper::Letter,
    }
}

/// Light to read in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum InkWord {
    /// Black on white
    Day,
    /// White on black, heavier, with fewer marks
    LowLight,
}

/// The finest marks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FinestWord {
    /// Every fifth yard or metre
    Fifth,
    /// Every one
    Every,
    /// Every half
    Half,
}

#[derive(Debug, Args)]
pub(crate) struct TapeOrder {
    #[command(flatten)]
    pub(crate) of: OneBuild,
    /// A mark you have shot, '20 yd = 31.5 mm' on the sight's scale, given twice; or
    /// once how far two lie apart, '20 yd to 60 yd = 19.9 mm'
    #[arg(long, value_name = "MARK", conflicts_with = "shots")]
    pub(crate) mark: Vec<String>,
    /// Fit to these shots first
    #[arg(long, value_name = "FILE")]
    pub(crate) shots: Option<PathBuf>,
    #[command(flatten)]
    pub(crate) shot: ShotsOrder,
    /// Paper; a4 goes with metric units, letter with archery units
    #[arg(long, value_name = "SIZE")]
    pub(crate) paper: Option<PaperWord>,
    /// Light in which it is read
    #[arg(long, value_name = "LIGHT", default_value = "day")]
    pub(crate) ink: InkWord,
    /// Finest marks drawn where there is room
    #[arg(long, value_name = "MARKS", default_value = "every")]
    pub(crate) finest: FinestWord,
    /// Width of a strip, with its unit
    #[arg(long, value_name = "LENGTH", default_value = "12 mm")]
    pub(crate) width: String,
    /// From the end of a strip to its first mark, with its unit
    #[arg(long, value_name = "LENGTH", default_value = "6 mm")]
    pub(crate) offset: String,
    /// Near marks at the foot, for a tape that moves past a fixed pointer
    #[arg(long)]
    pub(crate) near_below: bool,
    /// Folder for the pages [default: out/NAME-OF-THE-SCENARIO-tape]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace an earlier answer; a folder that holds anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
}

/// How strict the early looks of a test are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum RuleWord {
    /// Strict at first, at the last look nearly as one look would be
    ObrienFleming,
    /// As strict at every look
    Pocock,
}
