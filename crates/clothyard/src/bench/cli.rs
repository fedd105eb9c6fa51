//! What may be said after `clothyard bench`.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use crate::source::{Family, OneBuild};

#[derive(Debug, Args)]
#[command(subcommand_required = true, arg_required_else_help = true)]
pub(crate) struct Bench {
    #[command(subcommand)]
    pub(crate) job: BenchJob,
}

#[derive(Debug, Subcommand)]
pub(crate) enum BenchJob {
    /// What end faces out of square cost, and how flat is flat enough
    Square(Square),
    /// Where to cut shafts so that the arrows hit closest
    Cut(Box<CutOrder>),
    /// Which arrows of a batch to keep together
    Sort(Sort),
    /// Which way to turn each nock, and how to find it by shooting
    Index(Index),
    /// Which shaft gets which parts, where stiff sides and nocks go, what a spin test passes
    #[command(after_long_help = "\
Shafts that were weighed, raw with their length or cut, get points, inserts and nocks that
were weighed, for arrows alike in mass and balance; what was not weighed is left out and
named. Start the parts with `clothyard bench note parts my-parts.csv part=point name=1
mass='100.2 gr'`.

Example: clothyard bench build scenarios/bench/bench.toml --shafts scenarios/bench/shafts.csv \\
           --parts scenarios/bench/parts.csv")]
    Build(BuildOrder),
    /// Add a row to a notebook, or begin one
    #[command(after_long_help = "\
A new notebook gets every column of its kind; an old one keeps its columns, units, separator,
decimal marks and line ends. No row that is in it is ever changed. A row with correction=yes puts
an earlier one right, correction=void takes back what it names; what is asked about and is so is
noted with correction=sure.

Example: clothyard bench note batch my-dozen.csv arrow=7 mass='425.3 gr' spine='0.341 in'")]
    Note(NoteOrder),
    /// The columns of a notebook, or an empty sheet to fill in
    #[command(after_long_help = "\
Wall thickness has no column: what a wall does to an arrow is in its mass and its spine, which
are read themselves. In a column of your own it is kept, passed over and named.

Example: clothyard bench columns three --sheet > my-shafts.csv")]
    Columns(ColumnsOrder),
}

/// What every bench question shares.
#[derive(Debug, Args)]
pub(crate) struct Common {
    #[command(flatten)]
    pub(crate) of: OneBuild,
    /// Folder for the report [default: out/NAME-OF-THE-SCENARIO-bench-JOB]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace an earlier answer; a folder that holds anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Square {
    #[command(flatten)]
    pub(crate) common: Common,
    /// Notebook of face readings
    #[arg(long, value_name = "FILE")]
    pub(crate) readings: Option<PathBuf>,
    /// By what share the archer's group may grow
    #[arg(long, value_name = "SHARE", default_value = "5 %")]
    pub(crate) share: String,
}

/// How a straightness figure is meant.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum StraightnessWord {
    /// Highest less lowest reading while the shaft turns
    Total,
    /// Plus or minus the figure
    PlusMinus,
}

#[derive(Debug, Args)]
pub(crate) struct CutOrder {
    #[command(flatten)]
    pub(crate) common: Common,
    /// Notebook of run-out along shafts
    #[arg(long, value_name = "FILE", conflicts_with = "grade")]
    pub(crate) readings: Option<PathBuf>,
    /// Where the two supports stood, from the nock end, such as '2 in, 30 in'
    #[arg(long, value_name = "PLACES")]
    pub(crate) supports: Option<String>,
    /// Notebook of three readings a shaft: middle, nock end and point end
    #[arg(long, value_name = "FILE", conflicts_with_all = ["readings", "grade"])]
    pub(crate) three: Option<PathBuf>,
    /// How far in from each end the rollers stand when the ends are read
    #[arg(long, value_name = "LENGTH", default_value = "3 in")]
    pub(crate) set_in: String,
    /// Smallest step of the indicator
    #[arg(long, value_name = "LENGTH", default_value = "0.0005 in")]
    pub(crate) step: String,
    /// Scale of the saw's stop
    #[arg(long, value_name = "LENGTH", default_value = "1/16 in")]
    pub(crate) stop: String,
    /// What the body of such shafts reads in the middle of 28 in, root mean square
    #[arg(long, value_name = "LENGTH", default_value = "0.004 in")]
    pub(crate) body: String,
    /// Hook at the nock end of such shafts: scale of the reading at the very end
    #[arg(long, value_name = "LENGTH", default_value = "0.0045 in")]
    pub(crate) nock_hook: String,
    /// Hook at the point end
    #[arg(long, value_name = "LENGTH", default_value = "0.00225 in")]
    pub(crate) point_hook: String,
    /// In place of a notebook: what the shafts read, or are sold as, over 28 in
    #[arg(long, value_name = "LENGTH", requires = "measure", requires = "stock")]
    pub(crate) grade: Option<String>,
    /// Whether that figure is a total or plus and minus
    #[arg(long, value_name = "MEASURE")]
    pub(crate) measure: Option<StraightnessWord>,
    /// Length of the shafts, where the notebook does not tell
    #[arg(long, value_name = "LENGTH")]
    pub(crate) stock: Option<String>,
    /// Length wanted, end face to end face [default: the scenario's shaft]
    #[arg(long, value_name = "LENGTH")]
    pub(crate) wanted: Option<String>,
    /// Width of the saw's cut
    #[arg(long, value_name = "LENGTH", default_value = "0.04 in")]
    pub(crate) kerf: String,
    /// How far the saw's stop may stand wrong
    #[arg(long, value_name = "LENGTH", default_value = "0.02 in")]
    pub(crate) tolerance: String,
    /// The most that may come off the nock end
    #[arg(long, value_name = "LENGTH")]
    pub(crate) most_rear: Option<String>,
    /// The most that may come off the point end
    #[arg(long, value_name = "LENGTH")]
    pub(crate) most_front: Option<String>,
}

/// Arrows that are alike in what moves them.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Only {
    /// Raw, cut or squared shafts
    Bare,
    /// Built or shot arrows
    Finished,
}

#[derive(Debug, Args)]
pub(crate) struct Sort {
    #[command(flatten)]
    pub(crate) common: Common,
    /// Notebook of measured shafts or arrows
    #[arg(long, value_name = "FILE")]
    pub(crate) batch: PathBuf,
    /// A set and how many arrows it needs; the most important set first
    #[arg(long = "set", value_name = "NAME=COUNT", required = true)]
    pub(crate) sets: Vec<String>,
    /// Which to take of a notebook that holds bare shafts and finished arrows
    #[arg(long, value_name = "KIND")]
    pub(crate) only: Option<Only>,
    /// Choose all sets together, not one after the other
    #[arg(long)]
    pub(crate) together: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Index {
    #[command(flatten)]
    pub(crate) common: Common,
    /// Notebook of measured shafts or arrows
    #[arg(long, value_name = "FILE", required_unless_present = "shots")]
    pub(crate) batch: Option<PathBuf>,
    /// Notebook of shots with nocks turned
    #[arg(long, value_name = "FILE")]
    pub(crate) shots: Option<PathBuf>,
    /// How many evenly spread positions a nock may take [default: one for each vane]
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u32).range(1..=360))]
    pub(crate) positions: Option<u32>,
}

#[derive(Debug, Args)]
pub(crate) struct BuildOrder {
    #[command(flatten)]
    pub(crate) common: Common,
    /// Notebook of measured shafts
    #[arg(long, value_name = "FILE")]
    pub(crate) shafts: PathBuf,
    /// Notebook of points, inserts and nocks
    #[arg(long, value_name = "FILE")]
    pub(crate) parts: PathBuf,
    /// Mass wanted of an arrow [default: what the parts give on average]
    #[arg(long, value_name = "MASS")]
    pub(crate) mass: Option<String>,
    /// Front of centre wanted [default: what the parts give on average]
    #[arg(long, value_name = "SHARE")]
    pub(crate) foc: Option<String>,
    /// How many evenly spread positions a shaft may take to its nock
    #[arg(long, value_name = "NUMBER", default_value_t = 12, value_parser = clap::value_parser!(u32).range(1..=360))]
    pub(crate) positions: u32,
    /// By what share the archer's group may grow by wobbles that pass
    #[arg(long, value_name = "SHARE", default_value = "5 %")]
    pub(crate) share: String,
}

/// Kinds of notebook.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Kind {
    /// Shafts or arrows, one to a row; `job note` calls it arrows
    #[value(alias = "arrows")]
    Batch,
    /// End faces, one reading to a row
    Faces,
    /// Run-out along shafts, one reading to a row
    Profile,
    /// Middle, nock end and point end of shafts, one shaft to a row
    Three,
    /// Shots with nocks turned, one to a row
    Shots,
    /// What a job is: customer, bow, batch, how many arrows
    Job,
    /// Points, inserts and nocks that were weighed, one to a row
    Parts,
}

#[derive(Debug, Args)]
pub(crate) struct NoteOrder {
    /// Kind of notebook
    pub(crate) kind: Kind,
    /// The notebook
    pub(crate) file: PathBuf,
    /// What to note, such as arrow=7 mass='425.3 gr'
    #[arg(value_name = "COLUMN=VALUE", required = true)]
    pub(crate) values: Vec<String>,
    /// Units of a new notebook
    #[arg(long, value_name = "FAMILY", default_value = "archery")]
    pub(crate) units: Family,
}

#[derive(Debug, Args)]
pub(crate) struct ColumnsOrder {
    /// Kind of notebook
    pub(crate) kind: Kind,
    /// Print an empty sheet as CSV: heads with units, and one row as an example
    #[arg(long)]
    pub(crate) sheet: bool,
    /// Units of the sheet
    #[arg(long, value_name = "FAMILY", default_value = "archery")]
    pub(crate) units: Family,
}
