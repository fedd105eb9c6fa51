//! `clothyard bench`: readings in, cut lists, sets and turns out.

pub(crate) mod cli;
mod given;
mod jobs;
pub(crate) mod slip;

use std::path::Path;

use report::{BenchAnswer, Subject};
use scenario::Scenario;
use scenario::measured::{self, Reader};
use units::{Length, Style};

use crate::failure::Failure;
use crate::source::Family;
use crate::{Stream, ask, shelf};
use cli::{Common, Kind, NoteOrder};
use slip::Slip;

pub(crate) use jobs::bench;

/// The scenario of a bench question, its arrow and what goes with it.
struct BenchRequest<'a> {
    common: &'a Common,
    job: &'static str,
    scenario: Scenario,
    style: Style,
    recipe: Box<dyn study::Recipe>,
    distances: Vec<Length>,
    seed: u64,
    notebooks: Vec<(String, String)>,
}

impl<'a> BenchRequest<'a> {
    fn new(common: &'a Common, job: &'static str) -> Result<Self, Failure> {
        let (scenario, style) = ask::source(&common.of.source)?;
        let plan = scenario.plan().ok_or(Failure::NoArrow)?;
        Ok(Self {
            common,
            job,
            style,
            recipe: scenario.recipe(common.of.build.as_deref())?,
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
        let file = &self.common.of.source.file;
        let (out, asked) = (self.common.out.as_deref(), format!("-bench-{}", self.job));
        shelf::folder(out, file, &asked, self.common.replace)
    }

    /// Writes the report and prints the answer.
    fn answer(&self, answer: BenchAnswer, folder: &Path, out: &mut Stream) -> Result<(), Failure> {
        let file = &self.common.of.source.file;
        let provenance = ask::provenance(&self.scenario, file, self.seed);
        let title = self.scenario.title();
        let subject = Subject { title, build: None, provenance: &provenance };
        let document = report::bench(answer, &subject, &self.notebooks, self.style)?;
        shelf::fill(folder, &document.files()?)?;
        shelf::told(&document, self.common.of.source.json, folder, out)
    }
}

fn note(order: &NoteOrder, out: &mut Stream) -> Result<(), Failure> {
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
        Family::Archery => Style::Archery,
        Family::Metric => Style::Metric,
    };
    let old = shelf::read_if_there(&order.file)?;
    let done = if old.is_some() { "Added to" } else { "Begun:" };
    let text = measured::add_row(kind, &order.file, old, &values, style);
    shelf::append(&order.file, &text.map_err(Failure::Mistakes)?)?;
    out.print(&format!("{done} {}\n", order.file.display()))
}
