//! The nock turned in the shaft.

use rayon::prelude::*;

use super::bench::{Places, UndrawnShots, less};
use crate::first::all_or_first;
use crate::nock::turned;
use crate::quantile::middle;
use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::shoot::Shooter;
use crate::{Setup, StudyError};

/// Arrows drawn to see what turning does to a typical one. Chosen: their
/// median is known to about a tenth.
const ARROWS: usize = 100;

/// The steps that leave the vanes in each other's places, rad.
pub(crate) fn steps(setup: &Setup) -> Vec<f64> {
    let count = setup.parts.vanes.map_or(1, |vanes| vanes.count);
    (0..count).map(|k| std::f64::consts::TAU * f64::from(k) / f64::from(count)).collect()
}

impl UndrawnShots<'_> {
    /// How far each step moves the impact at each distance.
    pub(crate) fn turns(&self, shot: &Shooter, home: &Places) -> Result<Vec<Places>, StudyError> {
        let step = |angle: f64| {
            let turned = self.aimed(turned(shot.setup.clone(), angle), shot.pitch)?;
            Ok(less(&self.impacts_at(&turned)?, home))
        };
        steps(&shot.setup)
            .into_iter()
            .map(|angle| if angle > 0.0 { step(angle) } else { Ok(less(home, home)) })
            .collect()
    }

    /// Median over drawn arrows of the widest distance between the impacts of
    /// two steps, at each distance; none where nothing of the arrow is drawn. No
    /// more arrows are drawn than flights are asked for.
    pub(crate) fn drawn_turns(
        &self,
        settings: &RunSettings,
        pitch: f64,
        flights: usize,
    ) -> Result<Option<Vec<f64>>, StudyError> {
        let sampler = BuildSampler::new(self.variant, self.distances)?;
        if sampler.variant.draws(Sample::Machine).next().is_none() {
            return Ok(None);
        }
        let drawn = sampler.drawn(Sample::Machine, settings);
        let wide = |arrow: usize| -> Result<Vec<Option<f64>>, StudyError> {
            let setup = sampler.setup(&mut drawn.clone(), arrow)?;
            let places: Vec<Places> = steps(&setup)
                .into_iter()
                .map(|angle| self.impacts_at(&self.aimed(turned(setup.clone(), angle), pitch)?))
                .collect::<Result<_, _>>()?;
            Ok((0..self.distances.len()).map(|at| widest(&places, at)).collect())
        };
        let found = all_or_first((0..ARROWS.min(flights)).into_par_iter().map(wide))?;
        let median = |at: usize| middle(found.iter().filter_map(|arrow| arrow[at]).collect());
        Ok((0..self.distances.len()).map(median).collect())
    }
}

/// Widest distance between two of the impacts at one distance.
fn widest(places: &[Places], at: usize) -> Option<f64> {
    let mut most = 0.0_f64;
    for one in places {
        for other in places {
            let ([l, u], [m, v]) = (one[at]?, other[at]?);
            most = most.max((l - m).hypot(u - v));
        }
    }
    Some(most)
}
