//! How well what a fit holds is known.

use units::Length;

use crate::entry::Value;
use crate::schema::Id;
use crate::{Scenario, ScenarioError};

impl Scenario {
    /// How well a build's sight radius is known, one standard deviation: by its own range,
    /// as a tape at full draw shows it, or as a default guesses it. See
    /// `docs/model/fit.md`.
    ///
    /// # Errors
    /// [`ScenarioError::UnknownBuild`] when there is no such build.
    pub fn radius_error(&self, build: Option<&str>) -> Result<Length, ScenarioError> {
        /// Chosen: a tape held to a bow at full draw, m.
        const TAPE: f64 = 5e-3;
        /// Chosen: what is left where nobody measured, as a share.
        const GUESSED: f64 = 0.05;
        /// Half of nine tenths of a normal law, in its standard deviations.
        const BAND: f64 = 1.645;
        let (settled, recipe) = self.named(build)?;
        let entry = settled.entries.get(&Id::SightRadius);
        Ok(Length::from_si(match entry.map(|entry| &entry.value) {
            Some(Value::Doubtful { low, high, .. }) => (high - low) / (2.0 * BAND),
            Some(_) => TAPE,
            None => GUESSED * recipe.now(Id::SightRadius),
        }))
    }
}

#[cfg(test)]
mod tests {
    use std::path::Path;

    #[test]
    fn exact_a_radius_is_known_as_it_was_said() {
        let error = |more: &str| {
            let text = format!(
                "draw_weight = \"60 lb\"\ndraw_length = \"30 in\"\nspeed = \"285 fps\"\n\
                 arrow_length = \"28.5 in\"\nspine = 340\npoint = \"100 gr\"\n{more}"
            );
            let read = crate::read(Path::new("a.toml"), &|_| Ok(text.clone()));
            read.expect("a scenario").radius_error(None).expect("a build").si()
        };
        let near = |found: f64, wanted: f64| assert!((found - wanted).abs() < 1e-9, "{found}");
        // Defined: an inch is 25.4 mm; the default is 1.15 times the draw length.
        near(error(""), 0.05 * 1.15 * 30.0 * 0.0254);
        near(error("sight.radius = \"33 in\"\n"), 5e-3);
        let ranged = "sight.radius = { value = \"80 cm\", low = \"77 cm\", high = \"83 cm\" }\n";
        near(error(ranged), 0.03 / 1.645);
    }
}
