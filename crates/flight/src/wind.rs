use nalgebra::Vector3;
use solve::Number;

use crate::air::within;
use crate::{FlightError, Wind};

/// Range of roughness, m. Chosen, after the classes of [davenport1960]: open sea
/// to broken country.
const ROUGHNESS: (f64, f64) = (2e-4, 0.4);
/// Range of the height of a profile, m. Chosen: knee height to a tall mast; it
/// keeps above the roughness.
const HEIGHT: (f64, f64) = (0.5, 100.0);

/// A steady wind in the line frame, with its growth over height.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WindField<N> {
    /// Wind vector at the reference height (or at every height), m/s.
    reference: [N; 3],
    /// Log profile: one over the roughness length, and one over the log at the
    /// reference height.
    profile: Option<(N, N)>,
}

impl WindField<f64> {
    /// The wind for a line turned up by `shot_angle` (rad).
    pub(crate) fn new(wind: &Wind, shot_angle: f64) -> Result<Self, FlightError> {
        let (sin, cos) = wind.from.si().sin_cos();
        let level = Vector3::new(-wind.speed.si() * cos, wind.speed.si() * sin, 0.0);
        let (sin, cos) = shot_angle.sin_cos();
        let line = [level.x * cos, level.y, -level.x * sin];
        let profile = match wind.profile {
            None => None,
            Some(p) => {
                let roughness = within("the roughness length", p.roughness.si(), ROUGHNESS, " m")?;
                let height = within("the height of the wind", p.height.si(), HEIGHT, " m")?;
                Some((1.0 / roughness, 1.0 / (height / roughness).ln()))
            }
        };
        Ok(Self { reference: line, profile })
    }
}

impl<N: Number> WindField<N> {
    /// The wind at a height above ground, m/s in the line frame. Zero at and
    /// below the roughness height.
    pub(crate) fn at(&self, height: N) -> [N; 3] {
        match self.profile {
            None => self.reference,
            Some((per_roughness, per_log)) => {
                let factor = (height * per_roughness).max(N::of(1.0)).ln() * per_log;
                self.reference.map(|w| w * factor)
            }
        }
    }
}
