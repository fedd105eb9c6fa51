use nalgebra::Vector3;
use solve::{LANES_MAX, Number};

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

impl WindField<f64> {
    /// Several winds side by side. All have a profile, or none has.
    #[inline(always)]
    pub(crate) fn side_by_side<N: Number>(
        winds: &[&Self; LANES_MAX],
        load: impl Fn(&[f64; LANES_MAX]) -> N,
    ) -> WindField<N> {
        let reference = |i: usize| load(&winds.map(|w| w.reference[i]));
        let profile = winds[0].profile.map(|_| {
            let flat = (0.0, 0.0);
            (
                load(&winds.map(|w| w.profile.unwrap_or(flat).0)),
                load(&winds.map(|w| w.profile.unwrap_or(flat).1)),
            )
        });
        WindField { reference: [reference(0), reference(1), reference(2)], profile }
    }
}

impl<N: Number> WindField<N> {
    /// The wind at a height above ground, m/s in the line frame. Zero at and
    /// below the roughness height.
    #[inline(always)]
    pub(crate) fn at(&self, height: N) -> [N; 3] {
        match self.profile {
            None => self.reference,
            Some((per_roughness, per_log)) => {
                let factor = (height * per_roughness).max(height.same(1.0)).ln() * per_log;
                let [x, y, z] = self.reference;
                [x * factor, y * factor, z * factor]
            }
        }
    }
}
