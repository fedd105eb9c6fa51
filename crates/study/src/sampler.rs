//! Many shots with one build: the same impacts on any number of threads.

use std::ops::Range;

use flight::{Entry, Steps, fly_batch};
use rayon::prelude::*;
use target::Impact;

use crate::again::{Again, again};
use crate::draw::RandomStream;
use crate::drawn_arrow::{Chances, DrawnArrow};
use crate::first::all_or_first;
use crate::landing::{Landing, steps};
use crate::pushes::Pushes;
use crate::sample::Sample;
use crate::shoot::{ArrowName, Motion, Shooter};
use crate::sightin::Sighted;
use crate::unpushed::Unpushed;
use crate::variant::Variant;
use crate::{Setup, Slot, StudyError, Watch};

/// Flights flown by one thread in a row. Chosen: a millisecond of work, far above
/// the cost of handing it out, and fine enough for a smooth progress bar; a dozen
/// arrows comes round ten times, and each is pushed once.
const CHUNK: usize = 128;

/// What every group of a run shares.
#[derive(Clone, Copy)]
pub(crate) struct RunSettings<'a> {
    pub(crate) seed: u64,
    pub(crate) arrows: Option<usize>,
    pub(crate) distances: &'a [f64],
    pub(crate) watch: &'a dyn Watch,
}

/// A build with some values held, its sight set, ready to fly groups.
pub(crate) struct BuildSampler<'a> {
    pub(crate) variant: Variant<'a>,
    pub(crate) sighted: Sighted,
    pub(crate) pushes: Pushes,
    steps: Steps,
    /// Where the nominal arrow's point meets each plane, flown as a group is.
    centres: Vec<Impact>,
}

impl<'a> BuildSampler<'a> {
    pub(crate) fn new(variant: Variant<'a>, distances: &[f64]) -> Result<Self, StudyError> {
        let sighted = variant.zeroed()?.sighted(distances)?;
        let pushes = Pushes::new(&variant)?;
        let steps = steps(&sighted, distances, variant.tag())?;
        let mut sampler = Self { variant, sighted, pushes, steps, centres: vec![] };
        sampler.centres = sampler.faultless(distances)?;
        Ok(sampler)
    }

    /// The same, its nominal arrow taken from another build whose own is set up
    /// alike: sight and steps then come out the same.
    pub(crate) fn beside(
        others: &[BuildSampler],
        variant: Variant<'a>,
        distances: &[f64],
    ) -> Result<Self, StudyError> {
        let setup = variant.undrawn(Sample::Nominal)?;
        match others.iter().find(|other| other.sighted.setup == setup) {
            Some(other) => Ok(Self {
                variant,
                sighted: other.sighted.clone(),
                pushes: Pushes::new(&variant)?,
                steps: other.steps,
                centres: other.centres.clone(),
            }),
            None => Self::new(variant, distances),
        }
    }

    /// Steps of a flight of a group.
    pub(crate) fn steps(&self) -> u32 {
        self.steps.total()
    }

    /// Names a flight.
    pub(crate) fn tag(&self, flight: usize) -> ArrowName<'a> {
        ArrowName { flight: Some(flight), ..self.variant.tag() }
    }

    /// The values of one flight, and the setup they make.
    pub(crate) fn setup(&self, drawn: &mut DrawnArrow, flight: usize) -> Result<Setup, StudyError> {
        drawn.fill(flight);
        self.variant.made(drawn.take, &drawn.changes, &self.tag(flight))
    }

    /// What a group draws, ready for any flight.
    pub(crate) fn drawn(&self, take: Sample, settings: &RunSettings) -> DrawnArrow {
        let mut changes = Vec::new();
        let mut moving = Vec::new();
        let at_work: Vec<Slot> = self.variant.draws(take).map(|draw| draw.slot).collect();
        for draw in self.variant.recipe.draws() {
            if at_work.contains(&draw.slot) {
                let stream = RandomStream::new(settings.seed, &draw.key);
                moving.push((changes.len(), stream, draw.clone()));
            }
            changes.push((draw.slot, draw.off));
        }
        changes.extend(self.variant.swept);
        let place = |slot: &Slot| changes.iter().rposition(|(of, _)| of == slot);
        let varying = self.pushes.slots().iter().filter_map(place).collect();
        DrawnArrow { take, varying, changes, moving, arrows: settings.arrows, chances: None }
    }

    /// How many of so many flights differ: one, if nothing is drawn.
    pub(crate) fn distinct(&self, take: Sample, flights: usize) -> usize {
        if self.variant.draws(take).next().is_some() { flights } else { flights.min(1) }
    }

    /// Impacts of a range of flights at every distance, from the nominal
    /// arrow's impact: a list of flights for each distance. Where nothing is
    /// drawn, one flight stands for all.
    ///
    /// # Errors
    /// That of the first flight that fails.
    pub(crate) fn fly(
        &self,
        take: Sample,
        flights: Range<usize>,
        settings: &RunSettings,
    ) -> Result<Vec<Vec<Impact>>, StudyError> {
        self.fly_drawn(self.drawn(take, settings), flights, settings)
    }

    /// The same by given chances.
    ///
    /// # Errors
    /// As [`Self::fly`].
    pub(crate) fn fly_by(
        &self,
        take: Sample,
        chances: Chances,
        flights: Range<usize>,
        settings: &RunSettings,
    ) -> Result<Vec<Vec<Impact>>, StudyError> {
        let drawn = DrawnArrow { chances: Some(chances), ..self.drawn(take, settings) };
        self.fly_drawn(drawn, flights, settings)
    }

    fn fly_drawn(
        &self,
        drawn: DrawnArrow,
        flights: Range<usize>,
        settings: &RunSettings,
    ) -> Result<Vec<Vec<Impact>>, StudyError> {
        let places = settings.distances.len();
        let again = again(&self.variant, &self.pushes, &drawn)?;
        if drawn.moving.is_empty() && !flights.is_empty() {
            let first = flights.start..flights.start + 1;
            let same = self.chunk(drawn, again.as_ref(), first, settings)?;
            settings.watch.done(flights.len() as u64 - 1);
            return Ok(same.iter().map(|&impact| vec![impact; flights.len()]).collect());
        }
        // Each chunk writes its own part of every list, so that no impact is kept twice.
        let mut columns = vec![vec![Impact::default(); flights.len()]; places];
        let chunks = flights.len().div_ceil(CHUNK);
        let mut parts: Vec<Vec<&mut [Impact]>> = (0..chunks).map(|_| Vec::new()).collect();
        for column in &mut columns {
            for (part, own) in parts.iter_mut().zip(column.chunks_mut(CHUNK)) {
                part.push(own);
            }
        }
        let first = flights.start;
        all_or_first(parts.into_par_iter().enumerate().map(|(chunk, mut part)| {
            let from = first + chunk * CHUNK;
            let upto = (from + CHUNK).min(flights.end);
            let flown = self.chunk(drawn.clone(), again.as_ref(), from..upto, settings)?;
            for (flight, row) in flown.chunks_exact(places).enumerate() {
                for (column, impact) in part.iter_mut().zip(row) {
                    column[flight] = *impact;
                }
            }
            Ok(())
        }))?;
        Ok(columns)
    }

    fn chunk(
        &self,
        mut drawn: DrawnArrow,
        again: Option<&Again>,
        flights: Range<usize>,
        settings: &RunSettings,
    ) -> Result<Vec<Impact>, StudyError> {
        if settings.watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let count = flights.len();
        let mut unpushed = Vec::with_capacity(count);
        // An arrow that cannot be made is told after those before it are pushed.
        let mut failed = Ok(());
        for flight in flights.clone() {
            match self.unpushed(&mut drawn, flight) {
                Ok(shot) => unpushed.push(shot),
                Err(error) => {
                    failed = Err(error);
                    break;
                }
            }
        }
        let shots = self.pushed(unpushed, again, flights, settings.distances)?;
        failed?;
        let entries: Vec<Entry> = shots.iter().map(Landing::entry).collect();
        let flown = fly_batch(&entries, self.steps);
        let mut impacts = Vec::with_capacity(count * settings.distances.len());
        for (shot, states) in shots.iter().zip(flown) {
            let tips = shot.tips(states, settings.distances)?;
            impacts.extend(tips.iter().zip(&self.centres).map(|(tip, centre)| Impact {
                left: tip.left - centre.left,
                up: tip.up - centre.up,
            }));
        }
        settings.watch.done(count as u64);
        Ok(impacts)
    }
}

impl<'a> BuildSampler<'a> {
    /// The arrow of one flight, not pushed yet.
    fn unpushed(&self, drawn: &mut DrawnArrow, flight: usize) -> Result<Unpushed, StudyError> {
        let setup = self.setup(drawn, flight)?;
        let built = arrow::build(&setup.parts, &setup.faults)
            .map_err(|source| StudyError::Arrow { who: self.tag(flight).who(), source })?;
        Ok(Unpushed { setup, built, values: drawn.values(), arrow: drawn.arrow(flight) })
    }

    /// Shots pushed, with the aim of the nominal arrow.
    fn pushed(
        &self,
        shots: Vec<Unpushed>,
        again: Option<&Again>,
        flights: Range<usize>,
        at: &[f64],
    ) -> Result<Vec<Landing<'a>>, StudyError> {
        let departures = match again {
            Some(again) => again.depart(&shots, &self.pushes),
            None => self.pushes.depart(&shots.iter().collect::<Vec<_>>()),
        };
        let mut pushed = Vec::with_capacity(shots.len());
        for ((shot, departure), flight) in shots.into_iter().zip(departures).zip(flights) {
            let tag = self.tag(flight);
            let departure =
                departure.map_err(|source| StudyError::Launch { who: tag.who(), source })?;
            let Unpushed { setup, built, .. } = shot;
            let pitch = self.sighted.launch_pitch;
            let shooter = Shooter { tag, setup, built, departure, pitch, motion: Motion::Rigid };
            pushed.push(Landing::new(shooter, at)?);
        }
        Ok(pushed)
    }

    /// Where the nominal arrow lands, flown as a group is.
    fn faultless(&self, distances: &[f64]) -> Result<Vec<Impact>, StudyError> {
        let Sighted { setup, built, .. } = &self.sighted;
        let values = self.off();
        let (setup, built) = (setup.clone(), built.clone());
        let nominal = Unpushed { setup, built, values, arrow: 0 };
        let mut shot = match self.pushed(vec![nominal], None, 0..1, distances) {
            Ok(mut shots) if shots.len() == 1 => shots.remove(0),
            Ok(_) => unreachable!("one shot in, one out"),
            Err(error) => return Err(error),
        };
        let states = fly_batch(&[shot.entry()], self.steps).pop().flatten();
        shot.shooter.tag = self.tag(0);
        shot.tips(states, distances)
    }

    /// Values that the push depends on, with nothing drawn.
    fn off(&self) -> Vec<f64> {
        let changes = self.variant.changes();
        let value = |slot: &Slot| changes.iter().rfind(|(of, _)| of == slot);
        self.pushes.slots().iter().filter_map(value).map(|change| change.1).collect()
    }
}
