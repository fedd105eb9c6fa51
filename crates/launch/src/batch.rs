//! Pushes of many arrows side by side.

use arrow::{Built, Parts};
use solve::Polynomial;
use units::{Acceleration, Angle, Damping, Force, Length, Speed, Stiffness};

use crate::check::{self, within};
use crate::course::{Course, TERMS};
use crate::departing::{Leaving, PushEnd, departure};
use crate::elastic::{Elastic, FaultForcing};
use crate::energy::Reading;
use crate::flex::MODES;
use crate::kind::{BowAndArrow, Range};
use crate::lane::run_all;
use crate::machine::Machine;
use crate::nominal::NominalPush;
use crate::push::{checked, depart};
use crate::stroke::power_stroke;
use crate::track::{STEPS, Track};
use crate::{Bow, Departure, Form, GivenDeparture, LaunchError, NockPath, Release, Rest, Setting};

/// One arrow shot.
#[derive(Debug, Clone, Copy)]
pub struct Shot<'a> {
    /// The bow.
    pub bow: &'a Bow,
    /// The arrow's parts.
    pub parts: &'a Parts,
    /// The arrow, with its faults.
    pub built: &'a Built,
    /// Roll of the index vane from straight up.
    pub index: Angle,
    /// The archer's part.
    pub form: &'a Form,
    /// Values given directly.
    pub given: &'a GivenDeparture,
}

impl Shot<'_> {
    /// Its departure, pushed on its own.
    ///
    /// # Errors
    /// As [`depart`].
    pub fn depart(&self) -> Result<Departure, LaunchError> {
        depart(self.bow, self.parts, self.built, self.index, self.form, self.given)
    }
}

/// A bow that pushes many arrows of like kind, as many side by side as the
/// processor holds, whatever its rest.
///
/// How the bow moves depends on an arrow's mass and speed alone: polynomials of
/// these through a few runs. Each push has its own faults and its own way to bend.
/// An arrow that is too unlike for the steps, or outside the ranges, is pushed on
/// its own; so the answer never depends on which arrows are together.
#[derive(Debug, Clone, PartialEq)]
pub struct PushBatch {
    centre: BowAndArrow,
    elastic: Elastic,
    given: Option<Speed>,
    /// Of mass, kg, and of form's speed error, m/s.
    ranges: [Range; 2],
    /// Which of these differ at all.
    moving: Vec<usize>,
    course: Course,
    /// Square of the fastest mode, what a newton on the groove gives it, and
    /// impulse of the release, at most.
    most: [f64; 3],
}

/// Degrees in mass and in speed, and in all. Chosen: with masses within seven per
/// cent and speeds within two the impact at 100 yd is met within 0.01 mm (tested).
const DEGREES: [usize; 2] = [4, 2];
const DEGREE: usize = 4;
/// Square of the fastest mode, ease of the groove, and impulse, over those of the
/// middle arrow, at most. Chosen: far from where steps would be unstable.
const UNLIKE: f64 = 1.5;

impl PushBatch {
    /// For arrows with masses (kg) and form's speed errors (m/s) in these ranges.
    ///
    /// # Errors
    /// As [`depart`].
    pub fn new(
        centre: BowAndArrow,
        ranges: [Range; 2],
        given: Option<Speed>,
    ) -> Result<Self, LaunchError> {
        let BowAndArrow { bow, parts, built, index } = &centre;
        checked(bow, parts, built, *index)?;
        let moving: Vec<usize> = (0..2).filter(|&i| ranges[i].high > ranges[i].low).collect();
        let most: Vec<usize> = moving.iter().map(|&i| DEGREES[i]).collect();
        let set = Polynomial::new(&most, DEGREE);
        let grip = bow.string.grip.si();
        let reading = Reading::new(bow, built.mass.mass().si())?;
        let own = |mass: f64| match given {
            Some(speed) => {
                NominalPush::new(&Machine::new(bow)?, mass, grip)?.leaving_at(speed.si(), grip)
            }
            None if reading.of_any_mass() => reading.push(mass),
            None => Reading::new(bow, mass)?.push(mass),
        };
        let mut pushes = Vec::with_capacity(set.terms());
        for term in 0..set.terms() {
            let mut values = ranges.map(|range| range.at(0.0));
            for (&index, place) in moving.iter().zip(set.point(term)) {
                values[index] = ranges[index].at(place);
            }
            let push = own(values[0])?;
            let speed = push.speed() + values[1];
            within(Setting::Speed, speed, check::SPEED)?;
            pushes.push(push.leaving_at(speed, grip)?);
        }
        let elastic = Elastic::new(parts, built)?;
        let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
        let none = [FaultForcing::unit(0, 0.0, elastic.middle); 2];
        let track = Track::new(bow, &elastic, none, (0.0, stroke), MODES);
        let steps = track.needed(&pushes[0], bow)?.max(STEPS);
        let course = Course::between(set, &pushes, bow, steps, track.rear);
        let most = unlike(&track);
        Ok(Self { centre, elastic, given, ranges, moving, course, most })
    }

    /// The departures of some shots, each as it would be alone.
    pub fn depart(&self, shots: &[Shot<'_>]) -> Vec<Result<Departure, LaunchError>> {
        let mut ready = Vec::new();
        let mut out: Vec<Result<Departure, LaunchError>> = Vec::with_capacity(shots.len());
        for (place, shot) in shots.iter().enumerate() {
            out.push(match self.ready(shot) {
                Ok(Some((track, leaving, speed))) => {
                    ready.push((place, track, leaving, speed));
                    Ok(Departure::default())
                }
                Ok(None) => shot.depart(),
                Err(error) => Err(error),
            });
        }
        let tracks: Vec<&Track<f64>> = ready.iter().map(|(_, track, ..)| track).collect();
        let pushed = run_all(&tracks, &self.course);
        for ((place, _, leaving, speed), pushed) in ready.iter().zip(pushed) {
            let shot = &shots[*place];
            let end = PushEnd::of(&pushed.state);
            out[*place] = departure(&end, leaving, *speed, shot.index, shot.form, shot.given);
        }
        out
    }

    /// A shot made ready to be pushed beside others; none where it is too unlike.
    fn ready(&self, shot: &Shot) -> Result<Option<(Track<f64>, Leaving, f64)>, LaunchError> {
        let Shot { bow, parts, built, index, form, given } = *shot;
        let values = [built.mass.mass().si(), form.speed.si()];
        let inside = self.ranges.iter().zip(values).all(|(range, value)| range.holds(value));
        if !inside || given.speed != self.given || timing(bow) != timing(&self.centre.bow) {
            return Ok(None);
        }
        checked(bow, parts, built, index)?;
        check::shot(form, given)?;
        let elastic = if *parts == self.centre.parts {
            self.elastic.of_alike(built)
        } else {
            self.elastic.near(parts, built)?
        };
        let mut place = [0.0; 2];
        for (place, &of) in place.iter_mut().zip(&self.moving) {
            *place = self.ranges[of].place(values[of]);
        }
        let mut weights = [0.0; TERMS];
        self.course.set.at(1.0, &place[..self.moving.len()], &mut weights);
        let speed = self.course.ends(&weights)[2];
        within(Setting::Speed, speed, check::SPEED)?;
        let stroke = power_stroke(bow.draw_length, bow.brace_height)?.si();
        let forcings = elastic.forcings(built, index.si());
        let track = Track::new(bow, &elastic, forcings, (index.si(), stroke), MODES)
            .along(&self.course, &weights);
        let like = unlike(&track).iter().zip(self.most).all(|(own, most)| *own <= UNLIKE * most);
        Ok(like.then(|| (track, Leaving::new(&elastic, speed), speed)))
    }
}

fn unlike(track: &Track<f64>) -> [f64; 3] {
    let fastest = track.spring.iter().copied().fold(0.0, f64::max);
    [fastest, track.ease, track.release[0].hypot(track.release[1])]
}

/// A bow without what does not change its motion.
fn timing(bow: &Bow) -> Bow {
    Bow {
        gravity: Acceleration::ZERO,
        release: Release::default(),
        path: NockPath::default(),
        rest: Rest {
            stiffness: Stiffness::ZERO,
            damping: Damping::ZERO,
            preload: Force::ZERO,
            ahead: Length::ZERO,
            riser_gap: Length::ZERO,
            drop: Length::ZERO,
            ..bow.rest
        },
        ..*bow
    }
}
