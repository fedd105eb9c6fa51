//! What a build does at one distance, in few figures: for the live page.

use study::{BuildMeasure, Compared};
use units::Role;

use super::super::unknown;
use super::case::Case;
use super::words;

/// In this order. Chosen: what a shooter asks first.
const ASKED: [BuildMeasure; 5] = [
    BuildMeasure::Drop,
    BuildMeasure::Drift,
    BuildMeasure::Hit,
    BuildMeasure::Speed,
    BuildMeasure::Energy,
];

/// A figure of every build at one distance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LiveFigure {
    /// What it is, in plain words.
    pub what: &'static str,
    /// Value and, where something poorly known moves it, its band: a pair a build.
    pub builds: Vec<(String, String)>,
}

/// The figures at the first distance of a case.
pub(in super::super) fn figures(case: Case) -> Vec<LiveFigure> {
    let all = 0..case.builds.len();
    let still = |of| all.clone().all(|build| words::number(case, build, 0, of).abs() < 1e-9);
    let told = |of: &BuildMeasure| match of {
        BuildMeasure::Hit => case.shot(),
        BuildMeasure::Drift => !still(*of),
        _ => true,
    };
    let figure = |of| LiveFigure {
        what: what(of, case),
        builds: all.clone().map(|build| banded(case, build, of)).collect(),
    };
    ASKED.into_iter().filter(told).map(figure).collect()
}

fn what(of: BuildMeasure, case: Case) -> &'static str {
    match of {
        BuildMeasure::Drop => "drop from straight",
        BuildMeasure::Hit => case.hits(),
        BuildMeasure::Speed => "speed there",
        BuildMeasure::Energy => "energy there",
        _ => words::measure(of, case),
    }
}

fn banded(case: Case, build: usize, of: BuildMeasure) -> (String, String) {
    let (value, at) = (words::number(case, build, 0, of), case.skipped);
    let read = |found: &Compared| {
        let mark = found.builds.get(build)?.marks.get(at)?;
        Some(match of {
            BuildMeasure::Drop => mark.nominal.drop,
            BuildMeasure::Drift => found.sides.builds.get(build)?.marks.get(at)?.drift,
            BuildMeasure::Hit => mark.hit.value,
            BuildMeasure::Speed => mark.nominal.speed,
            BuildMeasure::Energy => mark.nominal.energy,
            _ => return None,
        })
    };
    let band = case.band(value, read);
    let text = if of == BuildMeasure::Hit {
        crate::show::share(value)
    } else {
        words::role(of).text(value, case.style)
    };
    (
        text,
        unknown::ends(
            if of == BuildMeasure::Hit { Role::Percent } else { words::role(of) },
            value,
            band,
            case.style,
        ),
    )
}
