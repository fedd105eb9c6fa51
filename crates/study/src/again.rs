//! Arrows that are shot again and again: a dozen for all shots, or one without faults
//! from an archer who is never quite the same. Model card: docs/model/batch.md.

use launch::{ArrowAgain, Departure, Form, LaunchError, Range};
use units::Speed;

use crate::drawn_arrow::DrawnArrow;
use crate::pushes::{CLOSE, FAR, Pushes, TRIED};
use crate::shoot::ArrowName;
use crate::unpushed::Unpushed;
use crate::variant::Variant;
use crate::{Per, Setup, StudyError};

/// Arrows at most. Chosen: more are not shot often enough to be worth it.
const MOST_ARROWS: usize = 16;
/// Values at most that differ from shot to shot and move the push. Chosen: with three,
/// more pushes would be wanted than most groups have shots.
const MOST_VALUES: usize = 2;
/// Degrees in a row whose new pushes must come out as foreseen. Chosen: where contacts
/// open a single one may by chance.
const FORESEEN: usize = 2;
/// The degree to begin with. Chosen: most arrows need it, and their pushes then fill
/// the lanes.
const FIRST: usize = 6;

/// The arrows of a group, worked out beforehand: where no response serves them, they are
/// few, and little that moves the push is drawn for each shot.
pub(crate) fn again(
    variant: &Variant,
    pushes: &Pushes,
    drawn: &DrawnArrow,
) -> Result<Option<Again>, StudyError> {
    if !pushes.all_in_full() || drawn.chances.is_some() || drawn.moving.is_empty() {
        return Ok(None);
    }
    let (mut moved, mut several) = (Moved::default(), false);
    let (mut tried, tag) = (drawn.clone(), variant.tag());
    let middle = variant.made(drawn.take, &tried.changes, &tag)?;
    for (at, _, draw) in &drawn.moving {
        let slot = pushes.slots().iter().position(|slot| *slot == draw.slot);
        for chance in TRIED {
            let before = std::mem::replace(&mut tried.changes[*at].1, draw.law.at(chance));
            let other = variant.made(drawn.take, &tried.changes, &tag);
            tried.changes[*at].1 = before;
            let Ok(other) = other else { return Ok(None) };
            match draw.per {
                Per::Arrow => several |= !middle.is_pushed_as(&other),
                Per::Shot if moved.add((&middle, &other), slot, pushes).is_none() => {
                    return Ok(None);
                }
                Per::Shot => {}
            }
        }
    }
    let arrows = if several { drawn.arrows.unwrap_or(usize::MAX) } else { 1 };
    if arrows > MOST_ARROWS {
        return Ok(None);
    }
    let make = |arrow: usize, values: &[f64]| {
        let mut drawn = drawn.clone();
        drawn.fill(arrow);
        let (speed, slots) = moved.told(values);
        for (slot, value) in slots {
            let at = drawn.varying[slot];
            drawn.changes[at].1 = value;
        }
        let tag = ArrowName { flight: Some(arrow), ..variant.tag() };
        let mut setup = variant.made(drawn.take, &drawn.changes, &tag)?;
        let speed = speed.map_or(setup.form.speed, Speed::from_si);
        setup.form = Form { speed, ..Form::default() };
        let built = arrow::build(&setup.parts, &setup.faults)
            .map_err(|source| StudyError::Arrow { who: tag.who(), source })?;
        Ok(Unpushed { setup, built, values: drawn.values(), arrow })
    };
    Ok(Some(Again::new(moved.clone(), arrows, pushes, make)))
}

/// Values that differ from shot to shot of one arrow.
#[derive(Debug, Clone, Default)]
struct Moved {
    /// Range of form's speed error, m/s, where it differs.
    speed: Option<Range>,
    /// Which of the slots of the pushes, and their ranges.
    slots: Vec<(usize, Range)>,
}

impl Moved {
    /// Adds what a draw per shot moves between two setups; none where it moves what
    /// a push cannot be asked for in this way.
    fn add(
        &mut self,
        (one, other): (&Setup, &Setup),
        slot: Option<usize>,
        pushes: &Pushes,
    ) -> Option<()> {
        let unlike = one.faults != other.faults
            || one.index != other.index
            || one.departure != other.departure;
        if unlike {
            return None;
        }
        let ranges = pushes.ranges();
        if let Some(slot) = slot {
            if self.slots.iter().all(|(known, _)| *known != slot) {
                self.slots.push((slot, ranges[1 + slot]));
            }
        } else if one.form.speed != other.form.speed {
            self.speed = Some(ranges[0]);
        } else if one.bow != other.bow || one.parts != other.parts {
            return None;
        }
        let ranges = self.ranges();
        let differ = ranges.iter().all(|range| range.high > range.low);
        (differ && ranges.len() <= MOST_VALUES).then_some(())
    }

    fn ranges(&self) -> Vec<Range> {
        self.speed.into_iter().chain(self.slots.iter().map(|(_, range)| *range)).collect()
    }

    /// The values of a shot.
    fn values(&self, shot: &Unpushed) -> Vec<f64> {
        let speed = self.speed.map(|_| shot.setup.form.speed.si());
        speed.into_iter().chain(self.slots.iter().map(|(at, _)| shot.values[*at])).collect()
    }

    /// Values apart: of form's speed error, and of the slots.
    fn told(&self, values: &[f64]) -> (Option<f64>, Vec<(usize, f64)>) {
        let (speed, rest) = values.split_at(usize::from(self.speed.is_some()));
        let slots = self.slots.iter().zip(rest).map(|((at, _), value)| (*at, *value));
        (speed.first().copied(), slots.collect())
    }
}

/// Some arrows, each with what its pushes come to.
#[derive(Debug)]
pub(crate) struct Again {
    moved: Moved,
    /// By arrow; none where its pushes are not foreseen, or fail.
    arrows: Vec<Option<ArrowAgain>>,
}

impl Again {
    /// Pushes so many arrows at a few values each until the next pushes come out as
    /// foreseen: `make` gives an arrow at some values, with no aim and no slip of the
    /// release.
    fn new(
        moved: Moved,
        arrows: usize,
        pushes: &Pushes,
        make: impl Fn(usize, &[f64]) -> Result<Unpushed, StudyError>,
    ) -> Self {
        let ranges = moved.ranges();
        let mut trials: Vec<Trial> = (0..arrows).map(|_| Trial::default()).collect();
        let mut degree = if ranges.is_empty() { 0 } else { FIRST };
        while let Some(wanted) = ArrowAgain::wanted(&ranges, degree) {
            let open: Vec<usize> = (0..arrows).filter(|at| trials[*at].open()).collect();
            let (mut shots, mut whose) = (Vec::new(), Vec::new());
            for &arrow in &open {
                for values in &wanted[trials[arrow].pushed.len()..] {
                    match make(arrow, values) {
                        Ok(shot) => {
                            shots.push(shot);
                            whose.push(arrow);
                        }
                        Err(_) => trials[arrow].failed = true,
                    }
                }
            }
            if shots.is_empty() {
                break;
            }
            for (arrow, departure) in whose.into_iter().zip(&pushes.in_full(&shots)) {
                trials[arrow].take(departure);
            }
            for arrow in open {
                trials[arrow].raise(&ranges, degree);
            }
            if ranges.is_empty() {
                break;
            }
            degree += 1;
        }
        Self { moved, arrows: trials.into_iter().map(Trial::settled).collect() }
    }

    /// Departures of some shots; one that is not foreseen is pushed on its own.
    pub(crate) fn depart(
        &self,
        shots: &[Unpushed],
        pushes: &Pushes,
    ) -> Vec<Result<Departure, LaunchError>> {
        let foreseen: Vec<Option<Departure>> =
            shots.iter().map(|shot| self.foreseen(shot)).collect();
        let left = || shots.iter().zip(&foreseen).filter(|(_, foreseen)| foreseen.is_none());
        let left: Vec<&Unpushed> = left().map(|(shot, _)| shot).collect();
        let mut pushed = pushes.depart(&left).into_iter();
        let one = |foreseen: Option<Departure>| foreseen.map(Ok).or_else(|| pushed.next());
        foreseen.into_iter().filter_map(one).collect()
    }

    fn foreseen(&self, shot: &Unpushed) -> Option<Departure> {
        let arrow = self.arrows.get(shot.arrow % self.arrows.len().max(1))?.as_ref()?;
        let mut departure = arrow.depart(&self.moved.values(shot))?;
        departure.yaw += shot.setup.form.release_left.si();
        departure.pitch += shot.setup.form.release_up.si();
        Some(departure)
    }
}

/// An arrow on its way to a polynomial.
#[derive(Default)]
struct Trial {
    pushed: Vec<Departure>,
    found: Option<ArrowAgain>,
    settled: bool,
    failed: bool,
}

impl Trial {
    fn open(&self) -> bool {
        !self.settled && !self.failed
    }

    fn take(&mut self, departure: &Result<Departure, LaunchError>) {
        match departure {
            Ok(departure) => self.pushed.push(*departure),
            Err(_) => self.failed = true,
        }
    }

    /// Takes the newest pushes in, and looks whether those before foresaw them.
    fn raise(&mut self, ranges: &[Range], degree: usize) {
        if !self.open() {
            return;
        }
        self.found = ArrowAgain::through(ranges, degree, &self.pushed);
        self.settled = (degree.saturating_sub(FORESEEN)..degree)
            .all(|below| self.foresees(ranges, below).unwrap_or(false));
    }

    /// Whether the pushes up to a degree foresee those that the next one adds.
    fn foresees(&self, ranges: &[Range], degree: usize) -> Option<bool> {
        let wanted = ArrowAgain::wanted(ranges, degree + 1)?;
        let known = ArrowAgain::wanted(ranges, degree)?.len();
        let found = ArrowAgain::through(ranges, degree, self.pushed.get(..known)?)?;
        let mut next = wanted.iter().zip(&self.pushed).skip(known);
        Some(next.all(|(values, pushed)| {
            found.depart(values).is_some_and(|one| one.apart(pushed, FAR) < CLOSE)
        }))
    }

    fn settled(self) -> Option<ArrowAgain> {
        self.found.filter(|_| self.settled && !self.failed)
    }
}
