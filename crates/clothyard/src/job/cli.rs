//! What may be said after `clothyard job`.

use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};

use crate::orders::PaperWord;
use crate::source::Family;

#[derive(Debug, Args)]
#[command(subcommand_required = true, arg_required_else_help = true)]
pub(crate) struct JobOrder {
    #[command(subcommand)]
    pub(crate) what: JobWhat,
}

#[derive(Debug, Subcommand)]
pub(crate) enum JobWhat {
    /// Open a job: a folder for a customer, a bow and a batch of numbered arrows
    #[command(after_long_help = "\
Example: clothyard job open jobs/tansy --for 'Tansy Creek' --bow 'hunting bow, 60 lb' \\
           --batch '340 shafts, box 3' --arrows 12 --cut-to '28 1/2 in'")]
    Open(OpenOrder),
    /// Note what was done or read, of one arrow or of several
    #[command(after_long_help = "\
Stages are raw, cut, squared, built and shot. A second row of an arrow and stage adds what
was blank. A wrong entry is put right by a new row with correction=yes. correction=void takes
back what the row names, or all that was noted of it where it names nothing; the old row stays
in the file. What is unlike the others, or what hardly any arrow has, is asked about: if it is
so, say it again with correction=sure. out=no puts an arrow back in.

Examples:
  clothyard job note jobs/tansy arrow=7 stage=raw mass='305.2 gr' spine=341
  clothyard job note jobs/tansy arrow=1-12 stage=cut length='28 1/2 in'
  clothyard job note jobs/tansy arrow=7 stage=raw spine=338 correction=yes
  clothyard job note jobs/tansy arrow=7 stage=raw run-out='25 thou' correction=void
  clothyard job note jobs/tansy --into three shaft=7 middle='6 thou' correction=yes
  clothyard job note jobs/tansy arrow=9 out='cracked at the nock end'")]
    Note(NoteOrder),
    /// Show where each arrow stands
    Show(ShowOrder),
    /// Print numbered labels, a batch sheet and a customer card at true scale
    #[command(after_long_help = "\
With a scenario the cautions are those of its arrow in its bow.

Example: clothyard job print jobs/tansy scenarios/bench/bench.toml --out out/tansy")]
    Print(PrintOrder),
}

#[derive(Debug, Args)]
pub(crate) struct OpenOrder {
    /// The job's folder; it is made
    pub(crate) folder: PathBuf,
    /// For whom: a customer, or your own name
    #[arg(long = "for", value_name = "NAME")]
    pub(crate) whom: Option<String>,
    /// The bow, in your words
    #[arg(long, value_name = "TEXT")]
    pub(crate) bow: Option<String>,
    /// The batch of shafts, in your words
    #[arg(long, value_name = "TEXT")]
    pub(crate) batch: Option<String>,
    /// How many arrows; they are numbered from 1
    #[arg(long, value_name = "NUMBER")]
    pub(crate) arrows: u32,
    /// Length to which the shafts are cut, with its unit
    #[arg(long, value_name = "LENGTH")]
    pub(crate) cut_to: Option<String>,
    /// A date, in your words
    #[arg(long, value_name = "TEXT")]
    pub(crate) date: Option<String>,
    /// Units of the job's files
    #[arg(long, value_name = "FAMILY", default_value = "archery")]
    pub(crate) units: Family,
}

/// The files of a job.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Book {
    /// Arrows and their readings, arrows.csv
    Arrows,
    /// End faces, faces.csv
    Faces,
    /// Run-out along shafts, profile.csv
    Profile,
    /// Middle, nock end and point end, three.csv
    Three,
    /// Shots with nocks turned, shots.csv
    Shots,
    /// Points, inserts and nocks that were weighed, parts.csv
    Parts,
    /// Customer, bow and batch, job.csv
    Job,
}

#[derive(Debug, Args)]
pub(crate) struct NoteOrder {
    /// The job's folder
    pub(crate) folder: PathBuf,
    /// What to note; arrow=1-12 or arrow=1,3,5 notes the same of several
    #[arg(value_name = "COLUMN=VALUE", required = true)]
    pub(crate) values: Vec<String>,
    /// Into which file of the job
    #[arg(long, value_name = "FILE", default_value = "arrows")]
    pub(crate) into: Book,
    /// Units of a new file
    #[arg(long, value_name = "FAMILY", default_value = "archery")]
    pub(crate) units: Family,
}

#[derive(Debug, Args)]
pub(crate) struct ShowOrder {
    /// The job's folder
    pub(crate) folder: PathBuf,
    /// Units on output
    #[arg(long, value_name = "FAMILY", default_value = "archery")]
    pub(crate) units: Family,
    /// Answer as JSON on standard output, every number in SI with its unit
    #[arg(long)]
    pub(crate) json: bool,
}

#[derive(Debug, Args)]
pub(crate) struct PrintOrder {
    /// The job's folder
    pub(crate) folder: PathBuf,
    /// The scenario of these arrows, for its cautions
    pub(crate) scenario: Option<PathBuf>,
    /// Paper; a4 goes with metric units, letter with archery units
    #[arg(long, value_name = "SIZE")]
    pub(crate) paper: Option<PaperWord>,
    /// Units on the pages
    #[arg(long, value_name = "FAMILY", default_value = "archery")]
    pub(crate) units: Family,
    /// Folder for the pages [default: print, in the job's folder]
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: Option<PathBuf>,
    /// Replace earlier pages; a folder that holds anything else is left as it is
    #[arg(long)]
    pub(crate) replace: bool,
}
