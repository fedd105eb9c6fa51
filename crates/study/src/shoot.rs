//! One shot: from a setup to where the point meets each plane.

use std::borrow::Cow;

use arrow::Built;
use body::{Attitude, State};
use flight::{Air, Flight, FlightEnd, FlightError, Model, Shortfall, Tolerance, fly, fly_point};
use launch::{Departure, Form};
use nalgebra::Vector3;
use target::Impact;
use units::Speed;

use crate::{Setup, StudyError, Who};

/// Which equations of motion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Motion {
    Rigid,
    Point,
}

/// Names an arrow for an error; made into a [`Who`] only when needed.
#[derive(Debug, Clone)]
pub(crate) struct ArrowName<'a> {
    pub(crate) build: Cow<'a, str>,
    pub(crate) flight: Option<usize>,
}

impl<'a> ArrowName<'a> {
    /// The arrow of a build with nothing drawn.
    pub(crate) fn of(build: &'a str) -> Self {
        Self { build: Cow::Borrowed(build), flight: None }
    }

    pub(crate) fn who(&self) -> Who {
        Who { build: self.build.clone().into_owned(), flight: self.flight }
    }
}

/// One arrow on its bow, pushed and aimed: what every question shoots with.
#[derive(Debug, Clone)]
pub(crate) struct Shooter<'a> {
    pub(crate) tag: ArrowName<'a>,
    pub(crate) setup: Setup,
    pub(crate) built: Built,
    pub(crate) departure: Departure,
    /// Launch angle above the line to the target, rad.
    pub(crate) pitch: f64,
    pub(crate) motion: Motion,
}

/// An arrow ready to fly: its model and its start.
pub(crate) struct Ready {
    pub(crate) model: Model<f64>,
    pub(crate) start: State,
}

/// The arrow as its point meets a plane.
pub(crate) struct Met {
    /// Its state.
    pub(crate) state: State,
    /// Where the point is.
    pub(crate) tip: Impact,
}

/// Why an arrow missed a plane: it never came that far.
pub(crate) struct Missed {
    pub(crate) reached: f64,
    pub(crate) distance: f64,
    pub(crate) why: Shortfall,
}

impl<'a> Shooter<'a> {
    /// Builds the arrow and pushes it in full. It is aimed along the line to the
    /// target.
    pub(crate) fn new(tag: ArrowName<'a>, setup: Setup) -> Result<Self, StudyError> {
        let Setup { parts, bow, form, departure: given, index, .. } = &setup;
        let built = arrow::build(parts, &setup.faults)
            .map_err(|source| StudyError::Arrow { who: tag.who(), source })?;
        let departure = launch::depart(bow, parts, &built, *index, form, given)
            .map_err(|source| StudyError::Launch { who: tag.who(), source })?;
        Ok(Self { tag, setup, built, departure, pitch: 0.0, motion: Motion::Rigid })
    }

    /// The same, its name its own.
    pub(crate) fn owned(self) -> Shooter<'static> {
        let Self { tag: ArrowName { build, flight }, setup, built, departure, pitch, motion } =
            self;
        let tag = ArrowName { build: Cow::Owned(build.into_owned()), flight };
        Shooter { tag, setup, built, departure, pitch, motion }
    }

    /// The same, leaving at this angle.
    pub(crate) fn aimed(self, pitch: f64) -> Self {
        Self { pitch, ..self }
    }

    /// The same by other equations of motion.
    pub(crate) fn moving(self, motion: Motion) -> Self {
        Self { motion, ..self }
    }

    /// Makes the model and sets the arrow on its way.
    pub(crate) fn ready(&self) -> Result<Ready, StudyError> {
        self.set_off().map_err(|source| StudyError::Flight { who: self.tag.who(), source })
    }

    fn set_off(&self) -> Result<Ready, FlightError> {
        let Self { setup, built, departure, .. } = self;
        let mut start = start(departure, self.pitch, &setup.form);
        start.velocity *= 1.0 - self.swing_cost()? / start.velocity.norm();
        let speed = Speed::from_si(departure.speed);
        let model = flight::model(&setup.parts, built, &setup.aero, &setup.site, speed)?;
        Ok(Ready { model, start })
    }

    /// Speed that the swinging shaft loses to the air, m/s. It is taken off at
    /// once: the swings die within some metres.
    fn swing_cost(&self) -> Result<f64, FlightError> {
        let setup = &self.setup;
        let air = Air::of(&setup.site.weather)?;
        let per_length = setup.aero.cross_flow.si()
            * flight::aero::CROSS_FLOW_LENGTH_FACTOR
            * setup.parts.shaft.outside.si();
        Ok(self.departure.flex.slowing * air.density * per_length)
    }

    /// Flies past marks of the balance point, m along the line.
    pub(crate) fn fly(&self, marks: &[f64]) -> Result<Flight, StudyError> {
        let (Ready { model, start }, tolerance) = (self.ready()?, Tolerance::default());
        match self.motion {
            Motion::Rigid => fly(&model, &start, marks, &tolerance),
            Motion::Point => fly_point(&model, &start, marks, &tolerance),
        }
        .map_err(|source| StudyError::Flight { who: self.tag.who(), source })
    }

    /// Flies until the point has met every plane, or says which it missed.
    ///
    /// The point meets the plane at a distance when the balance point is its
    /// lead short of it. The shaft is taken as parallel to the line for that
    /// lead (at 3 degrees 0.1 % of the lead); sideways and up, its lean counts
    /// in full.
    pub(crate) fn meet(&self, distances: &[f64]) -> Result<Result<Vec<Met>, Missed>, StudyError> {
        let flight = self.fly(&self.marks(distances)?)?;
        if let FlightEnd::Short { reached, why } = flight.end {
            let distance = distances[flight.marks.len().min(distances.len() - 1)];
            return Ok(Err(Missed { reached: reached + self.front(), distance, why }));
        }
        let met = flight.marks.into_iter().map(|state| Met { tip: self.tip(&state), state });
        Ok(Ok(met.collect()))
    }

    /// The same, where an arrow that falls short is an error.
    pub(crate) fn impacts_at(&self, distances: &[f64]) -> Result<Vec<Met>, StudyError> {
        self.meet(distances)?.map_err(|Missed { reached, distance, why }| StudyError::Short {
            who: self.tag.who(),
            reached,
            distance,
            why,
        })
    }

    /// Where the point meets each plane.
    pub(crate) fn tips(&self, distances: &[f64]) -> Result<Vec<Impact>, StudyError> {
        Ok(self.impacts_at(distances)?.into_iter().map(|met| met.tip).collect())
    }

    /// The tip ahead of the balance point, m.
    pub(crate) fn front(&self) -> f64 {
        self.built.layout.tip.si() - self.built.mass.balance().si()
    }

    /// Where the balance point is when the point meets each plane, m.
    pub(crate) fn marks(&self, distances: &[f64]) -> Result<Vec<f64>, StudyError> {
        let front = self.front();
        let mark = |&distance: &f64| {
            if distance > front {
                Ok(distance - front)
            } else {
                Err(StudyError::Near { who: self.tag.who(), distance, front })
            }
        };
        distances.iter().map(mark).collect()
    }

    /// Where the point is, lean, tip offset and swinging shaft included.
    pub(crate) fn tip(&self, state: &State) -> Impact {
        let ahead = state.axis * self.front();
        let (left, up) = self.built.effects.tip_offset.left_up(state.roll);
        let [swing_left, swing_up] = self.departure.flex.tip_at(state.time);
        Impact {
            left: state.position.y + ahead.y + left + swing_left,
            up: state.position.z + ahead.z + up + swing_up,
        }
    }
}

/// The state at departure in the line frame.
///
/// The origin is where the balance point of a perfect arrow is when the nock
/// leaves the string, and distances are measured from it.
pub fn start(departure: &Departure, pitch: f64, form: &Form) -> State {
    let Departure { speed, velocity_left, velocity_up, yaw_rate, pitch_rate, .. } = *departure;
    let push = axes(Attitude { yaw: form.aim_left.si(), pitch: pitch + form.aim_up.si() });
    let in_push = |v: Vector3<f64>| push[0] * v.x + push[1] * v.y + push[2] * v.z;
    let nose = axes(Attitude { yaw: departure.yaw, pitch: departure.pitch });
    // Yaw (nose left) turns about the nose's up, pitch (nose up) about its right.
    let rate = nose[2] * yaw_rate - nose[1] * pitch_rate;
    // Distances start here, whichever way the push leans.
    let mut position = in_push(Vector3::new(0.0, departure.left, departure.up));
    position.x = 0.0;
    State {
        time: 0.0,
        position,
        velocity: in_push(Vector3::new(speed, velocity_left, velocity_up)),
        axis: in_push(nose[0]),
        rate: in_push(rate),
        spin: departure.spin,
        roll: departure.roll,
    }
}

/// Forward, left and up of a direction: left stays level, up follows.
fn axes(direction: Attitude) -> [Vector3<f64>; 3] {
    let forward = direction.axis();
    let (sin, cos) = direction.yaw.sin_cos();
    let left = Vector3::new(-sin, cos, 0.0);
    [forward, left, forward.cross(&left)]
}
