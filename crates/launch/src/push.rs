//! One push, and the departure it ends in.

use arrow::{Built, Parts};
use units::{Angle, AngularRate};

use crate::check::{self, within};
use crate::elastic::{Elastic, FaultForcing, MOTIONS};
use crate::energy::own_push;
use crate::flex::{Flex, MODES};
use crate::frame::Frame;
use crate::machine::Machine;
use crate::nominal::NominalPush;
use crate::stroke::power_stroke;
use crate::sway::{Gone, STEPS, Track};
use crate::{Bow, Departure, Form, GivenDeparture, LaunchError, Setting};

/// Largest nose angle of the push, rad. Chosen: sine and angle differ by
/// 0.7 % there.
const FARTHEST: f64 = 0.2;
/// Largest slope at which nock or point may leave on a bent shaft, rad. Chosen:
/// the shortening of the bent shaft is then 3 % wrong, and a finger release
/// bends an arrow half as far.
const MOST_BENT: f64 = 0.35;

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
    let track = Track::new(&push, bow, &arrow, forcings, (index.si(), stroke));
    let end = PushEnd::of(&track.follow(STEPS, None)?);
    departure(&end, (&arrow, arrow.slowing(speed)), speed, index, form, given)
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
    pub(crate) forcings: [FaultForcing; 2],
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
    let mut track = Track::new(&push, bow, &arrow, forcings, (index.si(), stroke));
    track.limit(detail.modes.min(MODES));
    let mut frames = Vec::new();
    let gone = track.follow(detail.steps, Some(&mut |frame| frames.push(frame)))?;
    let first = frames.first().map_or(0.0, |frame| track.sideways_energy(frame));
    let sideways = (first, track.sideways_energy(&gone.frame));
    let end = PushEnd::of(&gone);
    let departure = departure(&end, (&arrow, arrow.slowing(speed)), speed, index, form, &given)?;
    let (let_go, loss) = (track.let_go, push.loss());
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

/// Motions and rates at departure, left and up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct PushEnd(pub(crate) [[f64; 2 * MOTIONS]; 2]);

impl PushEnd {
    pub(crate) fn of(gone: &Gone) -> Self {
        Self(std::array::from_fn(|plane| {
            std::array::from_fn(|i| {
                if i < MOTIONS { gone.motion[plane][i] } else { gone.rate[plane][i - MOTIONS] }
            })
        }))
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

pub(crate) fn departure(
    end: &PushEnd,
    (arrow, slowing): (&Elastic, f64),
    speed: f64,
    index: Angle,
    form: &Form,
    given: &GivenDeparture,
) -> Result<Departure, LaunchError> {
    let [left, up] = end.0;
    let (yaw, pitch) = (left[1], up[1]);
    if !end.0.iter().flatten().all(|value| value.is_finite()) {
        return Err(LaunchError::NotFinite { yaw, pitch });
    }
    let angle = yaw.abs().max(pitch.abs());
    if angle > FARTHEST {
        return Err(LaunchError::TooFar { angle, limit: FARTHEST });
    }
    let slope = [0.0, arrow.tip]
        .map(|end| arrow.modes.at(end).1)
        .iter()
        .flat_map(|slope| [left, up].map(|m| (0..MODES).map(|k| slope[k] * m[2 + k]).sum::<f64>()))
        .fold(0.0, |most: f64, slope| most.max(slope.abs()));
    if slope > MOST_BENT {
        return Err(LaunchError::TooBent { slope, limit: MOST_BENT });
    }
    let from_motion = |given: Option<Angle>, own: f64, sideways: f64| {
        given.map_or(own, |angle| angle.si() + sideways / speed)
    };
    let rigid = [given.yaw_rate, given.pitch_rate];
    let rate = |plane: usize| rigid[plane].map_or(end.0[plane][MOTIONS + 1], AngularRate::si);
    Ok(Departure {
        speed,
        velocity_left: left[MOTIONS],
        velocity_up: up[MOTIONS],
        yaw: from_motion(given.yaw, yaw, left[MOTIONS]) + form.release_left.si(),
        pitch: from_motion(given.pitch, pitch, up[MOTIONS]) + form.release_up.si(),
        yaw_rate: rate(0),
        pitch_rate: rate(1),
        spin: given.spin.map_or(0.0, AngularRate::si),
        roll: index.si(),
        left: left[0],
        up: up[0],
        flex: flex(end, arrow, slowing),
    })
}

fn flex(end: &PushEnd, arrow: &Elastic, slowing: f64) -> Flex {
    let tip = arrow.modes.at(arrow.tip).0;
    let pick =
        |from: usize| std::array::from_fn(|plane| std::array::from_fn(|k| end.0[plane][from + k]));
    // Amplitude cubed of the first mode, both planes together.
    let square: f64 = (0..2)
        .map(|p| end.0[p][2].powi(2) + (end.0[p][MOTIONS + 2] / arrow.modes.frequency[0]).powi(2))
        .sum();
    Flex {
        slowing: slowing * square.powf(1.5),
        frequency: arrow.modes.frequency,
        decay: std::array::from_fn(|k| 0.5 * arrow.damping[2 + k]),
        tip,
        nock: arrow.modes.at(0.0).0,
        amplitude: pick(2),
        rate: pick(MOTIONS + 2),
    }
}
