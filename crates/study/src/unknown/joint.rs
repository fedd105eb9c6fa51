//! The whole answer at every outer point.

use rayon::prelude::*;

use super::AtPoint;
use super::outer::{Drawn, DrawnPoint, OuterSample};
use super::spread::{Band, Narrowing, Standing, narrowings};
use crate::first::all_or_first;
use crate::{Banded, Recipe, Slot, StudyError, Told, UncertainParameter, Watch};

/// An answer with every poorly known value drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct OuterPoint<T> {
    /// Chance of each input.
    pub chances: Vec<f64>,
    /// Its weight among the points; all weigh one where nothing was measured.
    pub weight: f64,
    /// Its weight before anything was measured.
    pub before: f64,
    /// The answer there.
    pub answer: T,
}

/// An answer at every outer point.
#[derive(Debug, Clone, PartialEq)]
pub struct Joint<T> {
    /// Every poorly known value that was drawn.
    pub inputs: Vec<UncertainParameter>,
    /// Those of them that are a choice between models.
    pub choices: Vec<Slot>,
    /// Pairs of them that are not independent, by their places, with the
    /// correlation of their normal scores.
    pub pairs: Vec<([usize; 2], f64)>,
    /// The answer at the values it is computed with, their own or those that go best
    /// with what was measured, with as few flights as at the points.
    pub centre: T,
    /// The answer at each outer point that gives one.
    pub points: Vec<OuterPoint<T>>,
    /// Outer points that give no shot: they are left out of every band.
    pub without: usize,
    /// Why the first of them gives none.
    pub why: Option<StudyError>,
    /// What was measured, and what it says; none where nothing was.
    pub told: Option<Told>,
}

/// One outer point, before anything is computed at it.
pub(crate) struct Point<'a> {
    pub(crate) sample: &'a OuterSample,
    /// Chances of the inputs, each independent of the others.
    pub(crate) chances: &'a [f64],
    /// Its number among the points, and how many before it count; none for one that is
    /// not among them.
    pub(crate) number: Option<(usize, usize)>,
}

impl Point<'_> {
    /// The values that a recipe takes here.
    pub(crate) fn values(&self, recipe: &dyn Recipe) -> Vec<(Slot, f64)> {
        let chances = self.sample.together(self.chances.to_vec());
        let value = |of: &UncertainParameter| {
            let place = self.sample.place(of.slot)?;
            Some((of.slot, self.sample.value(of, chances[place])))
        };
        recipe.uncertain().iter().filter_map(value).collect()
    }

    /// Whether it is the centre or one of the first so many points that count.
    pub(crate) fn is_first(&self, count: usize) -> bool {
        self.number.is_none_or(|(_, before)| before < count)
    }

    /// A recipe as it is here.
    pub(crate) fn of<'a>(&self, recipe: &'a dyn Recipe) -> AtPoint<&'a dyn Recipe> {
        AtPoint::new(recipe, self.values(recipe))
    }
}

/// The answer at every outer point, on all cores; none where nothing is poorly
/// known, or no point is asked for.
///
/// A point that gives no shot is counted and left out; it never ends the run.
pub(crate) fn joint<T: Send>(
    sample: &OuterSample,
    drawn: &Drawn,
    watch: &dyn Watch,
    answer: &(dyn Fn(&Point) -> Result<T, StudyError> + Sync),
) -> Result<Option<Joint<T>>, StudyError> {
    if sample.inputs.is_empty() || drawn.points.is_empty() {
        return Ok(None);
    }
    let centre = answer(&Point { sample, chances: &drawn.centre, number: None })?;
    let one = |(number, of): (usize, &DrawnPoint)| {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let before = drawn.points[..number].iter().filter(|point| point.weight > 0.0).count();
        let number = Some((number, before));
        let found = answer(&Point { sample, chances: &of.chances, number });
        let DrawnPoint { chances, weight, before } = of.clone();
        let chances = sample.together(chances);
        match found {
            Err(StudyError::Cancelled) => Err(StudyError::Cancelled),
            Err(why) => Ok(Err(why)),
            Ok(answer) => Ok(Ok(OuterPoint { chances, weight, before, answer })),
        }
    };
    let (mut good, mut without, mut why) = (Vec::new(), 0, None);
    for found in all_or_first(drawn.points.par_iter().enumerate().map(one))? {
        match found {
            Ok(point) => good.push(point),
            Err(error) => {
                without += 1;
                why.get_or_insert(error);
            }
        }
    }
    let OuterSample { inputs, choices, pairs, .. } = sample.clone();
    Ok(Some(Joint { inputs, choices, pairs, centre, points: good, without, why, told: None }))
}

/// A number of many flights, carried to a point by its change in few flights
/// with the same chances: in proportion where all numbers are above zero, else
/// by the difference.
fn carried(value: f64, centre: f64, at: f64, scale: bool) -> f64 {
    if value.to_bits() == centre.to_bits() {
        at
    } else if scale {
        value * at / centre
    } else {
        value + at - centre
    }
}

impl<T> Joint<T> {
    /// What a number becomes at each point, with the point's weight: `value` as
    /// flown in full, `centre` and `at` the same of few flights. A point
    /// without the number is left out.
    pub fn spread_of(&self, value: f64, centre: f64, at: &[Option<f64>]) -> Vec<(f64, f64)> {
        self.spread_by(value, centre, at, |point| point.weight)
    }

    fn spread_by(
        &self,
        value: f64,
        centre: f64,
        at: &[Option<f64>],
        weight: impl Fn(&OuterPoint<T>) -> f64,
    ) -> Vec<(f64, f64)> {
        let scale = value > 0.0 && centre > 0.0 && at.iter().flatten().all(|at| *at > 0.0);
        let all = self.points.iter().zip(at);
        all.filter_map(|(point, at)| Some((carried(value, centre, (*at)?, scale), weight(point))))
            .collect()
    }

    /// What a number of the answer becomes at each point, with the point's
    /// weight; `value` is the number as flown in full.
    pub fn spread(&self, value: f64, read: impl Fn(&T) -> Option<f64>) -> Vec<(f64, f64)> {
        let Some(centre) = read(&self.centre) else { return Vec::new() };
        let at: Vec<Option<f64>> = self.points.iter().map(|point| read(&point.answer)).collect();
        self.spread_of(value, centre, &at)
    }

    /// The band of a number of the answer.
    pub fn band(&self, value: f64, read: impl Fn(&T) -> Option<f64>) -> Option<Band> {
        Some(Band::of(&self.spread(value, read))?.about(value))
    }

    /// The same of a number that is known already, as in [`Joint::spread_of`].
    pub fn band_of(&self, value: f64, centre: f64, at: &[Option<f64>]) -> Option<Band> {
        Some(Band::of(&self.spread_of(value, centre, at))?.about(value))
    }

    /// The band of a number of the answer before anything was measured.
    pub fn band_before(&self, value: f64, read: impl Fn(&T) -> Option<f64>) -> Option<Band> {
        let centre = read(&self.centre)?;
        let at: Vec<Option<f64>> = self.points.iter().map(|point| read(&point.answer)).collect();
        Band::of(&self.spread_by(value, centre, &at, |point| point.before))
    }

    /// A number of the answer with its band; without one, its ends are itself.
    pub fn banded(&self, value: f64, read: impl Fn(&T) -> Option<f64>) -> Banded {
        let Band { low, high } = self.band(value, read).unwrap_or(Band { low: value, high: value });
        Banded { value, low, high }
    }

    /// In what share of what is not known something holds.
    pub fn standing(&self, holds: impl Fn(&T) -> bool) -> Option<Standing> {
        let of: Vec<(bool, f64)> =
            self.points.iter().map(|point| (holds(&point.answer), point.weight)).collect();
        Standing::of(&of)
    }

    /// Which inputs to know better, the most telling first, for a number of the
    /// answer and a verdict that rests on it.
    pub fn narrowings(
        &self,
        read: impl Fn(&T) -> Option<f64>,
        verdict: impl Fn(&T) -> bool,
    ) -> Vec<Narrowing> {
        let told: Vec<(&OuterPoint<T>, f64)> = self
            .points
            .iter()
            .filter_map(|point| Some((point, read(&point.answer).filter(|of| of.is_finite())?)))
            .collect();
        let points: Vec<(&[f64], f64, f64)> =
            told.iter().map(|(point, of)| (point.chances.as_slice(), point.weight, *of)).collect();
        let verdicts: Vec<bool> = told.iter().map(|(point, _)| verdict(&point.answer)).collect();
        narrowings(&points, &verdicts, &self.pairs)
    }

    /// How many equally weighing points the weights are worth.
    pub fn effective(&self) -> f64 {
        let sum =
            |power: i32| self.points.iter().map(|point| point.weight.powi(power)).sum::<f64>();
        if self.points.is_empty() { 0.0 } else { sum(1).powi(2) / sum(2) }
    }

    /// The same of another kind of answer.
    pub(crate) fn map<U>(self, mut to: impl FnMut(T) -> U) -> Joint<U> {
        let point = |OuterPoint { chances, weight, before, answer }, to: &mut dyn FnMut(T) -> U| {
            OuterPoint { chances, weight, before, answer: to(answer) }
        };
        Joint {
            inputs: self.inputs,
            choices: self.choices,
            pairs: self.pairs,
            centre: to(self.centre),
            points: self.points.into_iter().map(|one| point(one, &mut to)).collect(),
            without: self.without,
            why: self.why,
            told: self.told,
        }
    }
}
