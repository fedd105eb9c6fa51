//! The questions of the bench.

use std::path::Path;

use report::BenchAnswer;
use scenario::measured;
use study::workbench::{BuildAsk, CutAsk, IndexAsk, SortAsk, SquareAsk, claims};
use workbench::Measured;

use super::carried::raw_lengths;
use super::cli::{Bench, BenchJob, BuildOrder, CutOrder, Index, Sort, Square};
use super::slip::Slip;
use super::{BenchRequest, columns, given, note};
use crate::Stream;
use crate::failure::Failure;
use crate::progress::RunBar;

pub(crate) fn bench(order: &Bench, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    match &order.job {
        BenchJob::Square(order) => square(order, out, err),
        BenchJob::Cut(order) => cut(order, out, err),
        BenchJob::Sort(order) => sort(order, out, err),
        BenchJob::Index(order) => index(order, out, err),
        BenchJob::Build(order) => build(order, out, err),
        BenchJob::Note(order) => note(order, out),
        BenchJob::Columns(order) => columns(order, out),
    }
}

fn square(order: &Square, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let mut asked = BenchRequest::new(&order.common, "square")?;
    let share = given::share(&order.share)?;
    let readings = match &order.readings {
        Some(file) => asked.read(file, measured::faces, err)?,
        None => Vec::new(),
    };
    let folder = asked.folder()?;
    let ask = SquareAsk {
        recipe: asked.recipe.as_ref(),
        distances: &asked.distances,
        readings: &readings,
        share,
        seed: asked.seed,
    };
    let found = watched(err, |bar| study::workbench::square(&ask, bar))?;
    asked.answer(BenchAnswer::Square(&found), folder, out)
}

fn cut(order: &CutOrder, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let mut asked = BenchRequest::new(&order.common, "cut")?;
    let parts = asked.recipe.setup(&[]).map_err(|source| study::StudyError::Refused {
        who: study::Who { build: String::new(), flight: None },
        source,
    })?;
    let job = given::job(order, &parts.parts)?;
    asked.cut = Some(job.wanted);
    let population = given::population(order)?;
    let (shafts, unread) = match (&order.readings, &order.three) {
        (Some(file), _) => {
            let read = asked.read(file, measured::profiles, err)?;
            given::profiles(order, (&read, &raw_lengths(file)))?
        }
        (None, Some(file)) => {
            let read = asked.read(file, measured::three, err)?;
            given::threes(order, (&read, &raw_lengths(file)))?
        }
        (None, None) if order.grade.is_some() => (vec![given::sold(order)?], Vec::new()),
        (None, None) => return Err(Slip::NothingRead.into()),
    };
    let (stop, step) =
        (given::quantity("stop", &order.stop)?, given::quantity("step", &order.step)?);
    let folder = asked.folder()?;
    let ask = CutAsk {
        recipe: asked.recipe.as_ref(),
        distances: &asked.distances,
        shafts: &shafts,
        unread: &unread,
        job,
        population,
        stop,
        step,
        seed: asked.seed,
    };
    let found = watched(err, |bar| study::workbench::cut(&ask, bar))?;
    if order.grade.is_none() {
        return asked.answer(BenchAnswer::Cut(&found), folder, out);
    }
    let claims = claims(shafts[0].stock, &job, population, asked.seed)?;
    asked.answer(BenchAnswer::Stock(&found, &claims), folder, out)
}

fn sort(order: &Sort, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let mut asked = BenchRequest::new(&order.common, "sort")?;
    let sets = given::sets(order)?;
    let arrows = given::only(order, asked.batch(&order.batch, err)?)?;
    let wanted = sets.iter().map(|(_, count)| *count).sum();
    if wanted > arrows.len() {
        return Err(Slip::Sets { wanted, has: arrows.len() }.into());
    }
    let folder = asked.folder()?;
    let ask = SortAsk {
        recipe: asked.recipe.as_ref(),
        distances: &asked.distances,
        arrows: &arrows,
        sets: &sets,
        together: order.together,
        seed: asked.seed,
    };
    let found = watched(err, |bar| study::workbench::sort(&ask, bar))?;
    asked.answer(BenchAnswer::Sort(&found), folder, out)
}

fn index(order: &Index, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let mut asked = BenchRequest::new(&order.common, "index")?;
    let arrows = match &order.batch {
        Some(file) => nocked(file, asked.batch(file, err)?, err)?,
        None => Vec::new(),
    };
    let shots = match &order.shots {
        Some(file) => asked.read(file, measured::turns, err)?,
        None => Vec::new(),
    };
    let folder = asked.folder()?;
    let ask = IndexAsk {
        recipe: asked.recipe.as_ref(),
        distances: &asked.distances,
        arrows: &arrows,
        positions: order.positions,
        shots: &shots,
        seed: asked.seed,
    };
    let found = watched(err, |bar| study::workbench::index(&ask, bar))?;
    asked.answer(BenchAnswer::Index(&found), folder, out)
}

/// The finished arrows of a notebook; bare shafts have no nock yet, and are named.
fn nocked(file: &Path, arrows: Vec<Measured>, err: &mut Stream) -> Result<Vec<Measured>, Failure> {
    let (finished, bare): (Vec<_>, Vec<_>) =
        arrows.into_iter().partition(|arrow| arrow.stage.finished());
    if finished.is_empty() {
        return Err(Slip::NoNock { file: file.to_owned() }.into());
    }
    if !bare.is_empty() {
        let names: Vec<&str> = bare.iter().map(|arrow| arrow.name.as_str()).collect();
        let names = names.join(", ");
        err.print(&format!("note: {}: bare shafts without a nock: {names}\n", file.display()))?;
    }
    Ok(finished)
}

fn build(order: &BuildOrder, out: &mut Stream, err: &mut Stream) -> Result<(), Failure> {
    let mut asked = BenchRequest::new(&order.common, "build")?;
    let mass = order.mass.as_ref().map(|text| given::quantity("mass", text)).transpose()?;
    let foc = order.foc.as_ref().map(|text| given::quantity("foc", text)).transpose()?;
    let share = given::share(&order.share)?;
    let shafts = asked.batch(&order.shafts, err)?;
    let parts = asked.read(&order.parts, measured::parts, err)?;
    let folder = asked.folder()?;
    let ask = BuildAsk {
        recipe: asked.recipe.as_ref(),
        distances: &asked.distances,
        shafts: &shafts,
        parts: &parts,
        mass,
        foc,
        positions: order.positions,
        share,
        seed: asked.seed,
    };
    let found = watched(err, |bar| study::workbench::build(&ask, bar))?;
    asked.answer(BenchAnswer::Build(&found), folder, out)
}

/// Runs with a bar on the terminal.
fn watched<T>(
    err: &Stream,
    run: impl FnOnce(&RunBar) -> Result<T, study::StudyError>,
) -> Result<T, study::StudyError> {
    let bar = RunBar::new(err);
    let found = run(&bar);
    bar.finish();
    found
}
