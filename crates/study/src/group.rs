//! Many shots with one build: the same impacts on any number of threads.

use std::ops::Range;
use std::sync::Arc;

use flight::{Entry, Steps, fly_batch, pilot_steps};
use launch::Kit;
use rayon::prelude::*;
use target::Impact;
use units::{Angle, AngularRate};

use crate::draw::Stream;
use crate::shoot::{Loosed, Motion, Ready, Tag, kit, loose, marks, meet, ready, tip};
use crate::sightin::{Sighted, sight_in};
use crate::take::Take;
use crate::{Doubt, Draw, Per, Recipe, Setup, Slot, StudyError, Watch};

/// Flights flown by one thread in a row. Chosen: half a millisecond of work,
/// far above the cost of handing it out, and fine enough for a smooth progress
/// bar.
const CHUNK: usize = 64;

/// Chances in place of the streams': of a flight and of a drawn value, counted
/// as in [`Rig::draws`].
pub(crate) type Chances = Arc<dyn Fn(usize, usize) -> f64 + Send + Sync>;

/// What every group of a run shares.
#[derive(Clone, Copy)]
pub(crate) struct Ground<'a> {
    pub(crate) seed: u64,
    pub(crate) arrows: Option<usize>,
    pub(crate) distances: &'a [f64],
    pub(crate) watch: &'a dyn Watch,
}

/// A recipe with some values held, and the sight set for it.
pub(crate) struct Rig<'a> {
    pub(crate) name: &'a str,
    recipe: &'a dyn Recipe,
    /// A doubt's value; a draw of the same value wins over it.
    doubt: Option<(Slot, f64)>,
    /// A swept value; it wins over a draw.
    swept: Option<(Slot, f64)>,
    pub(crate) sighted: Sighted,
    kit: Option<Kit>,
    steps: Steps,
    /// Where the nominal arrow's point meets each plane, flown as a group is.
    centres: Vec<Impact>,
}

impl<'a> Rig<'a> {
    pub(crate) fn new(
        name: &'a str,
        recipe: &'a dyn Recipe,
        doubt: Option<(Slot, f64)>,
        swept: Option<(Slot, f64)>,
        distances: &[f64],
    ) -> Result<Self, StudyError> {
        let tag = Tag { build: name, flight: None };
        let setup = nothing_drawn(recipe, Take::Nominal, doubt, swept, tag)?;
        let sighted = sight_in(setup, distances, Motion::Rigid, tag)?;
        let kit = kit(&sighted.setup, &sighted.built, tag)?;
        let steps = steps(&sighted, distances, tag)?;
        let mut rig = Self { name, recipe, doubt, swept, sighted, kit, steps, centres: vec![] };
        rig.centres = rig.faultless(distances, tag)?;
        Ok(rig)
    }

    /// The same rig with a doubt held at some value.
    pub(crate) fn doubting(
        &self,
        doubt: (Slot, f64),
        distances: &[f64],
    ) -> Result<Self, StudyError> {
        Self::new(self.name, self.recipe, Some(doubt), self.swept, distances)
    }

    /// Steps of a flight of a group.
    pub(crate) fn steps(&self) -> u32 {
        self.steps.total()
    }

    /// Names the build.
    pub(crate) fn tag(&self) -> Tag<'a> {
        Tag { build: self.name, flight: None }
    }

    /// The doubts that still matter: not of a value that is swept or drawn.
    pub(crate) fn doubts(&self) -> impl Iterator<Item = &'a Doubt> {
        let (recipe, swept) = (self.recipe, self.swept.map(|(slot, _)| slot));
        let replaced = move |slot: Slot| {
            Some(slot) == swept || recipe.draws().iter().any(|draw| draw.slot == slot)
        };
        recipe.doubts().iter().filter(move |doubt| !replaced(doubt.slot))
    }

    /// The values drawn in a group: a swept value is not.
    pub(crate) fn draws(&self, take: Take) -> impl Iterator<Item = &'a Draw> {
        let swept = self.swept.map(|(slot, _)| slot);
        let at_work = move |draw: &&Draw| take.draws(draw) && Some(draw.slot) != swept;
        self.recipe.draws().iter().filter(at_work)
    }

    /// The setup with nothing drawn, as a group sees it.
    pub(crate) fn undrawn(&self, take: Take) -> Result<Setup, StudyError> {
        let tag = Tag { build: self.name, flight: None };
        let mut setup = nothing_drawn(self.recipe, Take::Fixed, self.doubt, self.swept, tag)?;
        take.clear(&mut setup);
        Ok(setup)
    }

    /// The values of one flight, and the setup they make.
    pub(crate) fn setup(&self, drawn: &mut Drawn, flight: usize) -> Result<Setup, StudyError> {
        let tag = Tag { build: self.name, flight: Some(flight) };
        drawn.fill(flight);
        let mut setup = self
            .recipe
            .setup(&drawn.changes)
            .map_err(|source| StudyError::Refused { who: tag.who(), source })?;
        drawn.take.clear(&mut setup);
        Ok(setup)
    }

    /// What a group draws, ready for any flight.
    pub(crate) fn drawn(&self, take: Take, ground: &Ground) -> Drawn {
        let mut changes = Vec::new();
        changes.extend(self.doubt);
        let mut moving = Vec::new();
        let at_work: Vec<Slot> = self.draws(take).map(|draw| draw.slot).collect();
        for draw in self.recipe.draws() {
            if at_work.contains(&draw.slot) {
                let stream = Stream::new(ground.seed, &draw.key);
                moving.push((changes.len(), stream, draw.clone()));
            }
            changes.push((draw.slot, draw.off));
        }
        changes.extend(self.swept);
        Drawn { take, changes, moving, arrows: ground.arrows, chances: None }
    }

    /// How many of so many flights differ: one, if nothing is drawn.
    pub(crate) fn distinct(&self, take: Take, flights: usize) -> usize {
        if self.draws(take).next().is_some() { flights } else { flights.min(1) }
    }

    /// Impacts of a range of flights at every distance, from the nominal
    /// arrow's impact: a list of flights for each distance. Where nothing is
    /// drawn, one flight stands for all.
    ///
    /// # Errors
    /// That of the first flight that fails.
    pub(crate) fn fly(
        &self,
        take: Take,
        flights: Range<usize>,
        ground: &Ground,
    ) -> Result<Vec<Vec<Impact>>, StudyError> {
        self.fly_drawn(self.drawn(take, ground), flights, ground)
    }

    /// The same by given chances.
    ///
    /// # Errors
    /// As [`Self::fly`].
    pub(crate) fn fly_by(
        &self,
        take: Take,
        chances: Chances,
        flights: Range<usize>,
        ground: &Ground,
    ) -> Result<Vec<Vec<Impact>>, StudyError> {
        let drawn = Drawn { chances: Some(chances), ..self.drawn(take, ground) };
        self.fly_drawn(drawn, flights, ground)
    }

    fn fly_drawn(
        &self,
        drawn: Drawn,
        flights: Range<usize>,
        ground: &Ground,
    ) -> Result<Vec<Vec<Impact>>, StudyError> {
        let places = ground.distances.len();
        if drawn.moving.is_empty() && !flights.is_empty() {
            let same = self.chunk(drawn, flights.start..flights.start + 1, ground)?;
            ground.watch.done(flights.len() as u64 - 1);
            return Ok(same.iter().map(|&impact| vec![impact; flights.len()]).collect());
        }
        let first = flights.start;
        let chunks: Vec<Result<Vec<Impact>, StudyError>> = (0..flights.len().div_ceil(CHUNK))
            .into_par_iter()
            .map(|chunk| {
                let from = first + chunk * CHUNK;
                let upto = (from + CHUNK).min(flights.end);
                self.chunk(drawn.clone(), from..upto, ground)
            })
            .collect();
        let mut columns = vec![Vec::with_capacity(flights.len()); places];
        for chunk in chunks {
            for row in chunk?.chunks_exact(places) {
                for (column, impact) in columns.iter_mut().zip(row) {
                    column.push(*impact);
                }
            }
        }
        Ok(columns)
    }

    fn chunk(
        &self,
        mut drawn: Drawn,
        flights: Range<usize>,
        ground: &Ground,
    ) -> Result<Vec<Impact>, StudyError> {
        if ground.watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let count = flights.len();
        let mut shots = Vec::with_capacity(count);
        for flight in flights {
            shots.push(self.shot(&mut drawn, flight, ground)?);
        }
        let entries: Vec<Entry> = shots.iter().map(Shot::entry).collect();
        let flown = fly_batch(&entries, &self.steps);
        let mut impacts = Vec::with_capacity(count * ground.distances.len());
        for (shot, states) in shots.iter().zip(flown) {
            let tips: Vec<Impact> = match states {
                Some(states) => states.iter().map(|state| tip(&shot.loosed, state)).collect(),
                // It falls short, or nearly: flown alone, it tells.
                None => self.alone(shot, ground.distances)?,
            };
            impacts.extend(tips.iter().zip(&self.centres).map(|(tip, centre)| Impact {
                left: tip.left - centre.left,
                up: tip.up - centre.up,
            }));
        }
        ground.watch.done(count as u64);
        Ok(impacts)
    }
}

/// One shot, ready to fly.
struct Shot {
    flight: usize,
    setup: Setup,
    loosed: Loosed,
    ready: Ready,
    marks: Vec<f64>,
}

impl Shot {
    fn entry(&self) -> Entry<'_> {
        Entry { model: &self.ready.model, start: &self.ready.start, marks: &self.marks }
    }
}

impl Rig<'_> {
    fn shot(&self, drawn: &mut Drawn, flight: usize, ground: &Ground) -> Result<Shot, StudyError> {
        let tag = Tag { build: self.name, flight: Some(flight) };
        let setup = self.setup(drawn, flight)?;
        let loosed = loose(&setup, self.kit.as_ref(), tag)?;
        self.aimed(flight, setup, loosed, ground.distances, tag)
    }

    fn aimed(
        &self,
        flight: usize,
        setup: Setup,
        loosed: Loosed,
        distances: &[f64],
        tag: Tag,
    ) -> Result<Shot, StudyError> {
        let marks = marks(&loosed, distances, tag)?;
        let ready = ready(&setup, &loosed, self.sighted.launch_pitch)
            .map_err(|source| StudyError::Flight { who: tag.who(), source })?;
        Ok(Shot { flight, setup, loosed, ready, marks })
    }

    /// Where the nominal arrow lands, flown as a group is.
    fn faultless(&self, distances: &[f64], tag: Tag) -> Result<Vec<Impact>, StudyError> {
        let setup = self.sighted.setup.clone();
        let loosed = loose(&setup, self.kit.as_ref(), tag)?;
        let shot = self.aimed(0, setup, loosed, distances, tag)?;
        match fly_batch(&[shot.entry()], &self.steps).pop().flatten() {
            Some(states) => Ok(states.iter().map(|state| tip(&shot.loosed, state)).collect()),
            None => self.alone(&shot, distances),
        }
    }

    fn alone(&self, shot: &Shot, distances: &[f64]) -> Result<Vec<Impact>, StudyError> {
        let tag = Tag { build: self.name, flight: Some(shot.flight) };
        let pitch = self.sighted.launch_pitch;
        let met = meet(&shot.setup, &shot.loosed, pitch, distances, Motion::Rigid, tag)?;
        Ok(met.map_err(|missed| missed.error(tag))?.into_iter().map(|met| met.tip).collect())
    }
}

/// Steps for flights of a sighted arrow: its pilot leaves untidily, turning at
/// 1 rad/s with its point canted by 0.3 degrees. Chosen: more than faults do.
fn steps(sighted: &Sighted, distances: &[f64], tag: Tag) -> Result<Steps, StudyError> {
    let mut setup = sighted.setup.clone();
    setup.faults.point_cant.angle = Angle::from_si(0.3_f64.to_radians());
    setup.departure.yaw_rate = Some(AngularRate::from_si(1.0));
    let loosed = loose(&setup, None, tag)?;
    let marks = marks(&loosed, distances, tag)?;
    let ready = ready(&setup, &loosed, sighted.launch_pitch)
        .map_err(|source| StudyError::Flight { who: tag.who(), source })?;
    Ok(pilot_steps(&Entry { model: &ready.model, start: &ready.start, marks: &marks }))
}

/// The changing values of a group.
#[derive(Clone)]
pub(crate) struct Drawn {
    take: Take,
    changes: Vec<(Slot, f64)>,
    /// Where in `changes` a drawn value sits, its chances and its draw.
    moving: Vec<(usize, Stream, Draw)>,
    arrows: Option<usize>,
    chances: Option<Chances>,
}

impl Drawn {
    fn fill(&mut self, flight: usize) {
        if let Some(chances) = &self.chances {
            for (value, (at, _, draw)) in self.moving.iter().enumerate() {
                self.changes[*at].1 = draw.law.at(chances(flight, value));
            }
            return;
        }
        let arrow = self.arrows.map_or(flight, |arrows| flight % arrows);
        for (at, stream, draw) in &mut self.moving {
            let index = match draw.per {
                Per::Arrow => arrow,
                Per::Shot => flight,
            };
            self.changes[*at].1 = stream.value(&draw.law, index as u64);
        }
    }
}

/// The setup with every drawn value at its `off`.
pub(crate) fn nothing_drawn(
    recipe: &dyn Recipe,
    take: Take,
    doubt: Option<(Slot, f64)>,
    swept: Option<(Slot, f64)>,
    tag: Tag,
) -> Result<Setup, StudyError> {
    let off = recipe.draws().iter().map(|draw| (draw.slot, draw.off));
    let changes: Vec<(Slot, f64)> = doubt.into_iter().chain(off).chain(swept).collect();
    let mut setup =
        recipe.setup(&changes).map_err(|source| StudyError::Refused { who: tag.who(), source })?;
    take.clear(&mut setup);
    Ok(setup)
}
