//! `clothyard bench`: readings in, cut lists, sets and turns out.

pub(crate) mod cli;
mod given;
mod jobs;

use std::path::Path;

use report::{BenchAnswer, BenchReport, Provenance};
use scenario::Scenario;
use scenario::measured::{self, Reader};
use units::{Length, Style, UnitError};

use crate::failure::Failure;
use crate::{Stream, ask, shelf};
use cli::{Common, Job, Kind, Note};

/// What is wrong with the words of a bench command.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Slip {
    #[error("--{option} \"{text}\": {cause}")]
    Quantity { option: &'static str, text: String, cause: UnitError },
    #[error("--supports \"{text}\" is not two places\n  hint: write them like '2 in, 30 in'")]
    Supports { text: String },
    #[error("--set \"{text}\" is not a name and a count\n  hint: write it like hunt=6")]
    Set { text: String },
    #[error("--set: the name \"{name}\" stands twice")]
    SetTwice { name: String },
    #[error(
        "shaft {name} has no length\n  hint: give the notebook a column \"stock\", or say --stock"
    )]
    NoStock { name: String },
    #[error(
        "nothing is known of the shafts\n  hint: give a notebook with --readings, or --grade, \
         --measure and --stock"
    )]
    NothingRead,
    #[error("\"{text}\" does not say a column and a value\n  hint: write it like mass='425 gr'")]
    Pair { text: String },
}

pub(crate) fn bench(order: &cli::Bench, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    match &order.job {
        Job::Square(order) => jobs::square(order, out, err),
        Job::Cut(order) => jobs::cut(order, out, err),
        Job::Sort(order) => jobs::sort(order, out, err),
        Job::Index(order) => jobs::index(order, out, err),
        Job::Note(order) => note(order, out),
    }
}

/// The scenario of a bench question, its arrow and what goes with it.
struct Asked<'a> {
    common: &'a Common,
    job: &'static str,
    scenario: Scenario,
    style: Style,
    recipe: Box<dyn study::Recipe>,
    distances: Vec<Length>,
    seed: u64,
    notebooks: Vec<(String, String)>,
}

impl<'a> Asked<'a> {
    fn new(common: &'a Common, job: &'static str) -> Result<Self, Failure> {
        let scenario = ask::scenario(&common.source.file)?;
        let plan = scenario.plan().ok_or(Failure::NoArrow)?;
        Ok(Self {
            common,
            job,
            style: ask::style(&common.source, &scenario),
            recipe: scenario.recipe(common.build.as_deref())?,
            distances: plan.distances,
            seed: plan.seed,
            scenario,
            notebooks: Vec::new(),
        })
    }

    /// Reads a notebook, keeping its text for the report.
    fn read<T>(
        &mut self,
        file: &Path,
        read: Reader<T>,
        err: &mut Stream,
    ) -> Result<Vec<T>, Failure> {
        let table = shelf::table(file, read, err)?;
        let name = file.file_name().map_or_else(String::new, |n| n.to_string_lossy().into_owned());
        self.notebooks.push((name, table.text));
        Ok(table.found)
    }

    /// Where the report goes; refused when it is there already.
    fn folder(&self) -> Result<std::path::PathBuf, Failure> {
        let file = &self.common.source.file;
        let usual = || {
            let stem = file.file_stem().unwrap_or("answer".as_ref());
            Path::new("out").join(format!("{}-bench-{}", stem.to_string_lossy(), self.job))
        };
        let folder = self.common.out.clone().unwrap_or_else(usual);
        shelf::folder(Some(&folder), file, self.common.replace)
    }

    /// Writes the report and prints the answer.
    fn answer(&self, answer: BenchAnswer, folder: &Path, out: &mut Stream) -> Result<(), Failure> {
        let file = &self.common.source.file;
        let provenance = Provenance {
            version: env!("CARGO_PKG_VERSION").to_owned(),
            scenario: self.scenario.resolved(),
            source_name: file
                .file_name()
                .map_or_else(String::new, |name| name.to_string_lossy().into_owned()),
            seed: self.seed,
        };
        let report = BenchReport {
            title: self.scenario.title(),
            answer,
            provenance: &provenance,
            notebooks: &self.notebooks,
        };
        shelf::fill(folder, &report::bench_files(&report, self.style)?)?;
        if self.common.source.json {
            return out.print(&format!("{:#}\n", report::bench_json(&report)?));
        }
        let text = report::bench_text(&report, self.style, ask::WIDTH)?;
        out.print(&format!("{text}\nWritten to {}: open report.html\n", folder.display()))
    }
}

fn note(order: &Note, out: &mut Stream) -> Result<(), Failure> {
    let kind = match order.kind {
        Kind::Batch => measured::Kind::Batch,
        Kind::Faces => measured::Kind::Faces,
        Kind::Profile => measured::Kind::Profile,
        Kind::Shots => measured::Kind::Turns,
    };
    let pair = |text: &String| match text.split_once('=') {
        Some((name, value)) => Ok((name.trim().to_owned(), value.trim().to_owned())),
        None => Err(Slip::Pair { text: text.clone() }),
    };
    let values: Vec<(String, String)> = order.values.iter().map(pair).collect::<Result<_, _>>()?;
    let style = match order.units {
        crate::cli::Family::Archery => Style::Archery,
        crate::cli::Family::Metric => Style::Metric,
    };
    let old = shelf::read_if_there(&order.file)?;
    let done = if old.is_some() { "Added to" } else { "Begun:" };
    let text = measured::add_row(kind, &order.file, old, &values, style);
    shelf::append(&order.file, &text.map_err(Failure::Mistakes)?)?;
    out.print(&format!("{done} {}\n", order.file.display()))
}
