//! A push reduced to a linear map from faults to departure.

use arrow::{Built, Parts};
use units::Angle;

use crate::check::{self, within};
use crate::contact::{SOFT, contacts};
use crate::elastic::{Elastic, FLAWS, FaultForcing, MOTIONS};
use crate::frame::Frame;
use crate::push::{PushEnd, checked, depart, departure, nominal};
use crate::stroke::power_stroke;
use crate::sway::{STEPS, Track};
use crate::{Bow, Departure, Form, GivenDeparture, LaunchError, Setting};

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
pub struct LinearResponse {
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

impl LinearResponse {
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
        let run = |forcings: [FaultForcing; 2]| {
            let track = Track::new(&push, bow, &arrow, forcings, (index.si(), stroke));
            reach(&track)
        };
        let none = FaultForcing::unit(0, 0.0, middle);
        let base = run([none; 2])?;
        if !base.carried() {
            return Ok(None);
        }
        let mut map = Vec::with_capacity(2 * FLAWS);
        for plane in 0..2 {
            for number in 0..FLAWS {
                let mut forcings = [none; 2];
                forcings[plane] = FaultForcing::unit(number, PROBE, middle);
                map.push(run(forcings)?.less(&base));
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
        let forcings = self.arrow.forcings(built, self.index.si());
        let numbers = forcings.iter().flat_map(FaultForcing::numbers);
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
        departure(&PushEnd(reach.end), (&self.arrow, self.slowing), speed, self.index, form, given)
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
    Ok(Reach { end: PushEnd::of(&gone).0, depth })
}
