//! Which arrows to keep together. Model card: docs/model/sorting.md.

use rayon::prelude::*;
use units::Length;
use workbench::{
    Measured, Place, Set, Split, best_by_value, set_of, split_in_turn, split_together,
};

use super::aimed::{AimedBow, FORM_FEW, FORM_FLIGHTS, at_points, form_sigma, growth};
use super::predict::{Trait, due_to, predict_all};
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::watch::Inner;
use crate::{Joint, Recipe, StudyError, Watch};

/// An arrow this many times the batch's median distance from its median place is
/// a flier. Chosen: of a circular normal group one in 500 lies beyond.
const FLIER: f64 = 3.0;

/// A batch to sort.
#[derive(Clone, Copy)]
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
    /// What sorting by weight alone would have put together; none where an arrow
    /// was not weighed.
    pub by_weight: Option<Set>,
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
    let mut found = sorted(ask, None, watch)?;
    found.unknown = at_points(ask.recipe, ask.seed, watch, &|recipe| {
        let ask = SortAsk { recipe, ..*ask };
        sorted(&ask, Some(&found), &Inner(watch))
    })?;
    Ok(found)
}

/// The same with the poorly known values as the recipe has them; sets chosen
/// `before` are kept.
fn sorted(
    ask: &SortAsk,
    before: Option<&Sorting>,
    watch: &dyn Watch,
) -> Result<Sorting, StudyError> {
    let distances = checked(ask.distances)?;
    let at = distances.len() - 1;
    let sizes: Vec<usize> = ask.sets.iter().map(|(_, size)| *size).collect();
    let lane = AimedBow::new(ask.recipe, &distances)?;
    watch.planned((ask.arrows.len() * 2) as u64);
    let places = predict_all(&lane, ask.arrows, watch)?;
    let last: Vec<Place> = places.iter().map(|places| places[at]).collect();
    let split = if ask.together { split_together } else { split_in_turn };
    let Split { mut sets, mut left_over, mut spread, bound } = split(&last, &sizes)?;
    if let Some(before) = before {
        sets = before.sets.iter().map(|set| set_of(&last, &set.set.members)).collect();
        left_over.clone_from(&before.left_over);
        spread = common_spread(&sets);
    }
    let flights = if before.is_some() { FORM_FEW } else { FORM_FLIGHTS };
    let form = form_sigma(ask.recipe, &distances, (ask.seed, flights), watch)?;
    let weights = by_weight(ask.arrows, &sizes)?;

    let shaft = lane.base.parts.shaft.outside.si();
    let causes = |(arrow, home): (&Measured, &Place)| {
        let causes = due_to(&lane, arrow, home, at, ask.arrows);
        watch.done(1);
        causes
    };
    let causes = all_or_first(ask.arrows.par_iter().zip(&last).map(causes))?;
    let fliers = fliers(&last, &causes, shaft, before);
    let chosen = sets.iter().enumerate().map(|(k, set)| ChosenSet {
        name: ask.sets[k].0.clone(),
        set: set.clone(),
        by_weight: weights.as_ref().map(|w| set_of(&last, &w[k])),
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
        shaft,
        unknown: None,
    })
}

/// Spread of all sets about their own centres, root mean square, m.
fn common_spread(sets: &[Set]) -> f64 {
    let count = |set: &Set| set.members.len() as f64;
    let squares: f64 = sets.iter().map(|set| count(set) * set.spread.powi(2)).sum();
    (squares / sets.iter().map(count).sum::<f64>()).sqrt()
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

/// Arrows far outside the batch, or those that were found so `before`. Less than half a shaft cannot change what a
/// line scores, so it makes no flier.
fn fliers(
    last: &[Place],
    causes: &[Vec<(Trait, f64)>],
    shaft: f64,
    before: Option<&Sorting>,
) -> Vec<Flier> {
    let centre = [median(last.iter().map(|p| p.left)), median(last.iter().map(|p| p.up))];
    let away =
        |place: &Place| (place.left - centre[0]).hypot(place.up - centre[1]).hypot(place.blur);
    let limit = (FLIER * median(last.iter().map(away))).max(shaft / 2.0);
    let mut fliers: Vec<Flier> = last
        .iter()
        .enumerate()
        .filter(|(arrow, place)| match before {
            Some(before) => before.fliers.iter().any(|flier| flier.arrow == *arrow),
            None => away(place) > limit,
        })
        .map(|(arrow, place)| Flier {
            arrow,
            away: away(place),
            limit,
            cause: causes[arrow].first().map(|(of, _)| *of),
        })
        .collect();
    fliers.sort_by(|a, b| b.away.total_cmp(&a.away).then(a.arrow.cmp(&b.arrow)));
    fliers
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
