//! The answer at every outer point, and what the answer gets from it.

use std::sync::Arc;

use crate::evidence::{self, Known};
use crate::pushes::Pushes;
use crate::questions::{compare, ends, matters, sides, worth};
use crate::unknown::{AtPoint, Point, joint};
use crate::variant::Variant;
use crate::watch::Inner;
use crate::{
    Answer, Band, Banded, Build, BuildAnswer, Compared, Found, Joint, MarkAnswer, Plan,
    QUICK_POINTS, Question, Recipe, Slot, SquareEnds, Standing, StudyError, TunedBuild, Watch,
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

/// Whether no linear response serves a build. One that cannot be pushed tells so when
/// it is answered.
fn in_full(plan: &Plan) -> bool {
    let pushes = |build: &Build| Pushes::new(&Variant::of(build));
    plan.builds.iter().any(|build| pushes(build).is_ok_and(|pushes| pushes.all_in_full()))
}

/// The outer points of an answer, weighed by what was measured.
pub(crate) fn known(plan: &Plan, watch: &dyn Watch) -> Result<Known, StudyError> {
    let recipes: Vec<&dyn Recipe> = plan.builds.iter().map(|b| b.recipe.as_ref()).collect();
    evidence::known(&recipes, &plan.evidence, (plan.seed, effort(plan).0), watch)
}

/// The plan with the values that go best with what was measured, where anything was.
pub(crate) fn centred(plan: &Plan, known: &Known) -> Option<Plan> {
    known.told.as_ref()?;
    let centre = Point { sample: &known.sample, chances: &known.drawn.centre, number: None };
    Some(at_point(plan, &centre, AtPoint::centred))
}

/// Holds a recipe at a point, or moves it there.
type Hold = fn(Arc<dyn Recipe>, Vec<(Slot, f64)>) -> AtPoint<Arc<dyn Recipe>>;

/// The plan with its poorly known values held at a point.
fn at_point(plan: &Plan, point: &Point, held: Hold) -> Plan {
    let build = |build: &Build| {
        let values = point.values(build.recipe.as_ref());
        let recipe = Arc::new(held(Arc::clone(&build.recipe), values));
        Build { name: build.name.clone(), recipe }
    };
    Plan { builds: plan.builds.iter().map(build).collect(), evidence: Vec::new(), ..plan.clone() }
}

/// Flights of [`unknown`].
pub(crate) fn flights_of(plan: &Plan, known: &Known) -> u64 {
    let points = known.drawn.points.len();
    // The centre is one more.
    let answers = if known.sample.inputs.is_empty() || points == 0 { 0 } else { points as u64 + 1 };
    answers * flights_at(plan)
}

/// Flights told of for one point, so that they stand beside those of the answer itself
/// as the time they take does.
fn flights_at(plan: &Plan) -> u64 {
    /// Of a build: with everything, by a machine, and the archer's own.
    const GROUPS: usize = 3;
    let groups = match plan.question {
        Question::Compare { .. } => GROUPS * plan.builds.len(),
        _ => 1,
    };
    (groups * effort(plan).1) as u64
}

/// Answers a question with what was found before.
type Answered<'a> =
    dyn Fn(&Plan, Option<&Found>, &dyn Watch) -> Result<Answer, StudyError> + Sync + 'a;

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
    (known, found): (Known, &mut Option<PointsFound>),
    answered: &Answered,
    watch: &dyn Watch,
) -> Result<(), StudyError> {
    // Which steps are tried at a point follows from the answer, which has other flights.
    let serves = !matches!(plan.question, Question::Worth(_));
    let before = found.take().filter(|found| serves && found.effort == effort(plan));
    watch.the_end_begins();
    let now = match before {
        Some(found) => found,
        None => at_points(plan, &answer.found, known, answered, watch)?,
    };
    answer.flown += now.flown;
    if let Some(mut joint) = now.joint.clone() {
        retell(plan, &mut joint, &mut answer.found);
        answer.unknown = Some(joint);
    }
    *found = Some(now);
    Ok(())
}

fn at_points(
    plan: &Plan,
    own: &Found,
    known: Known,
    answered: &Answered,
    watch: &dyn Watch,
) -> Result<PointsFound, StudyError> {
    watch.planned(flights_of(plan, &known));
    let Known { sample, drawn, told } = known;
    let ((points, flights), each) = (effort(plan), flights_at(plan));
    let at = |point: &Point| {
        let alone = plan.alone.at_point();
        let plan = at_point(plan, point, AtPoint::new);
        let plan = Plan { flights, stop: None, points: 0, alone, ..plan };
        let mut found = answered(&plan, Some(own), &Inner(watch));
        watch.done(each);
        for build in found.iter_mut().flat_map(|answer| answer.found.builds_mut()) {
            forget_sample(build);
        }
        found
    };
    let joint = joint(&sample, &drawn, watch, &at)?;
    let mut flown = 0;
    let joint = joint.map(|joint| {
        joint.map(|answer| {
            flown += answer.flown;
            answer.found
        })
    });
    let joint = joint.map(|joint| Joint { told, ..joint });
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
            fill_left_in(build, joint, |found| tuned_of(found, at));
            fill_tuned(build, joint, |found| tuned_of(found, at));
        }
    }
    if let Found::Ends(main) = found {
        fill_orders(main, joint);
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
    if let (Found::Worth(main), Found::Worth(centre)) = (&*found, joint.centre.clone()) {
        let all = joint.points.iter_mut().map(|point| &mut point.answer);
        for at in all.chain([&mut joint.centre]) {
            if let Found::Worth(at) = at {
                worth::retell(main, &centre, at);
            }
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
        if let Some(Band { low, high }) = joint.band_of(number.value, centre, &at) {
            (number.low, number.high) = (low, high);
        }
    }
}

/// A tuned build at a point.
fn tuned_of(found: &Found, at: usize) -> Option<&TunedBuild> {
    match found {
        Found::Tune(tuned) => tuned.builds.get(at),
        _ => None,
    }
}

/// In what share of what is not known something holds that each point says with 1 or
/// 0; `own` where none does.
fn share_of(
    joint: &Joint<Found>,
    own: Option<f64>,
    read: impl Fn(&Found) -> Option<f64>,
) -> Option<f64> {
    let told: Vec<(bool, f64)> = joint
        .points
        .iter()
        .filter_map(|point| Some((read(&point.answer)? > 0.5, point.weight)))
        .collect();
    Standing::of(&told).map_or(own, |standing| Some(standing.share))
}

/// Gives each end its band, and the share in which the front end does more.
fn fill_orders(main: &mut SquareEnds, joint: &Joint<Found>) {
    for (at, order) in main.orders.iter_mut().enumerate() {
        let of = |found: &Found| match found {
            Found::Ends(ends) => ends.orders.get(at).copied(),
            _ => None,
        };
        order.front = joint.banded(order.front.value, |found| Some(of(found)?.front.value));
        order.nock = joint.banded(order.nock.value, |found| Some(of(found)?.nock.value));
        order.front_larger = share_of(joint, order.front_larger, |found| of(found)?.front_larger);
    }
    ends::retell_orders(main);
}

/// Tells in what share of what is not known the bare shaft lands to the left.
fn fill_left_in(
    build: &mut TunedBuild,
    joint: &Joint<Found>,
    of: impl Fn(&Found) -> Option<&TunedBuild>,
) {
    for (at, mark) in build.bare.iter_mut().enumerate() {
        mark.left_in = share_of(joint, mark.left_in, |found| of(found)?.bare.get(at)?.left_in);
    }
    for (which, trend) in build.trends.iter_mut().enumerate() {
        for (value, point) in trend.points.iter_mut().enumerate() {
            for (at, left_in) in point.left_in.iter_mut().enumerate() {
                let read = |found: &Found| {
                    let point = of(found)?.trends.get(which)?.points.get(value)?;
                    point.left_in.get(at).copied().flatten()
                };
                *left_in = share_of(joint, *left_in, read);
            }
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
