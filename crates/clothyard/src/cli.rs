//! What may be said on the command line.

use std::net::{IpAddr, Ipv4Addr};
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

use crate::source::{Family, OneBuild, Source, Told};

/// What a bench step buys downrange, computed.
///
/// Clothyard builds an arrow from its parts and faults, pushes it out of the
/// bow, flies it in six degrees of freedom, and tells what a fault or a choice
/// changes at the target: measurable, or lost in the archer's own form.
#[derive(Debug, Parser)]
#[command(name = "clothyard", version, after_long_help = CODES)]
pub(crate) struct Cli {
    #[command(subcommand)]
    pub(crate) command: Option<Command>,
}

const CODES: &str = "\
Without a command the live page is started, as by `clothyard page`.

Start here:
  clothyard                                    change a build, see the flight change
  clothyard run scenarios/square-ends.toml     answer a question, write a report
  clothyard check my-scenario.toml             read a scenario, name every mistake
  clothyard keys                               every key a scenario may hold

Exit codes:
  0  done
  1  the computation failed (an arrow that fell short, a value drawn out of range)
  2  the command line or a file you gave is wrong; nothing was written
  3  the system refused to write a file, or to print; silent if a pipe was closed

Results are computed, not measured. Keep to the limits of the bow's maker and to
local law, and never shoot without a safe backstop.";

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Start the live page: change a build, see the flight change
    #[command(after_long_help = "\
The page answers at an address of this computer only, opens no browser unless
asked, and asks nothing of any other computer. A scenario you save, a job you
open and a trial you print go into the folder it was started in, and never over
a file that is there; a reading you note is added to its job.

Example: clothyard page scenarios/square-ends.toml --open")]
    Page(Page),
    /// Answer the scenario's question and write a report folder
    Run(RunOrder),
    /// Fly one arrow and print its state at range marks
    #[command(after_long_help = "\
The arrow flies with the fixed faults and form of the scenario; values given as
a distribution stay at their centre. left and up are measured from the straight
line to the target, at the arrow's balance point.

Example: clothyard fly scenarios/square-ends.toml --marks '10 yd, 20 yd' --as csv")]
    Fly(Fly),
    /// Show the built arrow: mass, balance, FOC, inertia, stiffness, faults
    Arrow(OneBuild),
    /// Show the push of one arrow, from release to departure
    #[command(after_long_help = "\
The arrow is pushed with the fixed faults, release and nock path of the scenario;
values given as a distribution stay at their centre. The folder gets a report,
pictures, and tables of every step, of the shaft's shapes, of its modes and of
the forces along the stroke. docs/push-explained.md says what they mean.

Example: clothyard push scenarios/finger-recurve.toml --units metric")]
    Push(PushOrder),
    /// Find how firmly the string holds the nock, from one measured shift or push
    #[command(after_long_help = "\
The scenario says in [measured] what was done and seen: the same arrow with its
nock turned, or bare against fletched, and how far the impact moved at a distance;
or the nock of the bow pushed by some force, and how far it gave way.
The answer is bow.restraint, left and up, that explains it, and the range left by
what else is poorly known. docs/push-explained.md shows how to measure.

Example: clothyard pin my.toml --out parts/my-string.toml")]
    Pin(PinOrder),
    /// Compute sight marks, and the drop, slope, change and clearance tables
    #[command(after_long_help = "\
The scenario says in [sight] how the sight is built and set, and in [marks] which
distances, slopes and changes are wanted; [marks] may be empty. The marks are those
of the arrow without faults, on level ground. The folder gets report.html, pictures,
and tables of marks, arcs, slopes, changes and twigs.

Sight in at short range first, shoot every mark before you trust it, and never
shoot at an animal by a computed mark alone.

Example: clothyard marks scenarios/sight-marks.toml")]
    Marks(Marks),
    /// Judge two groups really shot: width and centre, or what it would take to know
    #[command(after_long_help = "\
A file has a line of names, then one line for each arrow, in any order:
  left [in], up [in]
  0.8, -1.2
Other columns are passed over and named; right and down may stand in place of left and
up. Commas, semicolons or tabs part the cells. With coordinates, all from one point,
the centres are judged too, as of broadheads against field points. Without them, give
for each group how many arrows it holds and the widest distance between two of them,
or their mean distance from its centre.

Looking again and again until something shows misleads. Plan so many looks beforehand,
shoot as many arrows before each, in an order drawn by lot by somebody else, and say at
each which it is: --look 1 --looks 3. Stop where it tells.

Examples:
  clothyard verdict old.csv new.csv
  clothyard verdict field-points.csv broadheads.csv --distance '30 yd'
  clothyard verdict --n 5 --spread '6 in' --n 5 --spread '4 1/2 in'
  clothyard verdict --n 12 --mean-radius '2.1 in' --n 12 --mean-radius '1.6 in'")]
    Verdict(VerdictOrder),
    /// Settle two builds on the range: a blind shooting sheet, and when to stop
    #[command(after_long_help = "\
Examples:
  clothyard trial sheet square crooked --distance '30 yd' --times 1.3
  clothyard trial judge out/trial")]
    Trial(crate::trial::cli::TrialOrder),
    /// Fit speed, drag and sight to what was really shot
    #[command(after_long_help = "\
The shots stand in a CSV file of any spreadsheet with a unit in the heads or in the
cells; each line is one distance and one reading:

  distance [yd],pin [yd],speed [ft/s],mark [mm],gap [mm],up [in]
  3,,281,,,            a chronograph at 3 yd
  40,,,18.2,,          the sight's scale reads 18.2 mm when the arrow hits at 40 yd
  40,20,,,9.9,         on the sight the 40 yd pin lies 9.9 mm from the 20 yd pin
  30,20,,,,-9.5        at 30 yd, held with the 20 yd pin, it hits 9.5 in low

Columns that are not used may be left out. 'speed error [ft/s]', 'mark error [mm]',
'gap error [mm]' and 'up error [in]' state standard errors. The answer says how well
each value is known, which shots disagree, and what to shoot next.

Example: clothyard fit scenarios/sight-marks.toml --shots scenarios/shots/two-marks.csv")]
    Fit(crate::orders::FitOrder),
    /// Make a sight tape and cards to print at true scale
    #[command(after_long_help = "\
The folder gets tape.pdf and card.pdf, and both as SVG. With two marks
you have shot, or --shots, the speed is fitted to them and the tape is the one strip.
Without them it is a fan: marks as curves across arrow speed, to be cut along the line
where two marks fit that you shoot later. Marks run from the first to the last
distance of [marks]; yards with archery units, metres with metric ones.

Sight in at short range first, shoot every mark before you trust it, and never
shoot at an animal by a computed mark alone.

Examples:
  clothyard tape scenarios/sight-marks.toml --ink low-light
  clothyard tape scenarios/sight-marks.toml --mark '20 yd = 12 mm' --mark '60 yd = 31.9 mm'")]
    Tape(crate::orders::TapeOrder),
    /// Work at the bench: faces, cuts, sets, parts, nock turns, and the notebooks for them
    #[command(after_long_help = "\
Readings come from notebooks, CSV files of any spreadsheet: columns in any order and
some of your own, a unit in the head (mass [gr]) or in the cells, decimal points or
commas, commas, semicolons or tabs between cells; titles, units below the heads and rows of
totals are passed over. Start one with `clothyard bench note`. Each command writes a folder with report.html, pictures, CSV and JSON.

Example: clothyard bench sort scenarios/bench/bench.toml --batch scenarios/bench/dozen.csv \\
           --set hunt=6 --set practice=4")]
    Bench(Box<crate::bench::cli::Bench>),
    /// Keep a job: numbered arrows from raw shaft to shot, labels, batch sheet, card
    #[command(after_long_help = "\
A job is one folder of CSV files: job.csv says for whom and how many, arrows.csv what was
done and read of each arrow at each stage. Rows are only ever added; a correction is a new
row. The files are notebooks as those of `clothyard bench`, which reads them too.

Example: clothyard job open jobs/tansy --for 'Tansy Creek' --arrows 12")]
    Job(crate::job::cli::JobOrder),
    /// Read a scenario and name every mistake in it
    Check(Check),
    /// Print the JSON Schema that lets an editor complete and check scenarios
    Schema,
    /// Print every key a scenario may hold, with ranges and defaults
    Keys,
    /// Print a completion script for a shell
    Completions {
        /// Which shell
        shell: clap_complete::Shell,
    },
    /// Print the manual page
    Man,
}

impl Default for Command {
    fn default() -> Self {
        Self::Page(Page { file: None, port: PORT, address: LOOPBACK, open: false })
    }
}

/// Where the page answers unless told otherwise; the port is chosen, free on
/// most computers.
const PORT: u16 = 7373;
const LOOPBACK: IpAddr = IpAddr::V4(Ipv4Addr::LOCALHOST);

#[derive(Debug, Args)]
pub(crate) struct Page {
    /// The scenario to start from [default: an invented build]
    pub(crate) file: Option<PathBuf>,
    /// Port to answer at; 0 for any that is free
    #[arg(long, value_name = "NUMBER", default_value_t = PORT)]
    pub(crate) port: u16,
    /// Address to answer at; any but a loopback one lets other computers in
    #[arg(long, value_name = "ADDRESS", default_value_t = LOOPBACK)]
    pub(crate) address: IpAddr,
    /// Open the page in the browser
    #[arg(long)]
    pub(crate) open: bool,
}

#[derive(Debug, Args)]
pub(crate) struct RunOrder {
    #[command(flatten)]
    pub(crate) source: Source,
    /// Folder for the report [default: out/NAME-OF-THE-SCENARIO]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace an earlier answer; a folder that holds anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
    /// Fly more than 20 million arrows, if the scenario asks for so many
    #[arg(long)]
    pub(crate) long: bool,
    /// Seed of all chances, in place of the scenario's
    #[arg(long, value_name = "NUMBER")]
    pub(crate) seed: Option<u64>,
    /// Flights per group, in place of the scenario's
    #[arg(long, value_name = "NUMBER")]
    pub(crate) flights: Option<u64>,
    /// Threads to use; the answer is the same with any number [default: all cores]
    #[arg(long, value_name = "NUMBER", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub(crate) threads: Option<u16>,
}

/// How to print states.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum PrintWord {
    /// A table to read
    Table,
    /// Comma-separated values, units in the first row
    Csv,
    /// JSON in SI
    Json,
}

/// Which equations fly the arrow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum MotionWord {
    /// Six degrees of freedom
    SixDof,
    /// A point mass
    PointMass,
}

#[derive(Debug, Args)]
pub(crate) struct Fly {
    #[command(flatten)]
    pub(crate) of: OneBuild,
    /// Range marks, comma separated, each with its unit [default: the scenario's distances]
    #[arg(long, value_name = "LIST", value_delimiter = ',')]
    pub(crate) marks: Vec<String>,
    /// Equations, in place of the scenario's flight.model
    #[arg(long, value_name = "MODEL")]
    pub(crate) model: Option<MotionWord>,
    /// How to print; --json is the same as --as json
    #[arg(long = "as", value_name = "SHAPE", default_value = "table")]
    pub(crate) shape: PrintWord,
    /// Write to this file instead; it must not exist yet
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(crate) struct PushOrder {
    #[command(flatten)]
    pub(crate) of: OneBuild,
    /// Folder for the report [default: out/NAME-OF-THE-SCENARIO-push]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace an earlier answer; a folder that holds anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Marks {
    #[command(flatten)]
    pub(crate) of: OneBuild,
    /// Print the table of marks as comma-separated values instead
    #[arg(long, conflicts_with = "json")]
    pub(crate) csv: bool,
    /// Folder for the report [default: out/NAME-OF-THE-SCENARIO-marks]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace an earlier answer; a folder that holds anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
}

#[derive(Debug, Args)]
pub(crate) struct PinOrder {
    #[command(flatten)]
    pub(crate) of: OneBuild,
    /// Write the restraints to this part file; it must not exist yet
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(crate) struct VerdictOrder {
    /// Up to two tables of shots
    #[arg(value_name = "FILE", num_args = 0..=2)]
    pub(crate) files: Vec<PathBuf>,
    /// Shots of a group without a file; give it once for each
    #[arg(long, value_name = "SHOTS", value_parser = clap::value_parser!(u32).range(2..=100_000))]
    pub(crate) n: Vec<u32>,
    /// Mean distance from the centre of that group, with its unit
    #[arg(long, value_name = "LENGTH")]
    pub(crate) mean_radius: Vec<String>,
    /// In place of it, the widest distance between two shots of that group
    #[arg(long, value_name = "LENGTH")]
    pub(crate) spread: Vec<String>,
    /// Which look at a longer test this is, from 1; the test stops where a look tells
    #[arg(long, value_name = "NUMBER", requires = "looks", value_parser = clap::value_parser!(u32).range(1..=10))]
    pub(crate) look: Option<u32>,
    /// How many looks that test has, evenly spaced
    #[arg(long, value_name = "NUMBER", requires = "look", value_parser = clap::value_parser!(u32).range(1..=10))]
    pub(crate) looks: Option<u32>,
    /// How strict early looks are
    #[arg(long, value_name = "RULE", default_value = "obrien-fleming")]
    pub(crate) rule: crate::orders::RuleWord,
    /// How far away the groups were shot; the shift is then told as an angle too
    #[arg(long, value_name = "LENGTH")]
    pub(crate) distance: Option<String>,
    /// How sure the verdict must be [default: 95 %]
    #[arg(long, value_name = "SHARE")]
    pub(crate) confidence: Option<String>,
    /// How often a true difference must show [default: 80 %]
    #[arg(long, value_name = "SHARE")]
    pub(crate) power: Option<String>,
    /// Units on output [default: archery]
    #[arg(long, value_name = "FAMILY")]
    pub(crate) units: Option<Family>,
    #[command(flatten)]
    pub(crate) told: Told,
    /// Folder for a report with a picture; none is written otherwise
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace an earlier answer; a folder that holds anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Check {
    /// The scenario file
    pub(crate) file: PathBuf,
    /// Print the scenario with every default filled in, and where each value comes from
    #[arg(long)]
    pub(crate) resolved: bool,
    /// Answer as JSON on standard output
    #[arg(long)]
    pub(crate) json: bool,
}
