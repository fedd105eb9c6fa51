//! What the readings would be for given values.

use std::borrow::Cow;
use std::cell::RefCell;
use std::rc::Rc;

use flight::{Air, FlightEnd};
use sight::Geometry;
use solve::Closeness;
use units::{Length, Mass};

use super::{FitPlan, Observed, Sought, What};
use crate::sample::Sample;
use crate::shoot::{ArrowName, Motion, Shooter};
use crate::variant::Variant;
use crate::{Recipe, Setup, StudyError};

/// How closely to fit. The step is chosen wide enough that the tolerance of
/// launch angles, 1e-9 rad, moves no slope by a thousandth.
pub(super) const CLOSENESS: Closeness = Closeness { step: 1e-3, tolerance: 1e-9 };
/// Usual change of the scale's zero, m.
pub(super) const SCALE_SIZE: f64 = 0.01;

/// Launch angles kept. Chosen: one search never needs more at a time.
const KEPT: usize = 16;

/// Values of a fit, SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Values {
    speed: f64,
    /// As built up unless sought.
    drag: Option<f64>,
    built_up: f64,
    radius: f64,
    height: f64,
    /// What the scale reads with the pin level with the arrow, m; none without
    /// sight marks.
    scale: Option<f64>,
    /// Whether the scale's numbers rise (1) or fall (-1) with distance.
    pub(super) sense: f64,
}

impl Values {
    pub(super) fn of(&self, what: Sought) -> f64 {
        match what {
            Sought::Speed => self.speed,
            Sought::Drag => self.drag.unwrap_or(self.built_up),
            Sought::Radius => self.radius,
            Sought::Height => self.height,
        }
    }

    pub(super) fn scale_zero(&self) -> Option<f64> {
        self.scale
    }

    /// The same with another sight radius, m.
    pub(super) fn at_radius(self, radius: f64) -> Self {
        Self { radius, ..self }
    }

    /// The same with a scale, its zero and its sense.
    pub(super) fn on_scale(self, zero: f64, sense: f64) -> Self {
        Self { scale: Some(zero), sense, ..self }
    }

    /// The values sought as a list, the scale's zero last.
    pub(super) fn list(&self, sought: &[Sought]) -> Vec<f64> {
        sought.iter().map(|what| self.of(*what)).chain(self.scale).collect()
    }

    /// How much each of the list usually changes.
    pub(super) fn sizes(&self, sought: &[Sought], scale: f64) -> Vec<f64> {
        let size = |what: &Sought| match what {
            // An eye may start level with the arrow.
            Sought::Height => self.height.max(scale),
            other => self.of(*other),
        };
        sought.iter().map(size).chain(self.scale.map(|_| scale)).collect()
    }

    /// The same with the values sought taken from a list.
    pub(super) fn with(&self, sought: &[Sought], list: &[f64]) -> Self {
        let mut out = *self;
        for (what, value) in sought.iter().zip(list) {
            match what {
                Sought::Speed => out.speed = *value,
                Sought::Drag => out.drag = Some(*value),
                Sought::Radius => out.radius = *value,
                Sought::Height => out.height = *value,
            }
        }
        if out.scale.is_some() {
            out.scale = list.get(sought.len()).copied();
        }
        out
    }
}

/// Bow, arrow and sight, as far as the values leave them alone.
pub(super) struct Predictor {
    shooter: Shooter<'static>,
    kept: RefCell<Vec<Rc<Launched>>>,
}

/// Launch angles for one speed and drag, by distance, m.
struct Launched {
    speed: f64,
    drag: Option<f64>,
    shooter: Shooter<'static>,
    angles: RefCell<Vec<(f64, f64)>>,
}

impl Predictor {
    pub(super) fn new(recipe: &dyn Recipe, plan: &FitPlan) -> Result<Self, StudyError> {
        let setup = Variant::new(&plan.build, recipe).undrawn(Sample::Nominal)?;
        let tag = ArrowName { build: Cow::Owned(plan.build.clone()), flight: None };
        let motion = if plan.point_mass { Motion::Point } else { Motion::Rigid };
        let shooter = Shooter::new(tag, setup)?.moving(motion);
        Ok(Self { shooter, kept: RefCell::new(Vec::new()) })
    }

    /// Mass of the arrow.
    pub(super) fn mass(&self) -> Mass {
        self.shooter.built.mass.mass()
    }

    /// The distance the sight is set for.
    pub(super) fn zero(&self) -> Length {
        self.shooter.setup.sight.zero
    }

    /// The recipe's own values. Drag is the built-up coefficient at the
    /// recipe's speed.
    pub(super) fn start(&self, plan: &FitPlan) -> Result<Values, StudyError> {
        let Setup { parts, aero, site, sight, .. } = &self.shooter.setup;
        let speed = self.shooter.departure.speed;
        let flown = Air::of(&site.weather)
            .and_then(|air| Ok(flight::aero::aero(parts, &self.shooter.built, aero, &air, speed)?));
        let flown =
            flown.map_err(|source| StudyError::Flight { who: self.shooter.tag.who(), source })?;
        let [constant, linear, square] = flown.drag;
        let area = constant + speed * (linear + speed * square);
        let built_up = area / flown.area;
        Ok(Values {
            speed,
            drag: plan.sought.contains(&Sought::Drag).then_some(built_up),
            built_up,
            radius: sight.radius.si(),
            height: sight.height.si(),
            scale: None,
            sense: 1.0,
        })
    }

    /// What every shot would read, SI.
    pub(super) fn read(&self, values: &Values, shots: &[Observed]) -> Result<Vec<f64>, StudyError> {
        let geometry =
            Geometry::new(Length::from_si(values.height), Length::from_si(values.radius))?;
        let launched = self.launched(values);
        shots.iter().map(|shot| self.one(values, &geometry, &launched, shot)).collect()
    }

    fn one(
        &self,
        values: &Values,
        geometry: &Geometry,
        launched: &Launched,
        shot: &Observed,
    ) -> Result<f64, StudyError> {
        let distance = shot.distance.si();
        let depression = |distance: f64| -> Result<f64, StudyError> {
            Ok(geometry.depression(Self::angle(launched, distance)?, distance))
        };
        let pin = |distance: f64| Ok::<_, StudyError>(geometry.pin(depression(distance)?));
        Ok(match shot.what {
            What::Speed(_) => self.speed(launched, distance)?,
            What::Mark(_) => values.scale.unwrap_or_default() - values.sense * pin(distance)?,
            What::Gap { pin: other, .. } => (pin(other.si())? - pin(distance)?).abs(),
            What::Impact { pin: other, .. } => {
                let down = depression(other.si())?;
                // Through that pin the target is seen when the arrow leaves at
                // this angle: `Geometry::depression` turned round.
                let lift = (geometry.height() * down.cos() / distance).clamp(-1.0, 1.0).asin();
                launched.shooter.clone().aimed(down - lift).tips(&[distance])?[0].up
            }
        })
    }

    /// The setup for a speed and a drag, made or found again.
    fn launched(&self, values: &Values) -> Rc<Launched> {
        let mut kept = self.kept.borrow_mut();
        let same = |k: &&Rc<Launched>| {
            k.speed.to_bits() == values.speed.to_bits()
                && k.drag.map(f64::to_bits) == values.drag.map(f64::to_bits)
        };
        if let Some(found) = kept.iter().find(same) {
            return Rc::clone(found);
        }
        let mut shooter = self.shooter.clone();
        if let Some(drag) = values.drag {
            Sought::Drag.put(&mut shooter.setup, drag);
        }
        shooter.departure.speed = values.speed;
        let (speed, drag) = (values.speed, values.drag);
        let new = Rc::new(Launched { speed, drag, shooter, angles: RefCell::default() });
        if kept.len() == KEPT {
            kept.remove(0);
        }
        kept.push(Rc::clone(&new));
        new
    }

    /// The launch angle at which the arrow meets the line at a distance.
    fn angle(launched: &Launched, distance: f64) -> Result<f64, StudyError> {
        let known = launched
            .angles
            .borrow()
            .iter()
            .find(|(at, _)| at.to_bits() == distance.to_bits())
            .copied();
        if let Some((_, angle)) = known {
            return Ok(angle);
        }
        let angle = launched.shooter.pitch_to(distance)?;
        launched.angles.borrow_mut().push((distance, angle));
        Ok(angle)
    }

    /// The speed as the balance point passes a distance, m/s.
    fn speed(&self, launched: &Launched, distance: f64) -> Result<f64, StudyError> {
        let angle = Self::angle(launched, self.zero().si())?;
        let flight = launched.shooter.clone().aimed(angle).fly(&[distance])?;
        match (flight.end, flight.marks.first()) {
            (FlightEnd::Arrived, Some(state)) => Ok(state.velocity.norm()),
            (FlightEnd::Short { reached, why }, _) => {
                Err(StudyError::Short { who: self.shooter.tag.who(), reached, distance, why })
            }
            (FlightEnd::Arrived, None) => Err(StudyError::NoDistance),
        }
    }
}
