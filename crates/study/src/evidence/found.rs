//! The points left by what was measured.

use super::told::{Evident, ReadingFound, Said, Told};
use super::weigh::{REACH, Weighed, Weigher};
use super::witness::Witness;
use crate::unknown::{Drawn, OuterSample, Point};
use crate::{Band, Evidence, Recipe, StudyError, Watch};

/// The points left, and what each thing says.
pub(crate) struct Known {
    pub(crate) sample: OuterSample,
    pub(crate) drawn: Drawn,
    /// Where anything was measured.
    pub(crate) told: Option<Told>,
}

/// The outer points of recipes, weighed by what was measured.
///
/// # Errors
/// Any failure of the measured shots at the own values.
pub(crate) fn known(
    recipes: &[&dyn Recipe],
    evidence: &[Evidence],
    (seed, points): (u64, usize),
    watch: &dyn Watch,
) -> Result<Known, StudyError> {
    let measured = evidence.iter().map(|of| of.recipe.as_ref());
    let against = evidence.iter().filter_map(|of| of.what.against());
    let all: Vec<&dyn Recipe> = recipes.iter().copied().chain(measured).chain(against).collect();
    let sample = OuterSample::new(&all, seed)?;
    let even = sample.even(points);
    if evidence.is_empty() || points == 0 || sample.inputs.is_empty() {
        return Ok(Known { sample, drawn: even, told: None });
    }
    let witnesses: Result<Vec<Witness>, StudyError> =
        evidence.iter().map(|of| Witness::new(of, seed)).collect();
    let heard = Heard::of(witnesses?);
    heard.at_own(&sample)?;
    let residuals =
        |chances: &[f64]| heard.residuals(&Point { sample: &sample, chances, number: None });
    let weigher = Weigher {
        prior: &|at| sample.chances(at),
        values: sample.inputs.len(),
        points,
        seed,
        things: &heard.things,
        residuals: &residuals,
        watch,
    };
    let weighed = weigher.weighed()?;
    let told = Some(heard.told(&weighed));
    Ok(Known { sample, drawn: weighed.drawn, told })
}

/// Everything measured, in an order of its own, so that the one given does not
/// count.
struct Heard<'a> {
    witnesses: Vec<Witness<'a>>,
    order: Vec<usize>,
    /// To which of the witnesses each number belongs.
    things: Vec<usize>,
}

impl<'a> Heard<'a> {
    fn of(witnesses: Vec<Witness<'a>>) -> Self {
        let name = |at: &usize| format!("{:?}", (&witnesses[*at].of.what, &witnesses[*at].errors));
        let mut order: Vec<usize> = (0..witnesses.len()).collect();
        order.sort_by_cached_key(name);
        let each = |at: &usize| std::iter::repeat_n(*at, witnesses[*at].readings.len());
        let things = order.iter().flat_map(each).collect();
        Self { witnesses, order, things }
    }

    /// Refuses what cannot be computed even at the own values.
    fn at_own(&self, sample: &OuterSample) -> Result<(), StudyError> {
        let chances = vec![0.5; sample.inputs.len()];
        let point = Point { sample, chances: &chances, number: None };
        let mut homes = Vec::new();
        for witness in &self.witnesses {
            if witness.read(&point, &mut homes)?.is_none() {
                return Err(StudyError::Unread { name: witness.of.name.clone() });
            }
        }
        Ok(())
    }

    /// Computed less measured, over the error of each number.
    fn residuals(&self, point: &Point) -> Result<Option<Vec<f64>>, StudyError> {
        let (mut homes, mut all) = (Vec::new(), Vec::with_capacity(self.things.len()));
        for at in &self.order {
            let witness = &self.witnesses[*at];
            let values = match witness.read(point, &mut homes) {
                Ok(Some(values)) => values,
                Err(StudyError::Cancelled) => return Err(StudyError::Cancelled),
                // As at any outer point: it gives no shot.
                Ok(None) | Err(_) => return Ok(None),
            };
            let measured = witness.readings.iter().zip(&witness.errors);
            all.extend(measured.zip(values).map(|((of, error), value)| (value - of.value) / error));
        }
        Ok(Some(all))
    }

    fn told(&self, weighed: &Weighed) -> Told {
        let mut found: Vec<Evident> = self
            .witnesses
            .iter()
            .map(|of| Evident {
                name: of.of.name.clone(),
                readings: Vec::new(),
                said: Said::Counts,
            })
            .collect();
        let band = |at: usize, of: &[(Vec<f64>, f64)], value: f64, error: f64| {
            let numbers: Vec<(f64, f64)> =
                of.iter().map(|(all, weight)| (value + error * all[at], *weight)).collect();
            Band::of(&numbers)
        };
        for (at, thing) in self.things.iter().enumerate() {
            let witness = &self.witnesses[*thing];
            let place = found[*thing].readings.len();
            let (of, error) = (witness.readings[place], witness.errors[place]);
            found[*thing].readings.push(ReadingFound {
                what: of.what,
                role: of.role,
                value: of.value,
                error,
                before: band(at, &weighed.before, of.value, error),
                after: band(at, &weighed.after, of.value, error),
            });
        }
        for (thing, of) in found.iter_mut().enumerate() {
            of.said = if weighed.beyond[thing] {
                Said::Beyond
            } else if of.readings.iter().all(ReadingFound::is_silent) {
                Said::Nothing
            } else if self.apart(thing, weighed) {
                Said::Apart
            } else {
                Said::Counts
            };
        }
        Told { found, tried: weighed.tried }
    }

    /// Whether no point left explains a thing.
    fn apart(&self, thing: usize, weighed: &Weighed) -> bool {
        let near = |(all, _): &(Vec<f64>, f64)| {
            let own = all.iter().zip(&self.things).filter(|(_, of)| **of == thing);
            own.map(|(residual, _)| residual.abs()).all(|off| off <= REACH)
        };
        !weighed.after.iter().any(near)
    }
}
