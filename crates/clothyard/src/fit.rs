//! `clothyard fit`: speed, drag and sight from what was really shot.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use scenario::{Model, Scenario};
use study::{FitPlan, Fitted, Observed, Recipe, Sought};

use crate::failure::Failure;
use crate::orders::{self, Seek};
use crate::shelf::AnswerFolder;
use crate::{Stream, ask, shelf, tell};

/// The file that holds the fit as evidence.
const EVIDENCE: &str = "evidence.toml";

pub(crate) fn fit(
    order: &orders::FitOrder,
    out: &mut Stream,
    err: &mut Stream,
) -> Result<(), Failure> {
    let source = &order.of.source;
    let (scenario, style) = ask::source(source)?;
    let build = order.of.build.as_deref();
    let recipe = scenario.recipe(build)?;
    let claim = |path: &PathBuf| AnswerFolder::claim(path, &[], false);
    let claimed = order.out.as_ref().map(claim).transpose()?;
    let shots = (order.shots.as_path(), &order.shot);
    let fitted = fitted(&scenario, recipe.as_ref(), build, shots, err)?;
    let document = report::fit(&fitted, style)?;
    let document = document.cautioned(ask::minded(&scenario, build, style)?);
    out.print(&tell::text(&document, source.told)?)?;
    let Some(claimed) = claimed else { return Ok(()) };
    let how = format!("Fitted to {}.", report::fit_seen(&fitted));
    let (parts, left_out) = scenario::fitted_parts(&how, &fitted);
    let evidence = scenario::fitted_evidence(&how, &fitted);
    let named = parts.iter().map(|part| (format!("{}.toml", part.table), &part.text));
    let named = named.chain(evidence.as_ref().map(|text| (EVIDENCE.to_owned(), text)));
    let files: Vec<report::File> =
        named.map(|(name, text)| report::File { name, bytes: text.clone().into_bytes() }).collect();
    let folder = claimed.fill(&files)?;
    if source.told.json {
        return Ok(());
    }
    let mut said =
        format!("\nWritten to {}. In a copy of your scenario, write\n", folder.display());
    for part in &parts {
        let _ = writeln!(
            said,
            "  [{table}]\n  part = \"{}\"",
            folder.join(format!("{}.toml", part.table)).display(),
            table = part.table
        );
    }
    let keys: Vec<&str> = parts.iter().flat_map(|part| part.keys.iter().copied()).collect();
    let _ = writeln!(
        said,
        "and take {} out of it: a key beside part wins over the file.\nThe path starts at the \
         folder of the scenario.",
        keys.join(", ")
    );
    if evidence.is_some() {
        let _ = writeln!(
            said,
            "Or leave your scenario as it is and let every answer use the fit: above its tables, \
             write\n  evidence = \"{}\"",
            folder.join(EVIDENCE).display()
        );
    }
    for key in left_out {
        let _ = writeln!(said, "{key} lies outside what a scenario may say and was left out.");
    }
    out.print(&said)
}

/// The fit that was asked for.
pub(crate) fn fitted(
    scenario: &Scenario,
    recipe: &dyn Recipe,
    build: Option<&str>,
    (shots, shot): (&Path, &orders::ShotsOrder),
    err: &mut Stream,
) -> Result<Fitted, Failure> {
    let shots = shelf::table(shots, scenario::measured::shots, err)?.found;
    fitted_to(scenario, recipe, build, shots, shot)
}

/// The fit to shots that were read.
pub(crate) fn fitted_to(
    scenario: &Scenario,
    recipe: &dyn Recipe,
    build: Option<&str>,
    shots: Vec<Observed>,
    shot: &orders::ShotsOrder,
) -> Result<Fitted, Failure> {
    let mut sought: Vec<Sought> = shot.seek.iter().map(|seek| sought(*seek)).collect();
    sought.sort_unstable();
    sought.dedup();
    let plan = FitPlan {
        build: build.unwrap_or_default().to_owned(),
        shots,
        sought,
        places: scenario.distances(),
        point_mass: scenario.model() == Model::PointMass,
        radius_error: scenario.radius_error(build)?,
    };
    Ok(study::fit(recipe, &plan)?)
}

fn sought(seek: Seek) -> Sought {
    match seek {
        Seek::Speed => Sought::Speed,
        Seek::Drag => Sought::Drag,
        Seek::Radius => Sought::Radius,
        Seek::Height => Sought::Height,
    }
}
