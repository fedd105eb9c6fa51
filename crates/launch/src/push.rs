//! One push, a kit of pushes by a linear map, and the departure they end in.

use arrow::{Built, Parts};
use units::{Angle, AngularRate};

use crate::check::{self, within};
use crate::elastic::{Elastic, FLAWS, Flaw, MOTIONS};
use crate::contact::{SOFT, contacts};
use crate::energy::{own_push, power_stroke};
use crate::flex::{Flex, MODES};
use crate::machine::Machine;
use crate::nominal::Nominal;
use crate::sway::{Frame, Gone, STEPS, Track};
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
    let flaws = arrow.flaws(built, index.si());
    let track = Track::new(&push, bow, &arrow, flaws, (index.si(), stroke));
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
    /// When the rest is out of reach, s; one that stays touches until the string
    /// lets go, and may after.
    pub let_go: f64,
    /// Share of every force of the bow that does not come back.
    pub loss: f64,
    pub(crate) end: End,
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
    let push = nominal(bow, built, form, &given)?;
    let speed = push.speed();
    let arrow = Elastic::new(parts, built)?;
    let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
    let flaws = arrow.flaws(built, index.si());
    let mut track = Track::new(&push, bow, &arrow, flaws, (index.si(), stroke));
    track.limit(detail.modes.min(MODES));
    let mut frames = Vec::new();
    let gone = track.follow(detail.steps, Some(&mut |frame| frames.push(frame)))?;
    let first = frames.first().map_or(0.0, |frame| track.sideways_energy(frame));
    let sideways = (first, track.sideways_energy(&gone.frame));
    let end = End::of(&gone);
    let departure =
        departure(&end, (&arrow, arrow.slowing(speed)), speed, index, form, &given)?;
    let (let_go, loss) = (track.let_go, push.loss());
    Ok(History { frames, departure, sideways, let_go, loss, end, arrow, flaws })
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
pub(crate) struct End(pub(crate) [[f64; 2 * MOTIONS]; 2]);

impl End {
    fn of(gone: &Gone) -> Self {
        Self(std::array::from_fn(|plane| {
            std::array::from_fn(|i| {
                if i < MOTIONS { gone.motion[plane][i] } else { gone.rate[plane][i - MOTIONS] }
            })
        }))
    }
}

/// A bow and one kind of arrow, their push reduced to a linear map from faults
/// to departure.
///
/// The map holds as long as only the faults change and no contact opens: then
/// the push is linear. A launcher carries the shaft by its weight, and the kit
/// knows how deep an arrow with faults presses it on the way; an arrow that
/// would lift off it gets the full push, and so do all where contacts open and
/// close anyway. Speed errors of form change the speed but not the map. Tests
/// hold it to the full push.
#[derive(Debug, Clone, PartialEq)]
pub struct Kit {
    bow: Bow,
    parts: Parts,
    index: Angle,
    arrow: Elastic,
    /// Of [`Elastic::slowing`], at the bow's own speed.
    slowing: f64,
    /// Mass of the arrow (kg) and the bow's own speed with it (m/s).
    own: (f64, f64),
    base: Reach,
    /// Change of the above with every flaw number, left and up.
    map: Vec<Reach>,
}

/// A departure and how deep the shaft pressed the launcher until then.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Reach {
    end: [[f64; 2 * MOTIONS]; 2],
    depth: [f64; LOOKS],
}

/// Size of the flaws with which the map is measured: 10 um, or 10 urad, or the
/// like. Chosen: small against any contact, large against rounding.
const PROBE: f64 = 1e-5;
/// Instants at which a kit looks whether the launcher still carries the shaft.
/// Chosen: the shaft swings a few times while it lies there.
const LOOKS: usize = 24;
/// Deeper than this the launcher's damping is whole and the push linear, m: the
/// depth over which damping grows, and a fifth for what happens between looks.
const DEEP: f64 = 1.2 * SOFT;

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
        if !contacts(bow)[0].holds() {
            return Ok(None);
        }
        let push = nominal(bow, built, &Form::default(), given)?;
        let arrow = Elastic::new(parts, built)?;
        let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
        let middle = built.shape.centre.middle;
        let run = |flaws: [Flaw; 2]| {
            let track = Track::new(&push, bow, &arrow, flaws, (index.si(), stroke));
            reach(&track)
        };
        let none = Flaw::unit(0, 0.0, middle);
        let base = run([none; 2])?;
        if !base.carried() {
            return Ok(None);
        }
        let mut map = Vec::with_capacity(2 * FLAWS);
        for plane in 0..2 {
            for number in 0..FLAWS {
                let mut flaws = [none; 2];
                flaws[plane] = Flaw::unit(number, PROBE, middle);
                map.push(run(flaws)?.less(&base));
            }
        }
        let own = (built.mass.mass().si(), push.speed());
        let slowing = arrow.slowing(own.1);
        Ok(Some(Self { bow: *bow, parts: *parts, index, arrow, slowing, own, base, map }))
    }

    /// Whether this map is the one for this bow and these parts.
    pub fn fits(&self, bow: &Bow, parts: &Parts, index: Angle) -> bool {
        self.bow == *bow && self.parts == *parts && self.index == index
    }

    /// The departure of an arrow with faults, by the map.
    ///
    /// # Errors
    /// As [`depart`](fn@depart).
    pub fn depart(
        &self,
        built: &Built,
        form: &Form,
        given: &GivenDeparture,
    ) -> Result<Departure, LaunchError> {
        check::arrow(&self.parts, built, self.index)?;
        check::shot(form, given)?;
        let mut reach = self.base;
        let flaws = self.arrow.flaws(built, self.index.si());
        let numbers = flaws.iter().flat_map(Flaw::numbers);
        for (change, number) in self.map.iter().zip(numbers) {
            if number != 0.0 {
                reach.add(change, number);
            }
        }
        let mass = built.mass.mass().si();
        if !reach.carried() || mass.to_bits() != self.own.0.to_bits() {
            return depart(&self.bow, &self.parts, built, self.index, form, given);
        }
        let own = given.speed.map_or(self.own.1, units::Speed::si);
        let speed = own + form.speed.si();
        within(Setting::Speed, speed, check::SPEED)?;
        departure(&End(reach.end), (&self.arrow, self.slowing), speed, self.index, form, given)
    }
}

impl Reach {
    /// Whether the launcher carries the shaft all the way.
    fn carried(&self) -> bool {
        // A NaN is not carried: the full push then names it.
        self.depth.iter().all(|depth| *depth >= DEEP)
    }

    fn less(&self, base: &Self) -> Self {
        Self {
            end: std::array::from_fn(|p| {
                std::array::from_fn(|i| (self.end[p][i] - base.end[p][i]) / PROBE)
            }),
            depth: std::array::from_fn(|i| (self.depth[i] - base.depth[i]) / PROBE),
        }
    }

    fn add(&mut self, change: &Self, by: f64) {
        for (sum, change) in self.end.iter_mut().flatten().zip(change.end.iter().flatten()) {
            *sum += change * by;
        }
        for (sum, change) in self.depth.iter_mut().zip(change.depth) {
            *sum += change * by;
        }
    }
}

/// Follows a push and looks at the launcher on the way; where nothing can open,
/// the depths are without end.
fn reach(track: &Track) -> Result<Reach, LaunchError> {
    let mut depth = [f64::MAX; LOOKS];
    let gone = track.follow(
        STEPS,
        Some(&mut |frame: Frame| {
            // The last look is at the instant the launcher falls.
            let place = frame.time / track.let_go * (LOOKS - 1) as f64;
            // Not negative; beyond the last look for an infinite one.
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
            let look = place.round() as usize;
            if look < LOOKS
                && let Some(deep) = track.depth(&frame)[1]
            {
                depth[look] = deep;
            }
        }),
    )?;
    Ok(Reach { end: End::of(&gone).0, depth })
}

fn checked(bow: &Bow, parts: &Parts, built: &Built, index: Angle) -> Result<(), LaunchError> {
    check::stroke(bow)?;
    check::guide(bow, built.layout.shaft_front.si())?;
    check::arrow(parts, built, index)
}

/// The nominal push of this shot: at the bow's own speed or the given one, with
/// form's error on top.
fn nominal(
    bow: &Bow,
    built: &Built,
    form: &Form,
    given: &GivenDeparture,
) -> Result<Nominal, LaunchError> {
    check::shot(form, given)?;
    let (mass, grip) = (built.mass.mass(), bow.string.grip.si());
    let own = match given.speed {
        Some(speed) => Nominal::new(&Machine::new(bow)?, mass.si(), grip)?
            .leaving_at(speed.si(), grip)?,
        None => own_push(bow, mass)?,
    };
    if form.speed.si() == 0.0 {
        return Ok(own);
    }
    let speed = own.speed() + form.speed.si();
    within(Setting::Speed, speed, check::SPEED)?;
    own.leaving_at(speed, grip)
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
