//! One shot: from a setup to where the point meets each plane.

use arrow::Built;
use body::{Attitude, State};
use flight::{Air, End, Flight, FlightError, Model, Shortfall, Tolerance, fly, fly_point};
use launch::{Departure, Flex, Form, Kit};
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

/// An arrow that has left the string.
pub(crate) struct Loosed {
    pub(crate) built: Built,
    pub(crate) departure: Departure,
}

/// Names an arrow for an error; made into a [`Who`] only when needed.
#[derive(Clone, Copy)]
pub(crate) struct Tag<'a> {
    pub(crate) build: &'a str,
    pub(crate) flight: Option<usize>,
}

impl Tag<'_> {
    pub(crate) fn who(self) -> Who {
        Who { build: self.build.to_owned(), flight: self.flight }
    }
}

/// Builds the arrow and pushes it: by the kit where it fits, else in full.
pub(crate) fn loose(setup: &Setup, kit: Option<&Kit>, tag: Tag) -> Result<Loosed, StudyError> {
    let Setup { parts, bow, form, departure: given, index, .. } = setup;
    let built = arrow::build(parts, &setup.faults)
        .map_err(|source| StudyError::Arrow { who: tag.who(), source })?;
    let departure = match kit.filter(|kit| kit.fits(bow, parts, *index)) {
        Some(kit) => kit.depart(&built, form, given),
        None => launch::depart(bow, parts, &built, *index, form, given),
    };
    let departure = departure.map_err(|source| StudyError::Launch { who: tag.who(), source })?;
    Ok(Loosed { built, departure })
}

/// The kit for a setup, if its bow has one.
pub(crate) fn kit(setup: &Setup, built: &Built, tag: Tag) -> Result<Option<Kit>, StudyError> {
    Kit::new(&setup.bow, &setup.parts, built, setup.index, &setup.departure)
        .map_err(|source| StudyError::Launch { who: tag.who(), source })
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

/// A loosed arrow ready to fly: its model and its start.
pub(crate) struct Ready {
    pub(crate) model: Model<f64>,
    pub(crate) start: State,
}

/// Makes the model of a loosed arrow and sets it on its way.
pub(crate) fn ready(setup: &Setup, loosed: &Loosed, pitch: f64) -> Result<Ready, FlightError> {
    let speed = Speed::from_si(loosed.departure.speed);
    let mut start = start(&loosed.departure, pitch, &setup.form);
    let slowing = swing_cost(setup, &loosed.departure.flex)?;
    start.velocity *= 1.0 - slowing / start.velocity.norm();
    let model = flight::model(&setup.parts, &loosed.built, &setup.aero, &setup.site, speed)?;
    Ok(Ready { model, start })
}

/// Flies a loosed arrow past marks of its balance point, m along the line.
pub(crate) fn sail(
    setup: &Setup,
    loosed: &Loosed,
    pitch: f64,
    marks: &[f64],
    motion: Motion,
    tag: Tag,
) -> Result<Flight, StudyError> {
    let tolerance = Tolerance::default();
    ready(setup, loosed, pitch)
        .and_then(|Ready { model, start }| match motion {
            Motion::Rigid => fly(&model, &start, marks, &tolerance),
            Motion::Point => fly_point(&model, &start, marks, &tolerance),
        })
        .map_err(|source| StudyError::Flight { who: tag.who(), source })
}

/// Speed that the swinging shaft loses to the air, m/s. It is taken off at once:
/// the swings die within some metres.
fn swing_cost(setup: &Setup, flex: &Flex) -> Result<f64, FlightError> {
    let air = Air::of(&setup.site.weather)?;
    let per_length = setup.aero.cross_flow.si()
        * flight::aero::CROSS_FLOW_LENGTH_FACTOR
        * setup.parts.shaft.outside.si();
    Ok(flex.slowing * air.density * per_length)
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

/// Flies a loosed arrow until its point has met every plane, or says which it
/// missed.
///
/// The point meets the plane at a distance when the balance point is its lead
/// short of it. The shaft is taken as parallel to the line for that lead (at
/// 3 degrees 0.1 % of the lead); sideways and up, its lean counts in full.
pub(crate) fn meet(
    setup: &Setup,
    loosed: &Loosed,
    pitch: f64,
    distances: &[f64],
    motion: Motion,
    tag: Tag,
) -> Result<Result<Vec<Met>, Missed>, StudyError> {
    let front = front(loosed);
    let marks = marks(loosed, distances, tag)?;
    let flight = sail(setup, loosed, pitch, &marks, motion, tag)?;
    if let End::Short { reached, why } = flight.end {
        let distance = distances[flight.marks.len().min(distances.len() - 1)];
        return Ok(Err(Missed { reached: reached + front, distance, why }));
    }
    let met = flight.marks.into_iter().map(|state| Met { tip: tip(loosed, &state), state });
    Ok(Ok(met.collect()))
}

/// The tip ahead of the balance point, m.
fn front(loosed: &Loosed) -> f64 {
    loosed.built.layout.tip.si() - loosed.built.mass.balance().si()
}

/// Where the balance point is when the point meets each plane, m.
pub(crate) fn marks(loosed: &Loosed, distances: &[f64], tag: Tag) -> Result<Vec<f64>, StudyError> {
    let front = front(loosed);
    let mark = |&distance: &f64| {
        if distance > front {
            Ok(distance - front)
        } else {
            Err(StudyError::Near { who: tag.who(), distance, front })
        }
    };
    distances.iter().map(mark).collect()
}

/// Where the point is, lean, tip offset and swinging shaft included.
pub(crate) fn tip(loosed: &Loosed, state: &State) -> Impact {
    let ahead = state.axis * front(loosed);
    let (left, up) = loosed.built.effects.tip_offset.left_up(state.roll);
    let [swing_left, swing_up] = loosed.departure.flex.tip_at(state.time);
    Impact {
        left: state.position.y + ahead.y + left + swing_left,
        up: state.position.z + ahead.z + up + swing_up,
    }
}

impl Missed {
    pub(crate) fn error(self, tag: Tag) -> StudyError {
        let Self { reached, distance, why } = self;
        StudyError::Short { who: tag.who(), reached, distance, why }
    }
}
