//! The answer at every outer point, and what the answer gets from it.

use std::sync::Arc;

use crate::pushes::Pushes;
use crate::questions::{compare, ends, matters, sides};
use crate::unknown::{AtPoint, Point, joint};
use crate::variant::Variant;
use crate::watch::Inner;
use crate::{
    Answer, Band, Banded, Build, BuildAnswer, Compared, Found, Joint, MarkAnswer, Plan,
    QUICK_POINTS, Question, Recipe, StudyError, TunedBuild, Watch,
};

/// Flights of a group at an outer point. Chosen: the change of a group from
/// point to point is taken with the same chances, so few show it.
const INNER: usize = 200;
/// The same where many groups are flown for one answer. Chosen: no less than a
/// group needs.
const INNER_OF_MANY: usize = 100;
/// Drawn arrows of a tuning answer at an outer point. Chosen: each is pushed in
/// full, and their median is the least of what is told.
const INNER_ARROWS: usize = 10;

/// Outer points and flights at each, by how much work one answer is. Chosen: a
/// comparison has all its points, half of them where every arrow is pushed in
/// full; others, which ask for many groups, bows or pushes, have those of a quick
/// answer.
fn effort(plan: &Plan) -> (usize, usize) {
    let quick = plan.points.min(QUICK_POINTS);
    match &plan.question {
        Question::Compare { .. } => {
            let points = if in_full(plan) { quick.max(plan.points / 2) } else { plan.points };
            (points, INNER.min(plan.flights))
        }
        Question::Tune(_) => (quick, INNER_ARROWS.min(plan.flights)),
        Question::Matters(_) => (quick, matters::least(plan).min(plan.flights)),
        Question::Sweep(_) | Question::Worth(_) => (quick, INNER_OF_MANY.min(plan.flights)),
    }
}

/// Whether no linear response serves a build. One that cannot be pushed has told
/// so before this is asked.
fn in_full(plan: &Plan) -> bool {
    let pushes = |build: &Build| Pushes::new(&Variant::of(build));
    plan.builds.iter().any(|build| pushes(build).is_ok_and(|pushes| pushes.all_in_full()))
}

/// What was found at the outer points of a plan. It serves the same plan with another
/// number of flights, as long as that asks for as much at the points.
#[derive(Debug, Clone)]
pub struct PointsFound {
    /// Points, and flights at each.
    effort: (usize, usize),
    joint: Option<Joint<Found>>,
    flown: usize,
}

/// What is not known: the same question, with few flights, at every outer
/// point; `found` is what is known of that already, and what is afterwards.
pub(crate) fn unknown(
    plan: &Plan,
    answer: &mut Answer,
    answered: &(dyn Fn(&Plan, &dyn Watch) -> Result<Answer, StudyError> + Sync),
    found: &mut Option<PointsFound>,
    watch: &dyn Watch,
) -> Result<(), StudyError> {
    let known = found.take().filter(|found| found.effort == effort(plan));
    let known = match known {
        Some(known) => known,
        None => at_points(plan, answered, watch)?,
    };
    answer.flown += known.flown;
    if let Some(mut joint) = known.joint.clone() {
        retell(plan, &mut joint, &mut answer.found);
        answer.unknown = Some(joint);
    }
    *found = Some(known);
    Ok(())
}

fn at_points(
    plan: &Plan,
    answered: &(dyn Fn(&Plan, &dyn Watch) -> Result<Answer, StudyError> + Sync),
    watch: &dyn Watch,
) -> Result<PointsFound, StudyError> {
    let recipes: Vec<&dyn Recipe> = plan.builds.iter().map(|b| b.recipe.as_ref()).collect();
    let (points, flights) = effort(plan);
    let at = |point: &Point| {
        let build = |build: &Build| {
            let values = point.values(build.recipe.as_ref());
            let recipe = Arc::new(AtPoint::new(Arc::clone(&build.recipe), values));
            Build { name: build.name.clone(), recipe }
        };
        let builds = plan.builds.iter().map(build).collect();
        let plan = Plan { builds, flights, stop: None, points: 0, ..plan.clone() };
        let mut found = answered(&plan, &Inner(watch));
        watch.done(flights as u64);
        for build in found.iter_mut().flat_map(|answer| answer.found.builds_mut()) {
            forget_sample(build);
        }
        found
    };
    let several = recipes.iter().any(|recipe| !recipe.uncertain().is_empty());
    if several && points > 0 {
        // The centre is one more.
        watch.planned(((points + 1) * flights) as u64);
    }
    let joint = joint(&recipes, (plan.seed, points), watch, &at)?;
    let mut flown = 0;
    let joint = joint.map(|joint| {
        joint.map(|answer| {
            flown += answer.flown;
            answer.found
        })
    });
    Ok(PointsFound { effort: (points, flights), joint, flown })
}

/// What rests on few flights at the points is told anew from the many flights
/// of the answer.
fn retell(plan: &Plan, joint: &mut Joint<Found>, found: &mut Found) {
    for (at, build) in found.builds_mut().into_iter().enumerate() {
        fill_build(build, joint, |found| found.build(at));
    }
    if let Found::Tune(tuned) = found {
        for (at, build) in tuned.builds.iter_mut().enumerate() {
            fill_tuned(build, joint, |found| match found {
                Found::Tune(tuned) => tuned.builds.get(at),
                _ => None,
            });
        }
    }
    if let Some(main) = found.compared_mut() {
        fill_sides(joint, main);
    }
    let power_test = &plan.stated.power_test;
    if let (Some(main), Some(centre)) = (found.compared(), joint.centre.compared().cloned()) {
        for point in &mut joint.points {
            if let Some(at) = point.answer.compared_mut() {
                compare::retell(main, &centre, at, power_test);
            }
        }
        if let Some(at) = joint.centre.compared_mut() {
            compare::retell(main, &centre, at, power_test);
        }
    }
    if let (Found::Ends(main), Found::Ends(centre)) = (&*found, joint.centre.clone()) {
        let all = joint.points.iter_mut().map(|point| &mut point.answer);
        for at in all.chain([&mut joint.centre]) {
            if let Found::Ends(at) = at {
                ends::retell(main, &centre, at, power_test);
            }
        }
    }
}

/// Gives what is drawn of a build its bands; `of` finds the same build at a
/// point.
fn fill_build(
    build: &mut BuildAnswer,
    joint: &Joint<Found>,
    of: impl Fn(&Found) -> Option<&BuildAnswer>,
) {
    for (at, mark) in build.marks.iter_mut().enumerate() {
        let ends = |read: fn(&MarkAnswer) -> f64, value: f64| {
            let number = |found: &Found| Some(read(of(found)?.marks.get(at)?));
            let Banded { low, high, .. } = joint.banded(value, number);
            (low, high)
        };
        mark.drop_band = ends(|mark| mark.nominal.drop, mark.nominal.drop);
        mark.machine_band = ends(|mark| mark.machine.stats.r50.value, mark.machine.stats.r50.value);
    }
}

/// Drops the impacts that are kept for drawing.
fn forget_sample(build: &mut BuildAnswer) {
    for mark in &mut build.marks {
        for group in [&mut mark.full, &mut mark.machine, &mut mark.form] {
            group.sample = Vec::new();
        }
    }
}

/// Gives every number of a tuned build that has a band its own; `of` finds the
/// same build at a point.
fn fill_tuned(
    build: &mut TunedBuild,
    joint: &Joint<Found>,
    of: impl Fn(&Found) -> Option<&TunedBuild>,
) {
    let own = build.banded().len();
    let numbers = |found: &Found| -> Vec<Option<f64>> {
        let Some(build) = of(found) else { return Vec::new() };
        let mut build = build.clone();
        let found: Vec<Option<f64>> =
            build.banded().into_iter().map(|of| of.map(|of| of.value)).collect();
        if found.len() == own { found } else { Vec::new() }
    };
    let centre = numbers(&joint.centre);
    let points: Vec<Vec<Option<f64>>> =
        joint.points.iter().map(|point| numbers(&point.answer)).collect();
    for (at, number) in build.banded().into_iter().enumerate() {
        let centre = centre.get(at).copied().flatten();
        let (Some(number), Some(centre)) = (number, centre) else { continue };
        let at: Vec<Option<f64>> =
            points.iter().map(|point| point.get(at).copied().flatten()).collect();
        if let Some(Band { low, high }) = Band::of(&joint.spread_of(number.value, centre, &at)) {
            (number.low, number.high) = (low, high);
        }
    }
}

/// Gives each difference of the fault-free flight its band for what is not
/// known.
fn fill_sides(joint: &Joint<Found>, main: &mut Compared) {
    for (pair_at, pair) in main.sides.pairs.iter_mut().enumerate() {
        for (at, mark) in pair.marks.iter_mut().enumerate() {
            for (of, difference) in
                mark.differences.iter_mut().enumerate().take(sides::MEASURES.len())
            {
                let read = |found: &Found| {
                    let pair = found.compared()?.sides.pairs.get(pair_at)?;
                    Some(pair.marks.get(at)?.differences.get(of)?.value.value)
                };
                let value = &mut difference.value;
                if let Some(Band { low, high }) = joint.band(value.value, read) {
                    (value.low, value.high) = (low, high);
                }
            }
        }
    }
}
