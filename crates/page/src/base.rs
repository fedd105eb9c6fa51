//! The scenario a page starts from, taken apart.

use std::path::Path;

use scenario::{Said, Scenario};
use units::Style;

use crate::control::Control;
use crate::state::State;
use crate::{PageError, Settings, Wrong};

const DEMO: &str = include_str!("demo.toml");
const DEMO_NAME: &str = "demo.toml";

/// A scenario, key by key.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Base {
    pub(crate) name: String,
    pub(crate) title: String,
    pub(crate) style: Style,
    pub(crate) said: Vec<Said>,
    /// Distances, m, rising.
    pub(crate) distances: Vec<f64>,
}

impl Base {
    /// The scenario a state starts from.
    pub(crate) fn open(state: &State, settings: &Settings) -> Result<Self, PageError> {
        let (name, scenario) = match (state.file()?, &settings.start) {
            (Some(name), _) => {
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
        Ok(Self {
            name,
            title: scenario.title().to_owned(),
            style: scenario.style().unwrap_or_default(),
            said: scenario.said(),
            distances: scenario.distances().iter().map(|length| length.si()).collect(),
        })
    }

    /// What the scenario says to a control.
    pub(crate) fn value(&self, control: &Control) -> Option<String> {
        let key = control.keys.first()?;
        control.shown(&self.said.iter().find(|said| said.key == *key)?.value)
    }
}

/// Reads a scenario; its mistakes belong to no field.
fn read(path: &Path, files: &scenario::Files<'_>) -> Result<Scenario, PageError> {
    scenario::read(path, files).map_err(|report| {
        let text = |problem| {
            let at = report.position(problem);
            let at = at.map_or_else(String::new, |(file, line, _)| format!("{file}:{line}: "));
            format!("{at}{}", problem.error)
        };
        let all = report.problems().iter();
        PageError::Wrong(all.map(|p| Wrong { field: None, text: text(p) }).collect())
    })
}
