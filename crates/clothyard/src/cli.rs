//! What may be said on the command line.

use std::net::{IpAddr, Ipv4Addr};
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

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
  3  the system refused to write a file, or to print

Results are computed, not measured. Keep to the limits of the bow's maker and to
local law, and never shoot without a safe backstop.";

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Start the live page: change a build, see the flight change
    #[command(after_long_help = "\
The page answers at an address of this computer only, opens no browser unless
asked, and asks nothing of any other computer. It writes one file each time you
save a scenario, into the folder it was started in, and never over another.

Example: clothyard page scenarios/square-ends.toml --open")]
    Page(Page),
    /// Answer the scenario's question and write a report folder
    Run(Run),
    /// Fly one arrow and print its state at range marks
    #[command(after_long_help = "\
The arrow flies with the fixed faults and form of the scenario; values given as
a distribution stay at their centre. left and up are measured from the straight
line to the target, at the arrow's balance point.

Example: clothyard fly scenarios/square-ends.toml --marks '10 yd, 20 yd' --as csv")]
    Fly(Fly),
    /// Show the built arrow: mass, balance, FOC, inertia, stiffness, faults
    Arrow(Arrow),
    /// Show the push of one arrow, from release to departure
    #[command(after_long_help = "\
The arrow is pushed with the fixed faults, release and nock path of the scenario;
values given as a distribution stay at their centre. The folder gets push.html,
pictures, and tables of every step, of the shaft's shapes, of its modes and of
the forces along the stroke. docs/push-explained.md says what they mean.

Example: clothyard push scenarios/finger-recurve.toml --units metric")]
    Push(Push),
    /// Find how firmly the string holds the nock, from one measured shift
    #[command(after_long_help = "\
The scenario says in [measured] what was done and seen: the same arrow with its
nock turned, or bare against fletched, and how far the impact moved at a distance.
The answer is the bow.restraint that explains it, and the range left by what else
is poorly known. docs/push-explained.md shows how to measure.

Example: clothyard pin my.toml --out parts/my-string.toml")]
    Pin(Pin),
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

/// Units on output.
#[derive(Debug, Clone, Copy, ValueEnum)]
pub(crate) enum Family {
    /// Yards, inches, grains, pounds, feet per second
    Archery,
    /// Metres, centimetres, grams, newtons, metres per second
    Metric,
}

#[derive(Debug, Args)]
pub(crate) struct Source {
    /// The scenario file
    pub(crate) file: PathBuf,
    /// Units on output; the scenario's own choice otherwise, else archery
    #[arg(long, value_name = "FAMILY")]
    pub(crate) units: Option<Family>,
    /// Answer as JSON on standard output, every number in SI with its unit
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Run {
    #[command(flatten)]
    pub(crate) source: Source,
    /// Folder for the report [default: out/NAME-OF-THE-SCENARIO]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Write into a folder that is already there, over files of the same names
    #[arg(long)]
    pub(crate) replace: bool,
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
pub(crate) enum Shape {
    /// A table to read
    Table,
    /// Comma-separated values, units in the first row
    Csv,
    /// JSON in SI
    Json,
}

/// Which equations fly the arrow.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Motion {
    /// Six degrees of freedom
    SixDof,
    /// A point mass
    PointMass,
}

#[derive(Debug, Args)]
pub(crate) struct Fly {
    #[command(flatten)]
    pub(crate) source: Source,
    /// Which build of the scenario [default: the first]
    #[arg(long, value_name = "NAME")]
    pub(crate) build: Option<String>,
    /// Range marks, comma separated, each with its unit [default: the scenario's distances]
    #[arg(long, value_name = "LIST", value_delimiter = ',')]
    pub(crate) marks: Vec<String>,
    /// Equations, in place of the scenario's flight.model
    #[arg(long, value_name = "MODEL")]
    pub(crate) model: Option<Motion>,
    /// How to print; --json is the same as --as json
    #[arg(long = "as", value_name = "SHAPE", default_value = "table")]
    pub(crate) shape: Shape,
    /// Write to this file instead; it must not exist yet
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
}

#[derive(Debug, Args)]
pub(crate) struct Arrow {
    #[command(flatten)]
    pub(crate) source: Source,
    /// Which build of the scenario [default: the first]
    #[arg(long, value_name = "NAME")]
    pub(crate) build: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct Push {
    #[command(flatten)]
    pub(crate) source: Source,
    /// Which build of the scenario [default: the first]
    #[arg(long, value_name = "NAME")]
    pub(crate) build: Option<String>,
    /// Folder for the report [default: out/NAME-OF-THE-SCENARIO-push]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Write into a folder that is already there, over files of the same names
    #[arg(long)]
    pub(crate) replace: bool,
}

#[derive(Debug, Args)]
pub(crate) struct Pin {
    #[command(flatten)]
    pub(crate) source: Source,
    /// Which build of the scenario [default: the first]
    #[arg(long, value_name = "NAME")]
    pub(crate) build: Option<String>,
    /// Write the restraint to this part file; it must not exist yet
    #[arg(long, value_name = "FILE")]
    pub(crate) out: Option<PathBuf>,
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
