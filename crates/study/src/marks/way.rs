//! The way to the target: arcs over the line of sight, and twigs in the way.

use rayon::prelude::*;

use super::tables::MarkTables;
use super::{Arc, ObstacleClearance};
use crate::StudyError;

/// Steps along an arc. Chosen: a smooth curve on a page.
const STEPS: u32 = 60;
/// Distances this near are one distance, m. Chosen: a hair.
const SAME: f64 = 1e-4;

impl MarkTables<'_> {
    pub(super) fn arcs(&self) -> Result<Vec<Arc>, StudyError> {
        let mut shots = self.places.clone();
        if !shots.iter().any(|shot| (shot.0 - self.zero).abs() < SAME) {
            shots.push((self.zero, self.zero_launch));
            shots.sort_by(|a, b| a.0.total_cmp(&b.0));
        }
        let arc = |&(distance, launch): &(f64, f64)| {
            let above = |at: f64, up: f64| up - self.line(launch, distance, at);
            let path = self.marker.arrive(launch, distance, STEPS)?.path;
            let before = self.shots.iter().map(|shot| shot.0).filter(|at| *at <= distance);
            let before: Vec<f64> = before.collect();
            let met =
                if before.is_empty() { Vec::new() } else { self.marker.fly(launch, &before)? };
            let mut gaps: Vec<Option<f64>> =
                before.iter().zip(&met).map(|(at, met)| Some(above(*at, met.tip.up))).collect();
            gaps.resize(self.shots.len(), None);
            let points = path.into_iter().map(|(at, up)| (at, above(at, up))).collect();
            Ok(Arc { distance, points, gaps })
        };
        shots.par_iter().map(arc).collect()
    }

    pub(super) fn twigs(&self) -> Result<Vec<ObstacleClearance>, StudyError> {
        let parts = &self.marker.setup().parts;
        let span = parts.vanes.as_ref().map_or(0.0, |vanes| vanes.span.si());
        let reach = 0.5 * parts.shaft.outside.si() + span;
        let answer = |twig: &super::Obstacle| {
            let (at, height) = (twig.distance.si(), twig.height.si());
            let over = |&(distance, launch): &(f64, f64)| {
                if at >= distance {
                    return Ok(None);
                }
                let up = self.marker.impact(launch, at)?.up;
                Ok(Some(up - self.line(launch, distance, at) - height))
            };
            let over: Result<_, StudyError> = self.places.iter().map(over).collect();
            Ok(ObstacleClearance { twig: *twig, reach, over: over? })
        };
        self.plan.twigs.iter().map(answer).collect()
    }

    /// The line of sight of a shot at a distance, above the line to its target.
    fn line(&self, launch: f64, distance: f64, at: f64) -> f64 {
        let geometry = self.marker.geometry();
        geometry.line(launch, geometry.depression(launch, distance), at)
    }
}
