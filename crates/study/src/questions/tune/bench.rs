//! Shots of one build with nothing drawn: as it stands, bare, or changed.

use std::sync::atomic::{AtomicUsize, Ordering};

use arrow::VaneFault;
use launch::{Bow, SpeedSource, power_stroke};
use target::Impact;
use units::{Length, Speed};

use crate::sample::Sample;
use crate::shoot::{ArrowName, Shooter};
use crate::variant::{Changed, Variant};
use crate::{Setup, StudyError, UncertainParameter, Watch};

/// One build, ready to shoot.
#[derive(Clone, Copy)]
pub(crate) struct UndrawnShots<'a> {
    pub(crate) variant: Variant<'a>,
    pub(crate) distances: &'a [f64],
    pub(crate) watch: &'a dyn Watch,
    /// Flights flown so far.
    pub(crate) flown: &'a AtomicUsize,
}

/// Left and up, at each distance; none where the arrow does not get there.
pub(crate) type Places = Vec<Option<[f64; 2]>>;

impl<'a> UndrawnShots<'a> {
    pub(crate) fn tag(&self) -> ArrowName<'a> {
        self.variant.tag()
    }

    /// The doubts that are not drawn anyway.
    pub(crate) fn uncertain(&self) -> Vec<UncertainParameter> {
        self.variant.uncertain().cloned().collect()
    }

    /// The arrow with the scenario's fixed faults and form, the sight set for
    /// the same arrow without them.
    pub(crate) fn shot(&self, swept: Changed) -> Result<Shooter<'a>, StudyError> {
        self.adjusted(swept, &|_| ())
    }

    /// As [`UndrawnShots::shot`], the setup adjusted before sight and shot.
    pub(crate) fn adjusted(
        &self,
        swept: Changed,
        adjust: &dyn Fn(&mut Setup),
    ) -> Result<Shooter<'a>, StudyError> {
        if self.watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let of = |take: Sample| -> Result<Setup, StudyError> {
            let mut setup = self.variant.sweeping(swept).undrawn(take)?;
            if swept.is_some() {
                self.carry(&self.variant.undrawn(take)?.bow, &mut setup.bow)?;
            }
            adjust(&mut setup);
            Ok(setup)
        };
        let pitch = Shooter::new(self.tag(), of(Sample::Nominal)?)?.zeroed()?.pitch;
        self.aimed(of(Sample::Fixed)?, pitch)
    }

    /// A setup shot with a given aim.
    pub(crate) fn aimed(&self, setup: Setup, pitch: f64) -> Result<Shooter<'a>, StudyError> {
        Ok(Shooter::new(self.tag(), setup)?.aimed(pitch))
    }

    /// The same shot without vanes.
    pub(crate) fn bare(&self, shot: &Shooter) -> Result<Shooter<'a>, StudyError> {
        let mut setup = shot.setup.clone();
        setup.parts.vanes = None;
        setup.faults.vane = VaneFault::default();
        self.aimed(setup, shot.pitch)
    }

    /// The same shot without vanes but with their weight in their place.
    pub(crate) fn taped(&self, shot: &Shooter) -> Result<Shooter<'a>, StudyError> {
        let mut setup = shot.setup.clone();
        setup.parts.vanes = None;
        setup.faults.vane = VaneFault::default();
        let (given, mass) = (&mut setup.parts.given, &shot.built.mass);
        given.mass = Some(mass.mass());
        given.balance = Some(mass.balance());
        given.transverse = Some(mass.transverse());
        given.axial = Some(mass.axial());
        self.aimed(setup, shot.pitch)
    }

    /// Where the tip meets the plane at each distance.
    pub(crate) fn impacts_at(&self, shot: &Shooter) -> Result<Places, StudyError> {
        let mut reached = self.distances.len();
        let mut places = vec![None; reached];
        while reached > 0 {
            self.flown.fetch_add(1, Ordering::Relaxed);
            if let Ok(met) = shot.meet(&self.distances[..reached])? {
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
    pub(crate) fn apart(&self, from: &Shooter, to: &Shooter) -> Result<Places, StudyError> {
        Ok(less(&self.impacts_at(to)?, &self.impacts_at(from)?))
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

/// Whether a bare shaft lands to the left: all or nothing at one set of values.
pub(crate) fn side(left: f64) -> Option<f64> {
    (left != 0.0).then(|| f64::from(u8::from(left > 0.0)))
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
pub(crate) fn swing(shot: &Shooter) -> [f64; 2] {
    let flex = &shot.departure.flex;
    std::array::from_fn(|plane| {
        let pace =
            if flex.frequency[0] > 0.0 { flex.rate[plane][0] / flex.frequency[0] } else { 0.0 };
        flex.amplitude[plane][0].hypot(pace) * flex.tip[0].abs()
    })
}
