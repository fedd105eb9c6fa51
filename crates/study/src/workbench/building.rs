//! From measured shafts and parts to finished arrows. Model card: docs/model/pairing.md.

use std::f64::consts::TAU;

use rayon::prelude::*;
use units::{Angle, Length, Mass, Ratio};
use workbench::{
    LoosePart, Measured, PART_KINDS, PartKind, Place, Stage, best_turns, pair, set_of,
};

use super::aimed::{AimedBow, FORM_FLIGHTS, FORM_FLIGHTS_AT_POINTS, form_sigma, growth};
use super::blank::filled;
use super::parted::{Made, Model};
use super::predict::predict_changed;
use super::spin::{SpinLimit, Spun, judged, spin_limits};
use crate::alone::alone;
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::watch::Inner;
use crate::{Banded, Joint, QUICK_POINTS, Recipe, Setup, StudyError, Watch};

/// How far mass and balance are moved to see what they do at the target: a share of the
/// mass, and m. Chosen: what parts of a batch differ by, and more.
const PROBE: (f64, f64) = (0.01, 0.003);

/// Arrows to build.
pub struct BuildAsk<'a> {
    /// Bow, arrow and archer.
    pub recipe: &'a dyn Recipe,
    /// Distances; the last decides.
    pub distances: &'a [Length],
    /// Shafts that are no arrows yet.
    pub shafts: &'a [Measured],
    /// Points, inserts and nocks.
    pub parts: &'a [LoosePart],
    /// The mass wanted; none for what the parts give on average.
    pub mass: Option<Mass>,
    /// The front of centre wanted; none for what the parts give on average.
    pub foc: Option<Ratio>,
    /// Clock positions that a shaft may take to its nock.
    pub positions: u32,
    /// By what share the group may grow by what a spin test lets pass.
    pub share: f64,
    /// Seed of the archer's own group.
    pub seed: u64,
}

/// One arrow to build.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedArrow {
    /// Its shaft.
    pub shaft: Measured,
    /// Its parts, of the kinds that were given, in the order of [`PART_KINDS`].
    pub parts: Vec<LoosePart>,
    /// Its mass, kg.
    pub mass: f64,
    /// Its front of centre.
    pub foc: f64,
    /// How far its shaft is rolled clockwise, seen from behind, before the nock is set.
    pub roll: Angle,
    /// Where its stiff side then stands, from the top vane or groove; none where it was not
    /// read.
    pub stiff: Option<Angle>,
    /// The same of the high side.
    pub high: Option<Angle>,
    /// Where it hits at the last distance.
    pub place: Place,
}

/// A step before fletching.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BuildStep {
    /// Parts as they lie, shafts as they come.
    AsTheyCome,
    /// Parts paired.
    Paired,
    /// Every stiff side up.
    StiffUp,
    /// Nocks set where the arrows hit closest.
    NocksSet,
}

/// What the arrows do after a step.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StepTaken {
    /// The step.
    pub step: BuildStep,
    /// Root mean square distance from their centre, last distance, m.
    pub spread: Banded,
    /// The archer's group over that with arrows all alike.
    pub growth: f64,
}

/// Arrows planned.
#[derive(Debug, Clone, PartialEq)]
pub struct Building {
    /// Distances.
    pub distances: Vec<Length>,
    /// The arrows, in the order of their shafts.
    pub arrows: Vec<PlannedArrow>,
    /// Mass (kg) and front of centre wanted, and whether the user said so.
    pub wanted: [(f64, bool); 2],
    /// How far the pairing lies from that on average, and how far no pairing could be
    /// nearer, root mean square at the last distance, m.
    pub off: (f64, f64),
    /// Whether the pairing is the best there is.
    pub best: bool,
    /// The steps.
    pub steps: Vec<StepTaken>,
    /// Shafts that were not weighed, or not over a known length: not paired by mass.
    pub unweighed: Vec<String>,
    /// Shafts that are arrows already.
    pub built: Vec<String>,
    /// Parts left over or not weighed: kind, name, whether it was weighed.
    pub spare: Vec<(PartKind, String, bool)>,
    /// What a spin test may let pass.
    pub spin: Vec<SpinLimit>,
    /// The wobbles read of arrows that are built already.
    pub spun: Vec<Spun>,
    /// The scenario's parts, for the jig.
    pub setup: Setup,
    /// Standard deviation of the archer's own group in one direction at each distance, m.
    pub form: Vec<f64>,
    /// Clock positions tried.
    pub positions: u32,
    /// Which shaft and parts make each arrow, and which position it takes.
    order: Vec<Vec<usize>>,
    choice: Vec<usize>,
    /// The same arrows at every outer point; none where nothing is poorly known.
    pub unknown: Option<Box<Joint<Building>>>,
}

/// Plans arrows.
///
/// # Errors
/// [`StudyError`]; an arrow that cannot be built, shot or flown is named.
pub fn build(ask: &BuildAsk, watch: &dyn Watch) -> Result<Building, StudyError> {
    let (mut found, joint) = alone(
        ask.recipe,
        (ask.seed, QUICK_POINTS),
        watch,
        |recipe| planned(ask, recipe, None, watch),
        |main, point| planned(ask, &point.of(ask.recipe), Some(main), &Inner(watch)),
    )?;
    if let Some(joint) = &joint {
        for (at, step) in found.steps.iter_mut().enumerate() {
            let spread = step.spread.value;
            step.spread = joint.banded(spread, |of| Some(of.steps[at].spread.value));
        }
        for (at, limit) in found.spin.iter_mut().enumerate() {
            let read = |of: &Building| of.spin[at].total.map(|total| total.value);
            limit.total = limit.total.map(|total| joint.banded(total.value, read));
        }
        found.spun = judged(ask.shafts, &found.spin);
    }
    found.unknown = joint;
    Ok(found)
}

/// Arrows planned with the poorly known values as a recipe has them; paired and turned as
/// before, if they were.
fn planned(
    ask: &BuildAsk,
    recipe: &dyn Recipe,
    before: Option<&Building>,
    watch: &dyn Watch,
) -> Result<Building, StudyError> {
    let distances = checked(ask.distances)?;
    if !(1..=360).contains(&ask.positions) {
        return Err(StudyError::Positions { positions: ask.positions });
    }
    let at = distances.len() - 1;
    let lane = AimedBow::new(recipe, &distances)?;
    let paired = paired(ask, &lane, at, before)?;
    let made = &paired.made;
    let count = made.len();

    watch.planned((count * (ask.positions as usize + 4)) as u64);
    let flights = if before.is_some() { FORM_FLIGHTS_AT_POINTS } else { FORM_FLIGHTS };
    let form = form_sigma(recipe, &distances, (ask.seed, flights), watch)?;
    let sigma = form[at];
    let rolls: Vec<f64> =
        (0..ask.positions).map(|k| TAU * f64::from(k) / f64::from(ask.positions)).collect();
    let batch: Vec<Measured> = made.iter().map(|made| made.shaft.clone()).collect();
    let hit = |made: &Made, roll: f64| -> Result<Place, StudyError> {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let arrow = filled(&rolled(made.shaft, roll), &batch);
        let place = predict_changed(&lane, &arrow, &|setup| made.with_parts(setup))?[at];
        watch.done(1);
        Ok(place)
    };
    let choice = if let Some(before) = before {
        before.choice.clone()
    } else {
        let tried = |made: &Made| {
            rolls.iter().map(|roll| hit(made, *roll)).collect::<Result<Vec<Place>, _>>()
        };
        best_turns(&all_or_first(made.par_iter().map(tried))?)?.choice
    };
    let places = |of: &[Made], roll: &(dyn Fn(usize) -> f64 + Sync)| {
        all_or_first(of.par_iter().enumerate().map(|(k, made)| hit(made, roll(k))))
    };
    let turned = places(made, &|k| rolls[choice[k]])?;
    let all: Vec<usize> = (0..count).collect();
    let spreads = [
        places(&paired.came, &|_| 0.0)?,
        places(made, &|_| 0.0)?,
        places(made, &|k| made[k].shaft.stiff.map_or(0.0, |stiff| -stiff.si()))?,
        turned.clone(),
    ]
    .map(|places| set_of(&places, &all).spread);
    let steps = [BuildStep::AsTheyCome, BuildStep::Paired, BuildStep::StiffUp, BuildStep::NocksSet];
    let steps = steps.into_iter().zip(spreads).map(|(step, spread)| StepTaken {
        step,
        spread: Banded::sure(spread),
        growth: growth(spread, sigma),
    });
    let arrows = made
        .iter()
        .enumerate()
        .map(|(k, made)| paired.planned(k, made, rolls[choice[k]], turned[k]));
    let spin = spin_limits(&lane, (ask.share, sigma))?;
    let (mass, balance) = paired.wanted;
    Ok(Building {
        distances: ask.distances.to_vec(),
        arrows: arrows.collect(),
        wanted: [(mass, ask.mass.is_some()), (paired.model.foc(balance), ask.foc.is_some())],
        off: paired.off,
        best: paired.best,
        steps: steps.collect(),
        spare: paired.spare(ask.parts),
        built: ask
            .shafts
            .iter()
            .filter(|shaft| shaft.stage.finished())
            .map(|shaft| shaft.name.clone())
            .collect(),
        spun: judged(ask.shafts, &spin),
        spin,
        setup: lane.base.clone(),
        form,
        positions: ask.positions,
        order: paired.order,
        unweighed: paired.unweighed,
        choice,
        unknown: None,
    })
}

/// Shafts with their parts.
struct Paired<'a> {
    model: Model,
    /// Mass and balance.
    wanted: (f64, f64),
    /// As in [`Building`].
    off: (f64, f64),
    best: bool,
    /// Which shaft and parts, by shaft.
    order: Vec<Vec<usize>>,
    made: Vec<Made<'a>>,
    /// The same with parts as they lie.
    came: Vec<Made<'a>>,
    unweighed: Vec<String>,
}

fn paired<'a>(
    ask: &BuildAsk<'a>,
    lane: &AimedBow,
    at: usize,
    before: Option<&Building>,
) -> Result<Paired<'a>, StudyError> {
    let base = &lane.base;
    let length = base.parts.shaft.length.si();
    let bare = ask.shafts.iter().filter(|shaft| !shaft.stage.finished());
    let (shafts, unweighed): (Vec<_>, Vec<_>) =
        bare.map(|shaft| (shaft, wanted_mass(shaft, length))).partition(|(_, m)| m.is_some());
    let weighed = |kind: PartKind| {
        let of = |part: &&'a LoosePart| part.kind == kind && part.mass.is_some();
        ask.parts.iter().filter(of).collect::<Vec<_>>()
    };
    let kinds: Vec<PartKind> = PART_KINDS
        .into_iter()
        .filter(|kind| !weighed(*kind).is_empty())
        .filter(|kind| *kind != PartKind::Insert || base.parts.insert.is_some())
        .collect();
    let heaps: Vec<Vec<&LoosePart>> = kinds.iter().map(|kind| weighed(*kind)).collect();
    let masses: Vec<f64> = shafts.iter().filter_map(|(_, mass)| *mass).collect();
    if masses.is_empty() {
        let built = !ask.shafts.is_empty() && ask.shafts.iter().all(|shaft| shaft.stage.finished());
        return Err(if built { StudyError::AllBuilt } else { StudyError::NothingWeighed });
    }
    let model = Model::new(base, &masses, &heaps, &kinds)?;
    let mean = model.mean();
    let mass = ask.mass.map_or(mean.0, Mass::si);
    let balance = ask.foc.map_or(mean.1, |foc| model.balance(foc.si()));
    let (order, off, best) = if let Some(before) = before {
        (before.order.clone(), before.off, before.best)
    } else {
        let (per_mass, per_balance) = moved(lane, at, mass, balance)?;
        let weights = [per_mass, per_balance / mass];
        let pairing = pair(&model.shares(balance), model.alike(mass, balance), weights)?;
        let mut order = pairing.arrows;
        order.sort_unstable();
        let rms = |cost: f64| (cost / order.len() as f64).sqrt();
        let off = (rms(pairing.cost), rms(pairing.bound));
        (order, off, pairing.best)
    };
    let make = |given: &[usize]| Made {
        shaft: shafts[given[0]].0,
        density: masses[given[0]] / length,
        parts: given[1..].iter().zip(&heaps).map(|(part, heap)| heap[*part]).collect(),
    };
    Ok(Paired {
        wanted: (mass, balance),
        made: order.iter().map(|given| make(given)).collect(),
        came: (0..order.len()).map(|k| make(&vec![k; 1 + heaps.len()])).collect(),
        unweighed: unweighed.into_iter().map(|(shaft, _)| shaft.name.clone()).collect(),
        model,
        off,
        best,
        order,
    })
}

impl Paired<'_> {
    fn planned(&self, k: usize, made: &Made, roll: f64, place: Place) -> PlannedArrow {
        let [mass, balance] = self.model.whole(&self.order[k]);
        let shaft = rolled(made.shaft, roll);
        PlannedArrow {
            shaft: made.shaft.clone(),
            parts: made.parts.iter().map(|part| (*part).clone()).collect(),
            mass,
            foc: self.model.foc(balance),
            roll: Angle::from_si(roll),
            stiff: shaft.stiff,
            high: shaft.run_out.and_then(|spun| spun.high),
            place,
        }
    }

    /// Parts in no arrow, and whether each was weighed.
    fn spare(&self, parts: &[LoosePart]) -> Vec<(PartKind, String, bool)> {
        let used = |part: &LoosePart| {
            self.made.iter().any(|made| made.parts.iter().any(|used| std::ptr::eq(*used, part)))
        };
        let spare = parts.iter().filter(|part| !used(part));
        spare.map(|part| (part.kind, part.name.clone(), part.mass.is_some())).collect()
    }
}

/// What a shaft weighs at the length wanted, kg; none where it was not weighed, or over an
/// unknown length.
fn cut_mass(shaft: &Measured, wanted: f64) -> Option<f64> {
    let over = match shaft.stage {
        Stage::Raw => shaft.length?.si(),
        _ => shaft.length.map_or(wanted, Length::si),
    };
    Some(shaft.mass?.si() * wanted / over)
}

/// The same of what was weighed, else of what was weighed before it was cut.
fn wanted_mass(shaft: &Measured, wanted: f64) -> Option<f64> {
    let carried = || shaft.density().map(|density| density.si() * wanted);
    cut_mass(shaft, wanted).or_else(carried)
}

/// A shaft rolled clockwise, seen from behind, with what was read of it.
fn rolled(shaft: &Measured, roll: f64) -> Measured {
    let on = |clock: Angle| Angle::from_si((clock.si() + roll).rem_euclid(TAU));
    let mut shaft = shaft.clone();
    shaft.stiff = shaft.stiff.map(on);
    if let Some(spun) = &mut shaft.run_out {
        spun.high = spun.high.map(on);
    }
    shaft
}

/// How far a mass and a balance move the impact about those wanted: m per kg, m per m.
fn moved(lane: &AimedBow, at: usize, mass: f64, balance: f64) -> Result<(f64, f64), StudyError> {
    let hit = |mass: f64, balance: f64| -> Result<[f64; 2], StudyError> {
        let mut setup = lane.base.clone();
        setup.parts.given.mass = Some(Mass::from_si(mass));
        setup.parts.given.balance = Some(Length::from_si(balance));
        Ok(lane.impacts_at(setup)?[at])
    };
    let apart = |a: [f64; 2], b: [f64; 2]| (a[0] - b[0]).hypot(a[1] - b[1]);
    let (less, more) = (mass * (1.0 - PROBE.0), mass * (1.0 + PROBE.0));
    let by_mass = apart(hit(less, balance)?, hit(more, balance)?) / (more - less);
    let by_balance = apart(hit(mass, balance - PROBE.1)?, hit(mass, balance + PROBE.1)?);
    Ok((by_mass, by_balance / (2.0 * PROBE.1)))
}
