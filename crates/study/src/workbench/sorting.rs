//! Which arrows to keep together. Model card: docs/model/sorting.md.

use rayon::prelude::*;
use units::Length;
use workbench::{
    Measured, Place, Set, Split, best_by_value, set_of, split_in_turn, split_together,
};

use super::aimed::{AimedBow, FORM_FLIGHTS, FORM_FLIGHTS_AT_POINTS, form_sigma, growth};
use super::blank::blanks;
use super::predict::{due_again, due_to, predict_all};
use super::traits::Trait;
use crate::alone::alone;
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::watch::Inner;
use crate::{Banded, Joint, QUICK_POINTS, Recipe, StudyError, Watch};

/// An arrow this many times the batch's median distance from its median place is
/// a flier. Chosen: of a circular normal group one in 500 lies beyond.
const FLIER: f64 = 3.0;

/// A batch to sort.
pub struct SortAsk<'a> {
    /// Bow, arrow and archer.
    pub recipe: &'a dyn Recipe,
    /// Distances; the last decides.
    pub distances: &'a [Length],
    /// What was measured.
    pub arrows: &'a [Measured],
    /// Names and sizes of the sets, the most important first.
    pub sets: &'a [(String, usize)],
    /// Choose all sets together instead of one after the other.
    pub together: bool,
    /// Seed of the archer's own group.
    pub seed: u64,
}

/// One arrow of the batch.
#[derive(Debug, Clone, PartialEq)]
pub struct Foreseen {
    /// What was measured.
    pub measured: Measured,
    /// Where it is expected to hit at each distance, from the faultless arrow.
    pub places: Vec<Place>,
    /// What moves it, at the last distance, m; the largest first.
    pub causes: Vec<(Trait, f64)>,
    /// What was not read of it, though it was of others at its stage.
    pub blanks: Vec<Trait>,
    /// Which set it belongs to; none for an arrow left over.
    pub set: Option<usize>,
}

/// A set that was chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct ChosenSet {
    /// Its name.
    pub name: String,
    /// Its arrows, and their spread at the last distance.
    pub set: Set,
    /// That spread over the stated ranges of the doubts.
    pub band: Banded,
    /// What sorting by weight alone would have put together, and its spread
    /// over the same ranges; none where an arrow was not weighed.
    pub by_weight: Option<(Set, Banded)>,
    /// The archer's group with these arrows over that with faultless ones.
    pub growth: f64,
}

/// An arrow far from the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flier {
    /// Which arrow.
    pub arrow: usize,
    /// Its distance from the batch's median place, blur included, m.
    pub away: f64,
    /// Beyond this an arrow is a flier, m.
    pub limit: f64,
    /// What moves it most.
    pub cause: Option<Trait>,
}

/// A batch sorted.
#[derive(Debug, Clone, PartialEq)]
pub struct Sorting {
    /// Distances.
    pub distances: Vec<Length>,
    /// The arrows, in the order given.
    pub arrows: Vec<Foreseen>,
    /// The sets, in the order asked.
    pub sets: Vec<ChosenSet>,
    /// Arrows in no set.
    pub left_over: Vec<usize>,
    /// All arrows together.
    pub whole: Set,
    /// Fliers, the farthest first.
    pub fliers: Vec<Flier>,
    /// Spread of all sets about their own centres, and what no split of these
    /// sizes can better, m.
    pub spread: (f64, f64),
    /// Whether the sets were chosen together.
    pub together: bool,
    /// Standard deviation of the archer's own group in one direction at each
    /// distance, m.
    pub form: Vec<f64>,
    /// Shaft diameter, m.
    pub shaft: f64,
    /// The same sets at every outer point; none where nothing is poorly known.
    pub unknown: Option<Box<Joint<Sorting>>>,
}

/// Sorts a batch by where its arrows are expected to hit.
///
/// # Errors
/// [`StudyError`]; an arrow that cannot be built, shot or flown is named.
pub fn sort(ask: &SortAsk, watch: &dyn Watch) -> Result<Sorting, StudyError> {
    workbench::sortable(ask.arrows.len())?;
    let (mut found, joint) = alone(
        ask.recipe,
        (ask.seed, QUICK_POINTS),
        watch,
        |recipe| sorted(ask, recipe, None, watch),
        |main, point| sorted(ask, &point.of(ask.recipe), Some(main), &Inner(watch)),
    )?;
    if let Some(joint) = &joint {
        for (at, set) in found.sets.iter_mut().enumerate() {
            set.band = joint.banded(set.band.value, |of| Some(of.sets.get(at)?.band.value));
            if let Some((_, band)) = &mut set.by_weight {
                let read = |of: &Sorting| Some(of.sets.get(at)?.by_weight.as_ref()?.1.value);
                *band = joint.banded(band.value, read);
            }
        }
    }
    found.unknown = joint;
    Ok(found)
}

/// A batch with the poorly known values as a recipe has them; in the sets that were
/// chosen before, if any were.
fn sorted(
    ask: &SortAsk,
    recipe: &dyn Recipe,
    before: Option<&Sorting>,
    watch: &dyn Watch,
) -> Result<Sorting, StudyError> {
    let distances = checked(ask.distances)?;
    let at = distances.len() - 1;
    let sizes: Vec<usize> = ask.sets.iter().map(|(_, size)| *size).collect();
    let lane = AimedBow::new(recipe, &distances)?;
    watch.planned(2 * ask.arrows.len() as u64);
    let places = predict_all(&lane, ask.arrows, watch)?;
    let last: Vec<Place> = places.iter().map(|places| places[at]).collect();
    let split = if ask.together { split_together } else { split_in_turn };
    let best = split(&last, &sizes)?;
    let Split { sets, left_over, spread, bound } =
        before.map_or_else(|| best.clone(), |before| kept(before, &last, best.bound));
    let flights = if before.is_some() { FORM_FLIGHTS_AT_POINTS } else { FORM_FLIGHTS };
    let form = form_sigma(recipe, &distances, (ask.seed, flights), watch)?;
    let weights = by_weight(ask.arrows, &sizes)?;

    let causes = if let Some(before) = before {
        let causes: Vec<_> = before.arrows.iter().map(|arrow| arrow.causes.clone()).collect();
        due_again(&lane, &causes, at, ask.arrows)?
    } else {
        let causes = |arrow: &Measured| {
            let causes = due_to(&lane, arrow, at, ask.arrows);
            watch.done(1);
            causes
        };
        all_or_first(ask.arrows.par_iter().map(causes))?
    };
    let fliers = match before {
        Some(before) => same_fliers(before, &last, lane.base.parts.shaft.outside.si()),
        None => fliers(&last, &causes, lane.base.parts.shaft.outside.si()),
    };
    let chosen = sets.iter().enumerate().map(|(k, set)| ChosenSet {
        name: ask.sets[k].0.clone(),
        set: set.clone(),
        band: Banded::sure(set.spread),
        by_weight: weights.as_ref().map(|weights| {
            let set = set_of(&last, &weights[k]);
            let spread = Banded::sure(set.spread);
            (set, spread)
        }),
        growth: growth(set.spread, form[at]),
    });
    let member = |index: usize| sets.iter().position(|set| set.members.contains(&index));
    let arrows = ask.arrows.iter().zip(places).zip(causes).enumerate();
    Ok(Sorting {
        distances: ask.distances.to_vec(),
        sets: chosen.collect(),
        arrows: arrows
            .map(|(index, ((measured, places), causes))| Foreseen {
                measured: measured.clone(),
                blanks: blanks(measured, ask.arrows),
                places,
                causes,
                set: member(index),
            })
            .collect(),
        left_over,
        whole: set_of(&last, &(0..last.len()).collect::<Vec<_>>()),
        fliers,
        spread: (spread, bound),
        together: ask.together,
        form,
        shaft: lane.base.parts.shaft.outside.si(),
        unknown: None,
    })
}

/// The sets that were chosen before, with their arrows at other places; what no split
/// can better may lie lower then.
fn kept(before: &Sorting, last: &[Place], bound: f64) -> Split {
    let sets: Vec<Set> =
        before.sets.iter().map(|chosen| set_of(last, &chosen.set.members)).collect();
    let count: usize = sets.iter().map(|set| set.members.len()).sum();
    let squares: f64 = sets.iter().map(|set| set.members.len() as f64 * set.spread.powi(2)).sum();
    let spread = (squares / count.max(1) as f64).sqrt();
    Split { sets, left_over: before.left_over.clone(), spread, bound: bound.min(spread) }
}

/// Sets of neighbours in weight, one after the other; none where an arrow was
/// not weighed.
fn by_weight(arrows: &[Measured], sizes: &[usize]) -> Result<Option<Vec<Vec<usize>>>, StudyError> {
    let masses: Option<Vec<f64>> = arrows.iter().map(|a| a.mass.map(units::Mass::si)).collect();
    let Some(masses) = masses else { return Ok(None) };
    let mut left: Vec<usize> = (0..arrows.len()).collect();
    let mut groups = Vec::new();
    for &size in sizes {
        let some: Vec<f64> = left.iter().map(|&at| masses[at]).collect();
        let members: Vec<usize> =
            best_by_value(&some, size)?.into_iter().map(|at| left[at]).collect();
        left.retain(|at| !members.contains(at));
        groups.push(members);
    }
    Ok(Some(groups))
}

/// How far every arrow lies from the middle of the batch, blur included, and beyond
/// what it is a flier. Less than half a shaft cannot change what a line scores, so it
/// makes none.
fn away(last: &[Place], shaft: f64) -> (Vec<f64>, f64) {
    let centre = [median(last.iter().map(|p| p.left)), median(last.iter().map(|p| p.up))];
    let away =
        |place: &Place| (place.left - centre[0]).hypot(place.up - centre[1]).hypot(place.blur);
    let all: Vec<f64> = last.iter().map(away).collect();
    let limit = (FLIER * median(all.iter().copied())).max(shaft / 2.0);
    (all, limit)
}

/// Arrows far outside the batch.
fn fliers(last: &[Place], causes: &[Vec<(Trait, f64)>], shaft: f64) -> Vec<Flier> {
    let (away, limit) = away(last, shaft);
    let beyond = away.iter().enumerate().filter(|(_, away)| **away > limit);
    let mut fliers: Vec<Flier> = beyond
        .map(|(arrow, &away)| Flier {
            arrow,
            away,
            limit,
            cause: causes[arrow].first().map(|(of, _)| *of),
        })
        .collect();
    fliers.sort_by(|a, b| b.away.total_cmp(&a.away).then(a.arrow.cmp(&b.arrow)));
    fliers
}

/// The arrows that were fliers before, at other places.
fn same_fliers(before: &Sorting, last: &[Place], shaft: f64) -> Vec<Flier> {
    let (away, limit) = away(last, shaft);
    let one = |flier: &Flier| Flier { away: away[flier.arrow], limit, ..*flier };
    before.fliers.iter().map(one).collect()
}

/// The middle value, or the mean of the two in the middle.
fn median(values: impl Iterator<Item = f64>) -> f64 {
    let mut values: Vec<f64> = values.collect();
    values.sort_by(f64::total_cmp);
    let half = values.len() / 2;
    match values.len() {
        0 => 0.0,
        n if n % 2 == 1 => values[half],
        _ => f64::midpoint(values[half - 1], values[half]),
    }
}
