//! Reading what the user gave: the scenario, the units, the marks.

use std::path::{Path, PathBuf};

use report::{CautionText, ComputedArrow, Provenance};
use scenario::Scenario;
use study::{Caution, Recipe, SafetyAsk, StudyError};
use units::{Bare, Dimension, Length, Role, Style};

use crate::failure::Failure;
use crate::shelf::{self, AnswerFolder};
use crate::source::{Family, Source};

pub(crate) fn scenario(file: &Path) -> Result<Scenario, Failure> {
    scenario::read(file, &shelf::text).map_err(Failure::Mistakes)
}

/// The scenario and the units asked for, else the scenario's own.
pub(crate) fn source(source: &Source) -> Result<(Scenario, Style), Failure> {
    let asked = source.units.map(Family::style);
    let scenario =
        scenario::read_in(&source.file, asked, &shelf::text).map_err(Failure::Mistakes)?;
    let own = || scenario.style().unwrap_or_default();
    let style = asked.unwrap_or_else(own);
    Ok((scenario, style))
}

/// Claims the folder of an answer: the one named, or one named after the scenario
/// and what is asked.
pub(crate) fn folder(
    (named, replace): (Option<&Path>, bool),
    scenario: &Scenario,
    file: &Path,
    ending: &str,
    read: &[&Path],
) -> Result<AnswerFolder, Failure> {
    let usual = || -> PathBuf {
        let stem = file.file_stem().unwrap_or("answer".as_ref()).to_string_lossy();
        Path::new("out").join(format!("{stem}{ending}"))
    };
    let path = named.map_or_else(usual, Path::to_owned);
    let inputs = [scenario.files().as_slice(), read].concat();
    AnswerFolder::claim(&path, &inputs, replace)
}

/// Where an answer comes from: this program, the scenario as it was resolved,
/// and a seed.
pub(crate) fn provenance(scenario: &Scenario, file: &Path, seed: u64) -> Provenance {
    let name =
        file.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
    Provenance {
        version: env!("CARGO_PKG_VERSION").to_owned(),
        scenario: scenario.resolved(),
        source_name: name,
        seed,
    }
}

/// What could hurt somebody with one build, or with any where none is named; nothing of a
/// rigid body.
pub(crate) fn cautions(
    scenario: &Scenario,
    build: Option<&str>,
    (distances, cut): (Option<&[Length]>, Option<Length>),
) -> Result<Vec<Caution>, Failure> {
    let Some(plan) = scenario.plan() else { return Ok(Vec::new()) };
    Ok(study::cautions(&SafetyAsk { plan: &plan, build, distances, cut })?)
}

/// The same as texts.
pub(crate) fn minded(
    scenario: &Scenario,
    build: Option<&str>,
    style: Style,
) -> Result<Vec<CautionText>, Failure> {
    Ok(report::cautions(&cautions(scenario, build, (None, None))?, &[], style))
}

/// The arrow of a recipe as it stands, its shaft cut to a length where one is given.
pub(crate) fn built(
    recipe: &dyn Recipe,
    cut: Option<Length>,
) -> Result<(arrow::Parts, arrow::Built), StudyError> {
    let who = || study::Who { build: String::new(), flight: None };
    let refused = |source| StudyError::Refused { who: who(), source };
    let study::Setup { mut parts, faults, .. } = recipe.setup(&[]).map_err(refused)?;
    parts.shaft.length = cut.unwrap_or(parts.shaft.length);
    let built = arrow::build(&parts, &faults);
    Ok((parts, built.map_err(|source| StudyError::Arrow { who: who(), source })?))
}

/// The first arrow of a scenario, its shaft cut to a length where one is given, with what
/// could hurt somebody.
pub(crate) fn computed(scenario: &Scenario, cut: Option<Length>) -> Result<ComputedArrow, Failure> {
    let first = scenario.plan().ok_or(Failure::NoArrow)?.builds.into_iter().next();
    let recipe = scenario.recipe(first.as_ref().map(|build| build.name.as_str()))?;
    let (parts, built) = built(recipe.as_ref(), cut)?;
    let several = scenario.build_names().count() > 1;
    let build = first.filter(|_| several).map(|build| format!(", its build \"{}\"", build.name));
    Ok(ComputedArrow {
        scenario: format!("\"{}\"{}", scenario.title(), build.unwrap_or_default()),
        mass: built.mass.mass().si(),
        shaft: parts.shaft.length.si(),
        length: built.layout.shaft_front.si(),
        spine: parts.shaft.spine.si(),
        cautions: cautions(scenario, None, (None, cut))?,
    })
}

/// The marks of the command line, or the scenario's distances.
pub(crate) fn marks(given: &[String], scenario: &Scenario) -> Result<Vec<f64>, Failure> {
    if given.is_empty() {
        return Ok(scenario.distances().iter().map(|d| d.si()).collect());
    }
    let yard = Role::Range.unit(Style::Archery).0;
    let mut marks: Vec<f64> = Vec::with_capacity(given.len());
    for text in given {
        let read = units::read(Dimension::Length, text, Bare::Asked(yard));
        let length = read.map_err(|cause| Failure::Mark { text: text.trim().to_owned(), cause })?;
        if length.si() <= marks.last().copied().unwrap_or(0.0) {
            return Err(Failure::MarkOrder { given: text.trim().to_owned() });
        }
        marks.push(length.si());
    }
    Ok(marks)
}
