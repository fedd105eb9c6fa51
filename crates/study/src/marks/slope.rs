//! Hill tables: what to dial on a slope.

use rayon::prelude::*;
use sight::Dial;
use units::Angle;

use super::tables::MarkTables;
use super::{NEAREST, Slope, SlopeShot};
use crate::StudyError;
use crate::first::all_or_first;

impl MarkTables<'_> {
    pub(super) fn hills(&self) -> Result<Vec<Slope>, StudyError> {
        let sizes = self.plan.slopes.iter().map(|slope| slope.si());
        let slopes: Vec<f64> = sizes.clone().rev().map(|size| -size).chain(sizes).collect();
        all_or_first(slopes.into_par_iter().map(|slope| self.hill(slope)))
    }

    fn hill(&self, slope: f64) -> Result<Slope, StudyError> {
        let marker = self.marker.on_slope(Angle::from_si(slope));
        let geometry = marker.geometry();
        let shot = |&(distance, level): &(f64, f64)| {
            let launch = marker.launch(distance)?;
            let depression = geometry.depression(launch, distance);
            let miss = |dialled: f64| -> Result<f64, StudyError> {
                Ok(marker.impact(geometry.launch(dialled, distance), distance)?.up)
            };
            let (dial, least_miss) = match self.sighting.dial(depression)? {
                Dial::Mark(dial) => (Some(dial), 0.0),
                Dial::AboveAll(top) => (None, miss(self.sighting.depression(top)?)?),
            };
            let cosine = (distance * slope.cos()).max(NEAREST);
            Ok(SlopeShot {
                distance,
                dial,
                pin: geometry.pin(depression),
                cosine,
                cosine_miss: miss(self.sighting.depression(cosine)?)?,
                slope_miss: miss(geometry.depression(level, distance))?,
                least_miss,
            })
        };
        let shots: Result<_, StudyError> = self.places.iter().map(shot).collect();
        Ok(Slope { slope, shots: shots? })
    }
}
