//! `clothyard bench`: readings in, cut lists, sets and turns out.

mod carried;
pub(crate) mod cli;
mod given;
mod jobs;
pub(crate) mod slip;

use std::path::{Path, PathBuf};

use clap::ValueEnum;
use report::{ArrowSizes, BenchAnswer, Subject};
use scenario::Scenario;
use scenario::measured::{self, Reader};
use units::{Length, LinearDensity, Mass, Role, Style};
use workbench::Measured;

use crate::failure::Failure;
use crate::shelf::AnswerFolder;
use crate::{Stream, ask, notebook, shelf, tell};
use cli::{ColumnsOrder, Common, Kind, NoteOrder};
use slip::Slip;

pub(crate) use jobs::bench;

/// How many times the scenario's arrow, or less than its inverse, arrows weigh that are
/// others or were noted in another unit. Chosen: as far off as a slip among the arrows of
/// one notebook is.
const OTHER: f64 = 1.5;

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
    read: Vec<PathBuf>,
    /// The length to which shafts are to be cut.
    cut: Option<Length>,
    /// The arrows or shafts of a notebook.
    arrows: Vec<Measured>,
}

/// What the arrows of a batch must have about as much of as the scenario's.
struct Alike<'a> {
    what: &'static str,
    column: &'static str,
    role: Role,
    own: f64,
    of: &'a dyn Fn(&Measured) -> Option<f64>,
}

impl Alike<'_> {
    /// Asks about a batch of which the middle one is far off.
    fn of(&self, arrows: &[Measured], file: &Path, style: Style) -> Result<(), Slip> {
        let mut values: Vec<f64> = arrows.iter().filter_map(self.of).collect();
        values.sort_by(f64::total_cmp);
        let Some(&middle) = values.get(values.len() / 2) else { return Ok(()) };
        if middle <= OTHER * self.own && middle * OTHER >= self.own {
            return Ok(());
        }
        let [middle, own] = [middle, self.own].map(|si| self.role.text(si, style));
        let (file, what, column) = (file.to_owned(), self.what, self.column);
        Err(Slip::OtherArrows { file, what, middle, own, column })
    }
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
            read: Vec::new(),
            cut: None,
            arrows: Vec::new(),
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
        self.read.push(file.to_owned());
        Ok(table.found)
    }

    /// Reads a batch of arrows, which must be those of the scenario.
    fn batch(&mut self, file: &Path, err: &mut Stream) -> Result<Vec<Measured>, Failure> {
        let lengths = carried::raw_lengths(file);
        let arrows = self.read(file, measured::batch, err)?;
        let arrows: Vec<Measured> =
            arrows.into_iter().map(|arrow| carried::carried(arrow, &lengths)).collect();
        let unread = |arrow: &Measured| {
            let spun = [&arrow.run_out, &arrow.tip, &arrow.groove];
            let long = [arrow.balance, arrow.spine, arrow.length];
            arrow.mass.is_none()
                && arrow.density().is_none()
                && long.iter().all(Option::is_none)
                && spun.iter().all(|of| of.is_none())
        };
        if arrows.iter().all(unread) {
            return Err(Slip::NothingKnown { file: file.to_owned() }.into());
        }
        let (parts, built) = ask::built(self.recipe.as_ref(), None)?;
        let shaft = parts.shaft.length.si();
        for check in [
            Alike {
                what: "finished arrows weigh",
                column: "mass",
                role: Role::Mass,
                own: built.mass.mass().si(),
                of: &|arrow| arrow.mass.filter(|_| arrow.stage.finished()).map(Mass::si),
            },
            Alike {
                what: "bare shafts weigh, for their length,",
                column: "mass",
                role: Role::LinearDensity,
                own: parts.shaft.density.si(),
                of: &|arrow| {
                    let weighed = || {
                        let mass = arrow.mass.filter(|_| !arrow.stage.finished())?;
                        Some(mass.si() / arrow.length.map_or(shaft, Length::si))
                    };
                    weighed().or(arrow.density().map(LinearDensity::si))
                },
            },
            Alike {
                what: "shafts or arrows are as long as",
                column: "length",
                role: Role::Part,
                own: shaft,
                of: &|arrow| arrow.length.map(Length::si),
            },
        ] {
            check.of(&arrows, file, self.style)?;
        }
        self.arrows.clone_from(&arrows);
        Ok(arrows)
    }

    /// Where the report goes.
    fn folder(&self) -> Result<AnswerFolder, Failure> {
        let common = self.common;
        let read: Vec<&Path> = self.read.iter().map(PathBuf::as_path).collect();
        let out_to = (common.out.as_deref(), common.replace);
        let ending = format!("-bench-{}", self.job);
        ask::folder(out_to, &self.scenario, &common.of.source.file, &ending, &read)
    }

    /// Writes the report and prints the answer.
    fn answer(
        &self,
        answer: BenchAnswer,
        folder: AnswerFolder,
        out: &mut Stream,
    ) -> Result<(), Failure> {
        let file = &self.common.of.source.file;
        let provenance = ask::provenance(&self.scenario, file, self.seed);
        let title = self.scenario.title();
        let subject = Subject { title, build: None, provenance: &provenance };
        let document = report::bench(answer, &subject, &self.notebooks, self.style)?;
        let build = self.common.of.build.as_deref();
        let cautions = ask::cautions(&self.scenario, build, (Some(&self.distances), self.cut))?;
        let document = document.cautioned(report::cautions(&cautions, &[], self.style));
        let (parts, built) = ask::built(self.recipe.as_ref(), self.cut)?;
        let sizes = ArrowSizes {
            mass: built.mass.mass().si(),
            shaft: parts.shaft.length.si(),
            length: built.layout.shaft_front.si(),
            spine: parts.shaft.spine.si(),
        };
        let unlike = sizes.unlike("this notebook", &self.arrows, self.style);
        let document = document.cautioned(unlike.into_iter().collect());
        let folder = folder.fill(&document.files()?)?;
        tell::told(&document, self.common.of.source.told, &folder, out)
    }
}

fn note(order: &NoteOrder, out: &mut Stream) -> Result<(), Failure> {
    let row = notebook::values(&order.values)?;
    let (there, noted) =
        notebook::add(kind_of(order.kind), &order.file, &[row], order.units.style())?;
    let done = if there { "Added to" } else { "Begun:" };
    let kind = order.kind.to_possible_value();
    let kind = kind.as_ref().map_or("", |kind| kind.get_name());
    let again = format!("clothyard bench note {kind} {}", order.file.display());
    out.print(&format!("{done} {}\n{}", order.file.display(), notebook::told(&noted, &again)))
}

/// What may stand in a notebook.
fn columns(order: &ColumnsOrder, out: &mut Stream) -> Result<(), Failure> {
    let (kind, style) = (kind_of(order.kind), order.units.style());
    out.print(&if order.sheet { kind.sheet(style) } else { kind.told(style) })
}

fn kind_of(kind: Kind) -> measured::Kind {
    match kind {
        Kind::Batch => measured::Kind::Batch,
        Kind::Faces => measured::Kind::Faces,
        Kind::Profile => measured::Kind::Profile,
        Kind::Three => measured::Kind::Three,
        Kind::Shots => measured::Kind::Turns,
        Kind::Job => measured::Kind::Job,
        Kind::Parts => measured::Kind::Parts,
    }
}
