//! How the shots of a build are pushed: by a linear response where one serves, else
//! many side by side. Model card: docs/model/batch.md.

use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use arrow::{Faults, Parts};
use launch::{Bow, BowAndArrow, Departure, LaunchError, LinearResponse, PushBatch, Range, Shot};
use units::Angle;

use crate::draw::RandomStream;
use crate::sample::Sample;
use crate::unpushed::Unpushed;
use crate::variant::Variant;
use crate::{Distribution, DrawnParameter, Setup, Slot, StudyError};

/// Arrows that a response is held against, each pushed in full.
const HELD_OUT: usize = 64;
/// Names their chances; they are the same whatever the seed of the scenario.
const HELD_OUT_SEED: u64 = 64;
/// How far a response may be off at [`FAR`] for any of them, m, by the fletching that
/// makes most of it. Chosen: impacts are then within 0.05 mm (tested).
pub(crate) const CLOSE: f64 = 1e-4;
/// 100 yd, m.
pub(crate) const FAR: f64 = 91.44;
/// Standard deviations in which a drawn value is expected. Chosen: one shot in
/// 16,000 lies beyond, and is pushed on its own.
const REACH: f64 = 4.0;
/// Chances at which a value is tried for what it touches. Chosen: neither is a value
/// that no scenario allows.
pub(crate) const TRIED: [f64; 2] = [0.3, 0.7];
/// Kinds of shots whose push is kept. Chosen: more than a question has; each takes
/// a tenth of a megabyte.
const KEPT: usize = 48;

/// How the shots of a build are pushed.
#[derive(Debug, Clone)]
pub(crate) struct Pushes {
    known: Arc<Known>,
}

/// What is known of a kind of shots.
#[derive(Debug)]
struct Known {
    key: Key,
    response: Option<LinearResponse>,
    /// Made when the first shot asks for it where a response serves most.
    batch: OnceLock<Option<PushBatch>>,
}

impl Known {
    fn new(key: Key, response: Option<LinearResponse>, batch: Option<PushBatch>) -> Self {
        Self { key, response, batch: OnceLock::from(batch) }
    }

    /// With a response that knows of nothing but form's speed error.
    fn of_one_arrow(key: Key, response: LinearResponse) -> Self {
        Self { key, response: Some(response), batch: OnceLock::new() }
    }

    /// For shots that no response serves. Whether there is one does not depend on which
    /// shots asked.
    fn batch(&self) -> Option<&PushBatch> {
        let of_one_arrow = || {
            let response = self.response.as_ref()?;
            let mass = Range::only(response.centre().built.mass.mass().si());
            let speed = *response.ranges().first()?;
            PushBatch::new(response.centre().clone(), [mass, speed], self.key.speed).ok()
        };
        self.batch.get_or_init(of_one_arrow).as_ref()
    }
}

/// What the push of a kind of shots depends on.
#[derive(Debug, Clone, PartialEq)]
struct Key {
    slots: Vec<Slot>,
    speed: Option<units::Speed>,
    /// Of form's speed error, m/s, and of each value.
    ranges: Vec<Range>,
    /// Bow, parts and index at the centre and with each value at both ends.
    ends: Vec<(Bow, Parts, Angle)>,
}

/// Kinds of shots met lately. What is kept is what would come out again, so it
/// does not show in any answer.
static MET: Mutex<Vec<Arc<Known>>> = Mutex::new(Vec::new());

impl Pushes {
    /// Finds out how the shots of a build are pushed best.
    ///
    /// # Errors
    /// [`StudyError`] where its middle arrow cannot be pushed.
    pub(crate) fn new(variant: &Variant) -> Result<Self, StudyError> {
        let kind = Kind::new(*variant)?;
        let key = kind.key();
        let known = {
            let met = MET.lock().unwrap_or_else(PoisonError::into_inner);
            met.iter().find(|known| known.key == key).cloned()
        };
        let known = match known {
            Some(known) => known,
            None => kept(kind.known(key)),
        };
        Ok(Self { known })
    }

    /// Drawn values that change bow or parts.
    pub(crate) fn slots(&self) -> &[Slot] {
        &self.known.key.slots
    }

    /// Ranges of form's speed error, m/s, and of the values of the slots.
    pub(crate) fn ranges(&self) -> &[Range] {
        &self.known.key.ranges
    }

    /// Whether no linear response serves any of the shots.
    pub(crate) fn all_in_full(&self) -> bool {
        self.known.response.is_none()
    }

    /// Departures of some shots, each as it would be alone.
    pub(crate) fn depart(&self, shots: &[&Unpushed]) -> Vec<Result<Departure, LaunchError>> {
        let mut out = Vec::with_capacity(shots.len());
        // Shots that no response serves: where they stand, and which push is theirs.
        let (mut left, mut pushes): (Vec<(usize, usize)>, Vec<&Unpushed>) = Default::default();
        for (place, shot) in shots.iter().enumerate() {
            let Setup { form, departure: given, index, .. } = &shot.setup;
            let response = self.known.response.as_ref();
            let response = response.filter(|r| r.fits(*index, form, given, &shot.values));
            let mapped = response.map_or(Ok(None), |response| {
                response.depart(&shot.built, *index, form, given, &shot.values)
            });
            out.push(match mapped {
                Ok(Some(departure)) => Ok(departure),
                Err(error) => Err(error),
                Ok(None) => {
                    // An arrow shot again alike is pushed once.
                    let known = pushes.iter().position(|other| other.is_pushed_as(shot));
                    left.push((place, known.unwrap_or(pushes.len())));
                    if known.is_none() {
                        pushes.push(*shot);
                    }
                    Ok(Departure::default())
                }
            });
        }
        let departures = self.pushed(&pushes.iter().map(|shot| shot.shot()).collect::<Vec<_>>());
        for (place, push) in left {
            out[place].clone_from(&departures[push]);
        }
        out
    }

    /// Departures of some shots, each pushed in full.
    pub(crate) fn in_full(&self, shots: &[Unpushed]) -> Vec<Result<Departure, LaunchError>> {
        self.pushed(&shots.iter().map(Unpushed::shot).collect::<Vec<_>>())
    }

    fn pushed(&self, shots: &[Shot]) -> Vec<Result<Departure, LaunchError>> {
        match self.known.batch() {
            Some(batch) => batch.depart(shots),
            None => shots.iter().map(Shot::depart).collect(),
        }
    }
}

/// Keeps what is known of a kind of shots, in place of the oldest.
fn kept(known: Known) -> Arc<Known> {
    let known = Arc::new(known);
    let mut met = MET.lock().unwrap_or_else(PoisonError::into_inner);
    if met.len() >= KEPT {
        met.remove(0);
    }
    met.push(Arc::clone(&known));
    known
}

/// A kind of shots.
struct Kind<'a> {
    variant: Variant<'a>,
    /// Values that are not drawn here but differ from the recipe's own.
    before: Vec<(Slot, f64)>,
    /// Drawn values that change bow or parts, and their ranges.
    slots: Vec<(Slot, Range)>,
    centre: Setup,
    /// Form's speed error, m/s.
    speed: Range,
}

impl<'a> Kind<'a> {
    fn new(variant: Variant<'a>) -> Result<Self, StudyError> {
        let before = variant.changes();
        let centre = variant.made(Sample::Full, &before, &variant.tag())?;
        let mut kind = Self { variant, before, slots: Vec::new(), speed: Range::only(0.0), centre };
        let draws: Vec<&DrawnParameter> = variant.draws(Sample::Full).collect();
        for draw in draws {
            let tried = TRIED.map(|chance| kind.setup(&[(draw.slot, draw.law.at(chance))]));
            let range = expected(draw);
            for tried in tried.into_iter().flatten() {
                if tried.bow != kind.centre.bow || tried.parts != kind.centre.parts {
                    if !kind.slots.iter().any(|(slot, _)| *slot == draw.slot) {
                        kind.slots.push((draw.slot, range));
                    }
                } else if tried.form.speed != kind.centre.form.speed {
                    for end in [range.low, range.high] {
                        if let Some(setup) = kind.setup(&[(draw.slot, end)]) {
                            kind.widen(setup.form.speed.si());
                        }
                    }
                }
            }
        }
        kind.widen(kind.centre.form.speed.si());
        Ok(kind)
    }

    fn widen(&mut self, speed: f64) {
        self.speed.low = self.speed.low.min(speed);
        self.speed.high = self.speed.high.max(speed);
    }

    /// The setup with some values changed; none where the scenario refuses them.
    fn setup(&self, changes: &[(Slot, f64)]) -> Option<Setup> {
        let mut all = self.before.clone();
        for change in changes {
            let drawn = all.iter_mut().rev().find(|(slot, _)| *slot == change.0);
            drawn.map(|drawn| drawn.1 = change.1)?;
        }
        self.variant.recipe.setup(&all).ok()
    }

    /// The same with the slots at these values.
    fn at(&self, values: &[f64]) -> Option<Setup> {
        let changes: Vec<(Slot, f64)> =
            self.slots.iter().zip(values).map(|((slot, _), value)| (*slot, *value)).collect();
        self.setup(&changes)
    }

    /// Bow and arrow, without its faults.
    fn pair(setup: &Setup) -> Option<BowAndArrow> {
        let built = arrow::build(&setup.parts, &Faults::default()).ok()?;
        let Setup { bow, parts, index, .. } = setup;
        Some(BowAndArrow { bow: *bow, parts: *parts, built, index: *index })
    }

    fn key(&self) -> Key {
        let middle: Vec<f64> = self.slots.iter().map(|(_, range)| range.middle()).collect();
        // Only a stiff side knows how an arrow is rolled.
        let end = |setup: &Setup| {
            let sided = setup.parts.shaft.stiff_side.si() != 0.0;
            (setup.bow, setup.parts, if sided { setup.index } else { Angle::ZERO })
        };
        let mut ends = vec![end(&self.centre)];
        for (index, (_, range)) in self.slots.iter().enumerate() {
            for value in [range.low, range.high] {
                let mut values = middle.clone();
                values[index] = value;
                ends.extend(self.at(&values).as_ref().map(end));
            }
        }
        Key {
            slots: self.slots.iter().map(|(slot, _)| *slot).collect(),
            speed: self.centre.departure.speed,
            ranges: std::iter::once(self.speed)
                .chain(self.slots.iter().map(|(_, range)| *range))
                .collect(),
            ends,
        }
    }

    /// Measures it. What fails here fails again, with its name, where a shot is
    /// pushed on its own.
    fn known(&self, key: Key) -> Known {
        let middle: Vec<f64> = self.slots.iter().map(|(_, range)| range.middle()).collect();
        let Some(centre) = self.at(&middle).as_ref().and_then(Self::pair) else {
            return Known::new(key, None, None);
        };
        let given = self.centre.departure;
        if self.slots.is_empty() {
            let response = LinearResponse::new(centre.clone(), self.speed, &given).ok().flatten();
            return match response {
                Some(response) => Known::of_one_arrow(key, response),
                None => Known::new(key, None, self.batch(centre)),
            };
        }
        let batch = self.batch(centre.clone());
        let response = LinearResponse::start(centre, key.ranges.clone(), &given).ok().flatten();
        let response = match (response, &batch) {
            (Some(response), Some(batch)) => self.fitted(response, batch, &self.held_out()),
            _ => None,
        };
        Known::new(key, response, batch)
    }

    /// A batch for arrows as heavy and fast as these may be.
    fn batch(&self, centre: BowAndArrow) -> Option<PushBatch> {
        let mass = centre.built.mass.mass().si();
        let mut reach = 0.0;
        for (index, (_, range)) in self.slots.iter().enumerate() {
            let mut values: Vec<f64> = self.slots.iter().map(|(_, range)| range.middle()).collect();
            let of = |setup: Setup| Some(arrow::build(&setup.parts, &Faults::default()).ok()?.mass);
            let mut most: f64 = 0.0;
            for end in [range.low, range.high] {
                values[index] = end;
                if let Some(other) = self.at(&values).and_then(of) {
                    most = most.max((other.mass().si() - mass).abs());
                }
            }
            reach += most;
        }
        // A little more, for values that work together.
        let reach = 1.05 * reach;
        let mass = Range { low: mass - reach, high: mass + reach };
        let given = self.centre.departure.speed;
        PushBatch::new(centre, [mass, self.speed], given).ok()
    }

    /// A response that is close to the full push of every arrow held out, of the
    /// lowest degree; none where none is.
    fn fitted(
        &self,
        mut response: LinearResponse,
        batch: &PushBatch,
        held: &[Unpushed],
    ) -> Option<LinearResponse> {
        let shots: Vec<Shot> = held.iter().map(Unpushed::shot).collect();
        let pushed = batch.depart(&shots);
        let make = |values: &[f64]| self.at(values).as_ref().and_then(Self::pair);
        loop {
            if !response.raise(&make).ok()? {
                return None;
            }
            let off = held.iter().zip(&pushed).map(|(shot, pushed)| {
                let Setup { form, departure: given, index, .. } = &shot.setup;
                let Ok(pushed) = pushed else { return Some(0.0) };
                if !response.fits(*index, form, given, &shot.values) {
                    return Some(0.0);
                }
                let mapped = response.depart(&shot.built, *index, form, given, &shot.values);
                // One that lifts off is pushed in full.
                let Some(mapped) = mapped.ok()? else { return Some(0.0) };
                Some(mapped.apart(pushed, FAR))
            });
            let off: Option<Vec<f64>> = off.collect();
            if off?.iter().all(|off| *off < CLOSE) {
                return Some(response);
            }
        }
    }

    /// Arrows with everything drawn.
    fn held_out(&self) -> Vec<Unpushed> {
        let mut streams: Vec<(&DrawnParameter, RandomStream)> = self
            .variant
            .draws(Sample::Full)
            .map(|draw| (draw, RandomStream::new(HELD_OUT_SEED, &draw.key)))
            .collect();
        let mut held = Vec::with_capacity(HELD_OUT);
        for index in 0..HELD_OUT {
            let changes: Vec<(Slot, f64)> = streams
                .iter_mut()
                .map(|(draw, stream)| (draw.slot, stream.value(&draw.law, index as u64)))
                .collect();
            let Some(setup) = self.setup(&changes) else { continue };
            let Ok(built) = arrow::build(&setup.parts, &setup.faults) else { continue };
            let value = |slot: &Slot| changes.iter().find(|(of, _)| of == slot);
            let values =
                self.slots.iter().filter_map(|(slot, _)| value(slot)).map(|c| c.1).collect();
            held.push(Unpushed { setup, built, values, arrow: index });
        }
        held
    }
}

/// Where the values of a draw are expected: within so many standard deviations, and
/// at the value when it is switched off. Sorting narrows a law and leaves this as it
/// is, so that the push is measured once.
fn expected(draw: &DrawnParameter) -> Range {
    let (low, high) = match draw.law {
        Distribution::Normal { mean, sd } | Distribution::NormalWithin { mean, sd, .. } => {
            (mean - REACH * sd, mean + REACH * sd)
        }
        Distribution::Uniform { low, high } => (low, high),
        Distribution::RayleighUpTo { scale, .. } | Distribution::Rayleigh { scale } => {
            (0.0, REACH * scale)
        }
    };
    Range { low: low.min(draw.off), high: high.max(draw.off) }
}
