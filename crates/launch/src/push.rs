//! One push, and the departure it ends in.

use arrow::{Built, Parts};
use units::Angle;

use crate::check::{self, within};
use crate::course::{Course, let_go};
use crate::departing::{Leaving, PushEnd, departure};
use crate::elastic::{Elastic, FaultForcing};
use crate::energy::own_push;
use crate::film::Film;
use crate::flex::MODES;
use crate::frame::Frame;
use crate::machine::Machine;
use crate::nominal::NominalPush;
use crate::stroke::power_stroke;
use crate::track::{STEPS, Track};
use crate::{Bow, Departure, Form, GivenDeparture, LaunchError, Setting};

/// The state in which the arrow leaves the string, relative to the line along
/// which the bow pushes, by the full push.
///
/// `index` is the roll of the index vane from straight up. Order: the bow's
/// own speed, or the given one; form's speed error on top; the push at that
/// speed; given angles (from the line of motion) and rates in place of the
/// computed ones; form's release angles on top. Aim is not applied here.
///
/// # Errors
/// [`LaunchError`] where a value is outside its allowed range, where bow and
/// arrow do not fit, or where the push leaves small angles.
pub fn depart(
    bow: &Bow,
    parts: &Parts,
    built: &Built,
    index: Angle,
    form: &Form,
    given: &GivenDeparture,
) -> Result<Departure, LaunchError> {
    checked(bow, parts, built, index)?;
    let push = nominal(bow, built, form, given)?;
    let speed = push.speed();
    let arrow = Elastic::new(parts, built)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let forcings = arrow.forcings(built, index.si());
    let track = Track::new(bow, &arrow, forcings, (index.si(), stroke), MODES);
    let steps = track.needed(&push, bow)?.max(STEPS);
    let course = Course::of(&push, bow, steps, track.rear);
    let track = track.along(&course, &[]);
    let end = PushEnd::of(&track.run(&course));
    departure(&end, &Leaving::new(&arrow, speed), speed, index, form, given)
}

/// A push as it happens: every step of it, and the departure it ends in.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    /// The steps.
    pub frames: Vec<Frame>,
    /// The departure.
    pub departure: Departure,
    /// Energy of the sideways motion at the start and at the end, J.
    pub sideways: (f64, f64),
    /// When the rest is out of reach, s; one that stays touches until the string
    /// lets go, and may after.
    pub let_go: f64,
    /// Share of every force of the bow that does not come back.
    pub loss: f64,
    pub(crate) end: PushEnd,
    pub(crate) arrow: Elastic,
    pub(crate) forcings: [FaultForcing<f64>; 2],
}

impl History {
    /// Left and up displacement of the shaft's centre line at a station (m
    /// from the groove), m.
    pub fn shaft(&self, frame: &Frame, station: f64) -> [f64; 2] {
        let (value, _) = self.arrow.at(station);
        std::array::from_fn(|plane| {
            let moved: f64 = value.iter().zip(&frame.motion[plane]).map(|(a, b)| a * b).sum();
            moved + self.forcings[plane].shaft(station).0
        })
    }

    /// Displacement of a station in each bending shape, 1/sqrt(kg).
    pub(crate) fn swing_of(&self, station: f64) -> [f64; MODES] {
        self.arrow.modes.at(station).0
    }

    /// Left and up displacement of the nock groove, m.
    pub fn nock(&self, frame: &Frame) -> [f64; 2] {
        let (value, _) = self.arrow.at(0.0);
        std::array::from_fn(|plane| {
            let moved: f64 = value.iter().zip(&frame.motion[plane]).map(|(a, b)| a * b).sum();
            moved + self.forcings[plane].groove
        })
    }
}

/// As [`depart`], keeping every step.
///
/// # Errors
/// As [`depart`].
pub fn watch(
    bow: &Bow,
    parts: &Parts,
    built: &Built,
    index: Angle,
    form: &Form,
    detail: Detail,
) -> Result<History, LaunchError> {
    checked(bow, parts, built, index)?;
    let given = GivenDeparture::default();
    let push = nominal(bow, built, form, &given)?;
    let speed = push.speed();
    let arrow = Elastic::new(parts, built)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let forcings = arrow.forcings(built, index.si());
    let track = Track::new(bow, &arrow, forcings, (index.si(), stroke), detail.modes.min(MODES));
    let steps = track.needed(&push, bow)?.max(detail.steps);
    let course = Course::of(&push, bow, steps, track.rear);
    let track = track.along(&course, &[]);
    let mut film = Film::default();
    let end = PushEnd::of(&track.watched(&course, &mut film));
    let frames = film.0;
    let energy = |frame: Option<&Frame>| frame.map_or(0.0, |frame| track.sideways_energy(frame));
    let sideways = (energy(frames.first()), energy(frames.last()));
    let departure = departure(&end, &Leaving::new(&arrow, speed), speed, index, form, &given)?;
    let (let_go, loss) = (let_go(&push, bow), push.loss());
    Ok(History { frames, departure, sideways, let_go, loss, end, arrow, forcings })
}

/// How finely to follow a push.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Detail {
    /// Least number of steps.
    pub steps: usize,
    /// Bending modes; none makes the arrow rigid.
    pub modes: usize,
}

impl Default for Detail {
    fn default() -> Self {
        Self { steps: STEPS, modes: MODES }
    }
}

pub(crate) fn checked(
    bow: &Bow,
    parts: &Parts,
    built: &Built,
    index: Angle,
) -> Result<(), LaunchError> {
    check::stroke(bow)?;
    check::guide(bow, built.layout.shaft_front.si())?;
    check::arrow(parts, built, index)
}

/// The nominal push of this shot: at the bow's own speed or the given one, with
/// form's error on top.
pub(crate) fn nominal(
    bow: &Bow,
    built: &Built,
    form: &Form,
    given: &GivenDeparture,
) -> Result<NominalPush, LaunchError> {
    check::shot(form, given)?;
    let (mass, grip) = (built.mass.mass(), bow.string.grip.si());
    let own = match given.speed {
        Some(speed) => {
            NominalPush::new(&Machine::new(bow)?, mass.si(), grip)?.leaving_at(speed.si(), grip)?
        }
        None => own_push(bow, mass)?,
    };
    if form.speed.si() == 0.0 {
        return Ok(own);
    }
    let speed = own.speed() + form.speed.si();
    within(Setting::Speed, speed, check::SPEED)?;
    own.leaving_at(speed, grip)
}
