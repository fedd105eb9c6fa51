//! One push, a kit of pushes by a linear map, and the departure they end in.

use arrow::{Built, Parts};
use units::{Angle, AngularRate};

use crate::check::{self, within};
use crate::elastic::{Elastic, FLAWS, Flaw, MOTIONS};
use crate::energy::{own_speed, power_stroke};
use crate::flex::{Flex, MODES};
use crate::hold::{Contact, contacts};
use crate::sway::{Frame, STEPS, Track};
use crate::{Bow, BowLaw, Departure, Form, GivenDeparture, LaunchError, Setting};

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
    let speed = speed(bow, built, form, given)?;
    let arrow = Elastic::new(parts, built)?;
    let law = BowLaw::new(bow)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let flaws = arrow.flaws(built, index.si());
    let track = Track::new(&law, bow, &arrow, flaws, (index.si(), stroke, speed));
    let end = End::of(&track.follow(STEPS, None)?);
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
    pub(crate) arrow: Elastic,
    pub(crate) flaws: [Flaw; 2],
}

impl History {
    /// Left and up displacement of the shaft's centre line at a station (m
    /// from the groove), m.
    pub fn shaft(&self, frame: &Frame, station: f64) -> [f64; 2] {
        let (value, _) = self.arrow.at(station);
        std::array::from_fn(|plane| {
            let moved: f64 = value.iter().zip(&frame.motion[plane]).map(|(a, b)| a * b).sum();
            moved + self.flaws[plane].shaft(station).0
        })
    }

    /// Left and up displacement of the nock groove, m.
    pub fn nock(&self, frame: &Frame) -> [f64; 2] {
        let (value, _) = self.arrow.at(0.0);
        std::array::from_fn(|plane| {
            let moved: f64 = value.iter().zip(&frame.motion[plane]).map(|(a, b)| a * b).sum();
            moved + self.flaws[plane].groove
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
    let speed = speed(bow, built, form, &given)?;
    let arrow = Elastic::new(parts, built)?;
    let law = BowLaw::new(bow)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let flaws = arrow.flaws(built, index.si());
    let mut track = Track::new(&law, bow, &arrow, flaws, (index.si(), stroke, speed));
    track.modes = detail.modes.min(MODES);
    let mut frames = Vec::new();
    let end = track.follow(detail.steps, Some(&mut |frame| frames.push(frame)))?;
    let first = frames.first().map_or(0.0, |frame| track.sideways_energy(frame));
    let sideways = (first, track.sideways_energy(&end));
    let departure =
        departure(&End::of(&end), (&arrow, arrow.slowing(speed)), speed, index, form, &given)?;
    Ok(History { frames, departure, sideways, arrow, flaws })
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
struct End([[f64; 2 * MOTIONS]; 2]);

impl End {
    fn of(frame: &Frame) -> Self {
        Self(std::array::from_fn(|plane| {
            std::array::from_fn(|i| {
                if i < MOTIONS { frame.motion[plane][i] } else { frame.rate[plane][i - MOTIONS] }
            })
        }))
    }
}

/// A bow and one kind of arrow, their push reduced to a linear map from faults
/// to departure.
///
/// The map holds as long as only the faults change, for a rest that holds the
/// shaft both ways: then the push is linear. Where contacts open and close
/// there is no kit, and each arrow gets the full push. Speed errors of form
/// change the speed but not the map. Tests hold it to the full push.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    bow: Bow,
    parts: Parts,
    index: Angle,
    arrow: Elastic,
    /// Of [`Elastic::slowing`], at the bow's own speed.
    slowing: f64,
    base: End,
    /// Change of every departure number, left and up, with every flaw number,
    /// left and up.
    map: Vec<[[f64; 2 * MOTIONS]; 2]>,
}

/// Size of the flaws with which the map is measured: 10 um, or 10 urad, or the
/// like. Chosen: small against any contact, large against rounding.
const PROBE: f64 = 1e-5;

impl Kit {
    /// Measures the map for a bow and an arrow (the faults of `built` do not
    /// count); none for a rest whose contacts open.
    ///
    /// # Errors
    /// As [`depart`].
    pub fn new(
        bow: &Bow,
        parts: &Parts,
        built: &Built,
        index: Angle,
        given: &GivenDeparture,
    ) -> Result<Option<Self>, LaunchError> {
        checked(bow, parts, built, index)?;
        if !contacts(bow).iter().all(Contact::holds) {
            return Ok(None);
        }
        let speed = speed(bow, built, &Form::default(), given)?;
        let arrow = Elastic::new(parts, built)?;
        let law = BowLaw::new(bow)?;
        let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
        let middle = built.shape.centre.middle;
        let run = |flaws: [Flaw; 2]| {
            let track = Track::new(&law, bow, &arrow, flaws, (index.si(), stroke, speed));
            track.follow(STEPS, None).map(|end| End::of(&end))
        };
        let none = Flaw::unit(0, 0.0, middle);
        let base = run([none; 2])?;
        let mut map = Vec::with_capacity(2 * FLAWS);
        for plane in 0..2 {
            for number in 0..FLAWS {
                let mut flaws = [none; 2];
                flaws[plane] = Flaw::unit(number, PROBE, middle);
                let end = run(flaws)?;
                let change: [[f64; 2 * MOTIONS]; 2] = std::array::from_fn(|p| {
                    std::array::from_fn(|i| (end.0[p][i] - base.0[p][i]) / PROBE)
                });
                map.push(change);
            }
        }
        let slowing = arrow.slowing(speed);
        Ok(Some(Self { bow: *bow, parts: *parts, index, arrow, slowing, base, map }))
    }

    /// Whether this map is the one for this bow and these parts.
    pub fn fits(&self, bow: &Bow, parts: &Parts, index: Angle) -> bool {
        self.bow == *bow && self.parts == *parts && self.index == index
    }

    /// The departure of an arrow with faults, by the map.
    ///
    /// # Errors
    /// As [`depart`].
    pub fn depart(
        &self,
        built: &Built,
        form: &Form,
        given: &GivenDeparture,
    ) -> Result<Departure, LaunchError> {
        check::arrow(&self.parts, built, self.index)?;
        check::shot(form, given)?;
        let speed = speed(&self.bow, built, form, given)?;
        let mut end = self.base;
        let flaws = self.arrow.flaws(built, self.index.si());
        let numbers = flaws.iter().flat_map(Flaw::numbers);
        for (change, number) in self.map.iter().zip(numbers) {
            if number != 0.0 {
                for (plane, change) in end.0.iter_mut().zip(change) {
                    for (sum, by) in plane.iter_mut().zip(change) {
                        *sum += by * number;
                    }
                }
            }
        }
        departure(&end, (&self.arrow, self.slowing), speed, self.index, form, given)
    }
}

fn checked(bow: &Bow, parts: &Parts, built: &Built, index: Angle) -> Result<(), LaunchError> {
    check::stroke(bow)?;
    check::guide(bow, built.layout.shaft_front.si())?;
    check::arrow(parts, built, index)
}

fn speed(
    bow: &Bow,
    built: &Built,
    form: &Form,
    given: &GivenDeparture,
) -> Result<f64, LaunchError> {
    check::shot(form, given)?;
    let own = given.speed.map_or_else(|| own_speed(bow, built.mass.mass()), Ok)?;
    let speed = own.si() + form.speed.si();
    within(Setting::Speed, speed, check::SPEED)?;
    Ok(speed)
}

fn departure(
    end: &End,
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

fn flex(end: &End, arrow: &Elastic, slowing: f64) -> Flex {
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
