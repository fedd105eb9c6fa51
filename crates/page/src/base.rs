//! The scenario a page starts from.

use std::path::Path;

use scenario::{Report, Scenario};
use units::Style;

use crate::examples::example;
use crate::state::PageState;
use crate::{PageError, Settings, Wrong};

const DEMO: &str = include_str!("demo.toml");
const DEMO_NAME: &str = "demo.toml";

/// A scenario and its name.
pub(crate) struct Base {
    pub(crate) name: String,
    pub(crate) scenario: Scenario,
}

impl Base {
    /// The scenario a state starts from.
    pub(crate) fn open(state: &PageState, settings: &Settings) -> Result<Self, PageError> {
        let asked = state.from.as_deref().and_then(example);
        let (name, scenario) = match (asked, &settings.start) {
            (Some(example), _) => (format!("{}.toml", example.name), example.scenario()?),
            (None, _) if state.from.is_some() => {
                let name = state.file()?.unwrap_or_default();
                let files = |path: &Path| settings.shelf.read(path);
                if settings.shelf.read(Path::new(name)).is_err() {
                    return Err(PageError::NoFile { name: name.to_owned() });
                }
                (name.to_owned(), read(Path::new(name), &files)?)
            }
            (None, Some((name, scenario))) => (name.clone(), scenario.clone()),
            (None, None) => {
                let demo = read(Path::new(DEMO_NAME), &|_| Ok(DEMO.to_owned()))?;
                (DEMO_NAME.to_owned(), demo)
            }
        };
        if scenario.rigid_body().is_some() {
            let reason = "this scenario is a rigid body and holds no arrow";
            return Err(PageError::NotHere { reason });
        }
        Ok(Self { name, scenario })
    }

    /// The units its values are shown in.
    pub(crate) fn style(&self, state: &PageState) -> Style {
        state.units.or(self.scenario.style()).unwrap_or_default()
    }
}

/// Reads a scenario; its mistakes belong to no field.
pub(crate) fn read(path: &Path, files: &scenario::Files<'_>) -> Result<Scenario, PageError> {
    scenario::read(path, files).map_err(|report| told(&report))
}

/// The mistakes of a file, with their places.
pub(crate) fn told(report: &Report) -> PageError {
    let text = |problem| {
        let at = report.position(problem);
        let at = at.map_or_else(String::new, |(file, line, _)| format!("{file}:{line}: "));
        format!("{at}{}", problem.error)
    };
    let mut all: Vec<String> = report.problems().iter().map(text).collect();
    if report.more() > 0 {
        all.push(format!("{} more mistakes are not shown", report.more()));
    }
    PageError::Wrong(all.into_iter().map(|text| Wrong { field: None, text }).collect())
}
