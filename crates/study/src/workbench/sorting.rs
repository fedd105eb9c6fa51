//! Which arrows to keep together. Model card: docs/model/sorting.md.

use rayon::prelude::*;
use units::Length;
use workbench::{
    Measured, Place, Set, Split, WorkbenchError, best_by_value, set_of, split_in_turn,
    split_together,
};

use super::aimed::{AimedBow, bands, form_sigma, growth, unsure};
use super::blank::blanks;
use super::predict::{due_to, predict_all};
use super::traits::Trait;
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::{Banded, Recipe, StudyError, Watch};

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

/// A batch that does not look like the scenario's arrow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// What differs.
    pub of: Trait,
    /// Mean of the batch, SI.
    pub batch: f64,
    /// The scenario's arrow, SI.
    pub scenario: f64,
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
    /// What of the batch contradicts the scenario.
    pub questions: Vec<Question>,
}

/// A mean farther off the scenario than so many standard deviations of the batch is
/// questioned. Chosen: three, and two per cent, so that an even batch is not.
const OFF: (f64, f64) = (3.0, 0.02);

/// Reads a number of an arrow.
type Read = fn(&Measured) -> Option<f64>;

/// What of a batch lies farther from the scenario's arrow than its scatter allows.
fn questions(lane: &AimedBow, arrows: &[Measured]) -> Result<Vec<Question>, StudyError> {
    let parts = &lane.base.parts;
    let built = arrow::build(parts, &lane.base.faults).map_err(WorkbenchError::Arrow)?;
    let behind = parts.nock.outside.si() - parts.nock.groove_depth.si();
    let length = parts.shaft.length.si() + behind;
    let read: [(Trait, Read, f64); 3] = [
        (Trait::Mass, |m| m.mass.map(units::Mass::si), built.mass.mass().si()),
        (Trait::Length, |m| m.length.map(Length::si), length),
        (Trait::Spine, |m| m.spine.map(Length::si), parts.shaft.spine.si()),
    ];
    let mut found = Vec::new();
    for (of, read, scenario) in read {
        // Of bare shafts only the spine can be held against an arrow.
        let fair = |m: &&Measured| m.stage.finished() || of == Trait::Spine;
        let values: Vec<f64> = arrows.iter().filter(fair).filter_map(read).collect();
        if values.is_empty() {
            continue;
        }
        let count = values.len() as f64;
        let batch = values.iter().sum::<f64>() / count;
        let scatter = (values.iter().map(|v| (v - batch).powi(2)).sum::<f64>() / count).sqrt();
        if (batch - scenario).abs() > (OFF.0 * scatter).max(OFF.1 * scenario) {
            found.push(Question { of, batch, scenario });
        }
    }
    Ok(found)
}

/// Sorts a batch by where its arrows are expected to hit.
///
/// # Errors
/// [`StudyError`]; an arrow that cannot be built, shot or flown is named.
pub fn sort(ask: &SortAsk, watch: &dyn Watch) -> Result<Sorting, StudyError> {
    let distances = checked(ask.distances)?;
    let at = distances.len() - 1;
    let sizes: Vec<usize> = ask.sets.iter().map(|(_, size)| *size).collect();
    let lane = AimedBow::new(ask.recipe, &distances)?;
    let uncertain = unsure(ask.recipe, &distances, ask.seed, watch)?;
    let ends = uncertain.iter().map(|joint| joint.points.len()).sum::<usize>();
    watch.planned((ask.arrows.len() * (ends + 2)) as u64);
    let places = predict_all(&lane, ask.arrows, watch)?;
    let last: Vec<Place> = places.iter().map(|places| places[at]).collect();
    let split = if ask.together { split_together } else { split_in_turn };
    let Split { sets, left_over, spread, bound } = split(&last, &sizes)?;
    let form = form_sigma(ask.recipe, &distances, ask.seed, watch)?;

    let weights = by_weight(ask.arrows, &sizes)?;
    let groups: Vec<&[usize]> = sets
        .iter()
        .map(|set| set.members.as_slice())
        .chain(weights.iter().flatten().map(Vec::as_slice))
        .collect();
    let of = |last: &[Place]| groups.iter().map(|g| set_of(last, g).spread).collect::<Vec<f64>>();
    let read = |lane: &AimedBow| {
        let places = predict_all(lane, ask.arrows, watch)?;
        Ok(of(&places.iter().map(|places| places[at]).collect::<Vec<_>>()))
    };
    let banded = bands(&of(&last), &uncertain, &read)?;

    let shaft = lane.base.parts.shaft.outside.si();
    let causes = |arrow: &Measured| {
        let causes = due_to(&lane, arrow, at, ask.arrows);
        watch.done(1);
        causes
    };
    let causes = all_or_first(ask.arrows.par_iter().map(causes))?;
    let fliers = fliers(&last, &causes, shaft);
    let chosen = sets.iter().enumerate().map(|(k, set)| ChosenSet {
        name: ask.sets[k].0.clone(),
        set: set.clone(),
        band: banded[k],
        by_weight: weights.as_ref().map(|w| (set_of(&last, &w[k]), banded[sets.len() + k])),
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
        shaft,
        questions: questions(&lane, ask.arrows)?,
    })
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

/// Arrows far outside the batch. Less than half a shaft cannot change what a
/// line scores, so it makes no flier.
fn fliers(last: &[Place], causes: &[Vec<(Trait, f64)>], shaft: f64) -> Vec<Flier> {
    let centre = [median(last.iter().map(|p| p.left)), median(last.iter().map(|p| p.up))];
    let away =
        |place: &Place| (place.left - centre[0]).hypot(place.up - centre[1]).hypot(place.blur);
    let limit = (FLIER * median(last.iter().map(away))).max(shaft / 2.0);
    let mut fliers: Vec<Flier> = last
        .iter()
        .enumerate()
        .filter(|(_, place)| away(place) > limit)
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
