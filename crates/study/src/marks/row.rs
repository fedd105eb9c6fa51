//! The table of marks: one row a distance.

use rayon::prelude::*;
use sight::SightError;
use units::Speed;

use super::sighted::{Arrival, SightedArrow};
use super::tables::MarkTables;
use super::{FARTHEST, MarkRow, PointOn, SightPin};
use crate::first::all_or_first;
use crate::sightin::root_of;
use crate::{Banded, StudyError};

/// Steps along a path for its highest point. Chosen: a parabola through three
/// neighbours then errs by far less than a hair.
const STEPS: u32 = 48;
/// Steps in which the point-on distance is searched, m. Chosen.
const SEARCH: f64 = 10.0;
/// How closely it is found, m. Chosen: finer than anyone paces.
const CLOSE: f64 = 1e-3;

/// The launch angle at each distance.
pub(super) fn aimed(
    marker: &SightedArrow,
    distances: &[f64],
) -> Result<Vec<(f64, f64)>, StudyError> {
    all_or_first(distances.par_iter().map(|&d| Ok((d, marker.launch(d)?))))
}

impl MarkTables<'_> {
    pub(super) fn rows(
        &self,
        pins: &[SightPin],
        point_on: Option<&PointOn>,
    ) -> Result<Vec<MarkRow>, StudyError> {
        let distances: Vec<f64> = self.shots.iter().map(|shot| shot.0).collect();
        let zeroed = self.marker.fly(self.zero_launch, &distances)?;
        let calm = self.marker.in_crosswind(Speed::ZERO);
        let windy = self.marker.in_crosswind(self.plan.crosswind);
        let geometry = self.marker.geometry();
        let level = geometry.depression(self.zero_launch, self.zero);
        let row = |place: usize| {
            let (distance, launch) = self.shots[place];
            let depression = geometry.depression(launch, distance);
            let Arrival { met, path } = self.marker.arrive(launch, distance, STEPS)?;
            let heights: Vec<(f64, f64)> = path
                .iter()
                .map(|&(at, up)| (at, up - geometry.line(launch, depression, at)))
                .collect();
            let (apex_at, apex) = highest(&heights);
            let drift = windy.impact(launch, distance)?.left - calm.impact(launch, distance)?.left;
            let travel = geometry.pin(level) - geometry.pin(depression);
            let moving = self.marker.moving(&met.state);
            let hold = |depression| geometry.line(launch, depression, distance);
            Ok(MarkRow {
                distance,
                launch,
                depression,
                pin: geometry.pin(depression),
                travel: Banded::sure(travel),
                clicks: self.plan.click.map(|click| travel / click.si()),
                drop: distance * launch.tan() - met.tip.up,
                above_sight: zeroed[place].tip.up
                    - geometry.line(self.zero_launch, level, distance),
                holds: pins.iter().map(|pin| hold(pin.depression)).collect(),
                point_hold: point_on.map(|point| hold(point.depression)),
                time: met.state.time,
                speed: moving.speed,
                energy: moving.energy,
                momentum: moving.momentum,
                drift,
                path_pitch: body::Attitude::of(&met.state.velocity).pitch,
                apex_at,
                apex,
            })
        };
        all_or_first((0..self.shots.len()).into_par_iter().map(row))
    }

    pub(super) fn pins(&self, zeros: &[f64]) -> Result<Vec<SightPin>, StudyError> {
        let geometry = self.marker.geometry();
        let pin = |&zero: &f64| {
            let depression = geometry.depression(self.marker.launch(zero)?, zero);
            Ok(SightPin {
                zero,
                twin: self.sighting.twin(zero)?,
                height: geometry.pin(depression),
                depression,
            })
        };
        zeros.iter().map(pin).collect()
    }

    /// The distance at which the point is held on the target.
    pub(super) fn point_on(&self) -> Result<PointOn, StudyError> {
        let geometry = self.marker.geometry();
        let depression = (geometry.height() / self.marker.built().layout.tip.si()).atan();
        let below = |distance: f64| -> Result<f64, StudyError> {
            Ok(geometry.depression(self.marker.launch(distance)?, distance) - depression)
        };
        let mut low = self.sighting.top();
        let mut found = None;
        while found.is_none() && low < FARTHEST {
            let next = (low + SEARCH).min(FARTHEST);
            match below(next) {
                Ok(past) if past >= 0.0 => found = Some((low, next)),
                Ok(_) => low = next,
                // Farther than the bow can shoot.
                Err(StudyError::OutOfReach { .. }) => break,
                Err(error) => return Err(error),
            }
        }
        let Some((low, high)) = found else {
            return Ok(PointOn { depression, distance: None });
        };
        let found = root_of(below, low, high, CLOSE)?;
        Ok(PointOn { depression, distance: Some(found.map_err(SightError::Root)?) })
    }
}

/// The highest of some points, by the parabola through its neighbours.
fn highest(points: &[(f64, f64)]) -> (f64, f64) {
    let best =
        (0..points.len()).max_by(|a, b| points[*a].1.total_cmp(&points[*b].1)).unwrap_or_default();
    if best == 0 || best + 1 == points.len() {
        return points[best];
    }
    let [(x0, y0), (x1, y1), (x2, y2)] = [points[best - 1], points[best], points[best + 1]];
    let (rise, fall) = ((y1 - y0) / (x1 - x0), (y2 - y1) / (x2 - x1));
    let bend = (fall - rise) / (x2 - x0);
    if bend >= 0.0 {
        return points[best];
    }
    // Newton's form: y0 + rise (x - x0) + bend (x - x0)(x - x1).
    let x = 0.5 * (x0 + x1 - rise / bend);
    (x, y0 + rise * (x - x0) + bend * (x - x0) * (x - x1))
}
