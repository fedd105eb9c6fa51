//! The scenario a page starts from.

use std::path::Path;

use scenario::Scenario;
use units::Style;

use crate::examples::example;
use crate::reading::read;
use crate::state::PageState;
use crate::{PageError, Settings};

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
