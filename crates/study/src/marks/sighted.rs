//! One bow, one arrow, one sight: how the arrow must leave for a distance.

use std::borrow::Cow;

use arrow::Built;
use body::State;
use launch::Departure;
use rayon::prelude::*;
use sight::{Geometry, Launches, Sighting};
use target::Impact;
use units::Angle;

use crate::first::all_or_first;
use crate::sample::Sample;
use crate::shoot::{ArrowName, Met, Shooter};
use crate::sightin::Moving;
use crate::variant::Variant;
use crate::{Recipe, Setup, Slot, StudyError};

/// Nearest distance of a mark, m. Chosen: an arm's length beyond the longest
/// arrow's point.
pub const NEAREST: f64 = 2.0;
/// Farthest distance of a mark, m. Chosen: where scenario distances end.
pub const FARTHEST: f64 = 200.0;
/// Distance between two launch angles of a sighting, m. Chosen: a small part of
/// the 15 to 40 m in which an arrow pitches once.
const KNOT: f64 = 2.0;
/// How far launch angles reach beyond the farthest distance asked for, m: the
/// cubic there has neighbours on both sides.
const SPARE: f64 = 2.0 * KNOT;

/// An arrow on a bow with a sight: nothing drawn, no faults, no form error,
/// and level ground unless turned with [`SightedArrow::on_slope`].
#[derive(Clone)]
pub struct SightedArrow {
    shooter: Shooter<'static>,
    geometry: Geometry,
}

/// An arrow as it comes to a distance.
pub(crate) struct Arrival {
    pub(crate) met: Met,
    /// Its point along the way: distance, m, and height above the line to the
    /// target, m.
    pub(crate) path: Vec<(f64, f64)>,
}

impl SightedArrow {
    /// From a recipe with some values changed (SI; they win over draws).
    ///
    /// # Errors
    /// [`StudyError`].
    pub fn new(
        recipe: &dyn Recipe,
        changes: &[(Slot, f64)],
        build: &str,
    ) -> Result<Self, StudyError> {
        let tag = ArrowName { build: Cow::Owned(build.to_owned()), flight: None };
        let off = recipe.draws().iter().map(|draw| (draw.slot, draw.off));
        let all: Vec<_> = off.chain(changes.iter().copied()).collect();
        let mut setup = Variant::new(build, recipe).made(Sample::Nominal, &all, &tag)?;
        setup.site.shot_angle = Angle::ZERO;
        let geometry = Geometry::new(setup.sight.height, setup.sight.radius)?;
        Ok(Self { shooter: Shooter::new(tag, setup)?, geometry })
    }

    /// The same shot up (positive) or down a slope.
    #[must_use]
    pub fn on_slope(&self, angle: Angle) -> Self {
        let mut same = self.clone();
        same.shooter.setup.site.shot_angle = angle;
        same
    }

    /// The same in a wind from the archer's right, the same at every height.
    pub(crate) fn in_crosswind(&self, speed: units::Speed) -> Self {
        let from = Angle::from_si(std::f64::consts::FRAC_PI_2);
        let mut same = self.clone();
        same.shooter.setup.site.wind = flight::Wind { speed, from, profile: None };
        same
    }

    /// Where eye and pin are.
    pub fn geometry(&self) -> &Geometry {
        &self.geometry
    }

    /// The setup.
    pub fn setup(&self) -> &Setup {
        &self.shooter.setup
    }

    /// The arrow.
    pub fn built(&self) -> &Built {
        &self.shooter.built
    }

    /// What the arrow carries in a state.
    pub(crate) fn moving(&self, state: &State) -> Moving {
        Moving::of(&self.shooter, state)
    }

    /// Its departure.
    pub fn departure(&self) -> &Departure {
        &self.shooter.departure
    }

    /// The launch angle above the line to a target at a distance, m, that the
    /// arrow meets, rad.
    ///
    /// # Errors
    /// [`StudyError`]: out of reach, or a flight that fails.
    pub fn launch(&self, distance: f64) -> Result<f64, StudyError> {
        self.shooter.pitch_to(distance)
    }

    /// Every mark from [`NEAREST`] up to a distance, m.
    ///
    /// # Errors
    /// As [`SightedArrow::launch`].
    pub fn sighting(&self, farthest: f64) -> Result<Sighting, StudyError> {
        let mut knots = vec![NEAREST];
        let mut knot = NEAREST;
        while knot < farthest + SPARE {
            knot += KNOT;
            knots.push(knot);
        }
        let points = all_or_first(knots.into_par_iter().map(|d| Ok((d, self.launch(d)?))))?;
        Ok(Sighting::new(self.geometry, Launches::new(points)?)?)
    }

    /// Flies to rising distances, m, leaving `launch` rad above the line.
    pub(crate) fn fly(&self, launch: f64, distances: &[f64]) -> Result<Vec<Met>, StudyError> {
        self.shooter.clone().aimed(launch).impacts_at(distances)
    }

    /// Where the point meets one distance, m.
    pub(crate) fn impact(&self, launch: f64, distance: f64) -> Result<Impact, StudyError> {
        Ok(self.fly(launch, &[distance])?.remove(0).tip)
    }

    /// Flies to a distance, m, and keeps the path in even steps, from
    /// [`NEAREST`] on.
    pub(crate) fn arrive(
        &self,
        launch: f64,
        distance: f64,
        steps: u32,
    ) -> Result<Arrival, StudyError> {
        let way = (distance - NEAREST).max(0.0);
        let along = |step| NEAREST + way * f64::from(step) / f64::from(steps);
        let mut places: Vec<f64> = (0..steps).map(along).filter(|at| *at < distance).collect();
        places.push(distance);
        let mut met = self.fly(launch, &places)?;
        let path = places.iter().zip(&met).map(|(at, met)| (*at, met.tip.up)).collect();
        // There is at least the distance itself.
        Ok(Arrival { met: met.remove(met.len() - 1), path })
    }
}
