//! Shots of one build with nothing drawn: as it stands, bare, or changed.

use std::sync::atomic::{AtomicUsize, Ordering};

use arrow::VaneFault;
use launch::{Bow, SpeedSource, power_stroke};
use target::Impact;
use units::{Length, Speed};

use crate::group::nothing_drawn;
use crate::shoot::{Loosed, Motion, Tag, loose, meet};
use crate::sightin::launch_pitch;
use crate::take::Take;
use crate::{Doubt, Recipe, Setup, Slot, StudyError, Watch};

/// A value set apart from the scenario's own.
pub(crate) type Changed = Option<(Slot, f64)>;

/// One build, ready to shoot.
#[derive(Clone, Copy)]
pub(crate) struct Bench<'a> {
    pub(crate) name: &'a str,
    pub(crate) recipe: &'a dyn Recipe,
    pub(crate) distances: &'a [f64],
    pub(crate) watch: &'a dyn Watch,
    /// Flights flown so far.
    pub(crate) flown: &'a AtomicUsize,
}

/// An arrow that has left the string, and the aim it was shot with.
pub(crate) struct Shot {
    pub(crate) setup: Setup,
    pub(crate) loosed: Loosed,
    pub(crate) pitch: f64,
}

/// Left and up, at each distance; none where the arrow does not get there.
pub(crate) type Places = Vec<Option<[f64; 2]>>;

impl Bench<'_> {
    pub(crate) fn tag(&self) -> Tag<'_> {
        Tag { build: self.name, flight: None }
    }

    /// The doubts that are not drawn anyway.
    pub(crate) fn doubts(&self) -> Vec<Doubt> {
        let drawn = |slot| self.recipe.draws().iter().any(|draw| draw.slot == slot);
        self.recipe.doubts().iter().filter(|doubt| !drawn(doubt.slot)).cloned().collect()
    }

    /// The arrow with the scenario's fixed faults and form, the sight set for
    /// the same arrow without them.
    pub(crate) fn shot(&self, doubt: Changed, swept: Changed) -> Result<Shot, StudyError> {
        self.adjusted(doubt, swept, &|_| ())
    }

    /// As [`Bench::shot`], the setup adjusted before sight and shot.
    pub(crate) fn adjusted(
        &self,
        doubt: Changed,
        swept: Changed,
        adjust: &dyn Fn(&mut Setup),
    ) -> Result<Shot, StudyError> {
        if self.watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let of = |take: Take| -> Result<Setup, StudyError> {
            let mut setup = nothing_drawn(self.recipe, take, doubt, swept, self.tag())?;
            if swept.is_some() {
                let own = nothing_drawn(self.recipe, take, doubt, None, self.tag())?;
                self.carry(&own.bow, &mut setup.bow)?;
            }
            adjust(&mut setup);
            Ok(setup)
        };
        let nominal = of(Take::Nominal)?;
        let loosed = loose(&nominal, None, self.tag())?;
        let pitch = launch_pitch(&nominal, &loosed, Motion::Rigid, self.tag())?;
        self.aimed(of(Take::Fixed)?, pitch)
    }

    /// A setup shot with a given aim.
    pub(crate) fn aimed(&self, setup: Setup, pitch: f64) -> Result<Shot, StudyError> {
        let loosed = loose(&setup, None, self.tag())?;
        Ok(Shot { setup, loosed, pitch })
    }

    /// The same shot without vanes.
    pub(crate) fn bare(&self, shot: &Shot) -> Result<Shot, StudyError> {
        let mut setup = shot.setup.clone();
        setup.parts.vanes = None;
        setup.faults.vane = VaneFault::default();
        self.aimed(setup, shot.pitch)
    }

    /// The same shot without vanes but with their weight in their place.
    pub(crate) fn taped(&self, shot: &Shot) -> Result<Shot, StudyError> {
        let mut setup = shot.setup.clone();
        setup.parts.vanes = None;
        setup.faults.vane = VaneFault::default();
        let (given, mass) = (&mut setup.parts.given, &shot.loosed.built.mass);
        given.mass = Some(mass.mass());
        given.balance = Some(mass.balance());
        given.transverse = Some(mass.transverse());
        given.axial = Some(mass.axial());
        self.aimed(setup, shot.pitch)
    }

    /// Where the tip meets the plane at each distance.
    pub(crate) fn land(&self, shot: &Shot) -> Result<Places, StudyError> {
        let mut reached = self.distances.len();
        let mut places = vec![None; reached];
        while reached > 0 {
            self.flown.fetch_add(1, Ordering::Relaxed);
            let Shot { setup, loosed, pitch } = shot;
            let some = &self.distances[..reached];
            if let Ok(met) = meet(setup, loosed, *pitch, some, Motion::Rigid, self.tag())? {
                for (place, met) in places.iter_mut().zip(met) {
                    let Impact { left, up } = met.tip;
                    *place = Some([left, up]);
                }
                break;
            }
            reached -= 1;
        }
        Ok(places)
    }

    /// Impacts of one shot less those of another.
    pub(crate) fn apart(&self, from: &Shot, to: &Shot) -> Result<Places, StudyError> {
        Ok(less(&self.land(to)?, &self.land(from)?))
    }

    /// A speed read on a chronograph belongs to the scenario's own draw weight
    /// and stroke: another bow gets it by the energy these store, in proportion
    /// to their product, as a rating is carried over.
    fn carry(&self, own: &Bow, bow: &mut Bow) -> Result<(), StudyError> {
        let SpeedSource::Chronograph { speed, mass } = bow.speed else { return Ok(()) };
        let size = |bow: &Bow| {
            power_stroke(bow.draw_length, bow.brace_height)
                .map(|stroke: Length| bow.draw_weight.si() * stroke.si())
                .map_err(|source| StudyError::Launch { who: self.tag().who(), source })
        };
        let ratio = size(bow)? / size(own)?;
        let speed = Speed::from_si(speed.si() * ratio.sqrt());
        bow.speed = SpeedSource::Chronograph { speed, mass };
        Ok(())
    }
}

/// Places less others, where both are known.
pub(crate) fn less(to: &Places, from: &Places) -> Places {
    to.iter()
        .zip(from)
        .map(|(to, from)| {
            Some([to.as_ref()?[0] - from.as_ref()?[0], to.as_ref()?[1] - from.as_ref()?[1]])
        })
        .collect()
}

/// Amplitude of the first bending mode at the tip, left and up, m.
pub(crate) fn swing(shot: &Shot) -> [f64; 2] {
    let flex = &shot.loosed.departure.flex;
    std::array::from_fn(|plane| {
        let pace =
            if flex.frequency[0] > 0.0 { flex.rate[plane][0] / flex.frequency[0] } else { 0.0 };
        flex.amplitude[plane][0].hypot(pace) * flex.tip[0].abs()
    })
}
