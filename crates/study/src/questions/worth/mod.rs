//! What bench steps would bring. Model card: docs/model/bench-steps.md.

pub(crate) mod answer;

use target::{Estimate, Group};

use self::answer::{Done, DoneMark, GreedyStep, WorthBuild, WorthOfSteps};
use crate::enough::check;
use crate::group_cache::Columns;
use crate::paired::{Blocks, gain, sigma_ratio};
use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::score::Judge;
use crate::seen::carried;
use crate::sightin::checked;
use crate::variant::Variant;
use crate::{Build, Nominal, Plan, Recipe, StudyError, Watch, Worth};

/// Steps at most. Chosen: every three of them are tried.
pub const MOST_STEPS: usize = 12;
/// Steps tried in every combination. Chosen: what a builder will do in an
/// evening.
const TOGETHER: usize = 3;

/// What a longer choice must add to stand on the front, over the gain of all
/// steps. Chosen: nobody works longer for less than a hundredth of it.
const WORTHWHILE: f64 = 0.01;

/// Answers a question for the worth of steps. An answer that was found `before`
/// says which sets are tried and in which order, so that the two answers speak of
/// the same things.
pub(crate) fn run(
    plan: &Plan,
    asked: &Worth,
    before: Option<&WorthOfSteps>,
    watch: &dyn Watch,
) -> Result<(WorthOfSteps, usize), StudyError> {
    let distances = checked(&plan.distances)?;
    check(plan)?;
    let steps = asked.steps.len();
    if !(1..=MOST_STEPS).contains(&steps) {
        return Err(StudyError::StepCount { steps, most: MOST_STEPS });
    }
    for step in &asked.steps {
        let seconds = step.time.si();
        if !(seconds.is_finite() && seconds > 0.0) {
            return Err(StudyError::StepTime { step: step.name.clone(), seconds });
        }
    }
    let settings =
        RunSettings { seed: plan.seed, arrows: plan.arrows, distances: &distances, watch };
    let judge = Judge::new(&plan.target)?;
    let mut builds = Vec::with_capacity(plan.builds.len());
    let mut flown = 0;
    for (at, build) in plan.builds.iter().enumerate() {
        let before = before.and_then(|before| before.builds.get(at));
        let (found, flights) = weigh(build, (asked, &judge), before, plan.flights, &settings)?;
        builds.push(found);
        flown += flights;
    }
    let bench =
        WorthOfSteps { distances: plan.distances.clone(), steps: asked.steps.clone(), builds };
    Ok((bench, flown))
}

/// A group flown, and the nominal arrow of its build at each distance.
struct Flown {
    columns: Columns,
    nominal: Vec<Nominal>,
    hits: Vec<f64>,
}

/// A build at the bench: groups flown for sets of steps.
struct Trial<'a> {
    build: &'a Build,
    /// Its arrows before any step: steps that leave the nominal arrow as it is
    /// share its sight and its push.
    base: [BuildSampler<'a>; 1],
    asked: &'a Worth,
    judge: &'a Judge,
    settings: &'a RunSettings<'a>,
    flights: usize,
    flown: usize,
}

impl Trial<'_> {
    /// The group after some steps, flown with the same chances as any other.
    fn fly(&mut self, steps: &[usize], take: Sample) -> Result<Flown, StudyError> {
        let after;
        let recipe: &dyn Recipe = if steps.is_empty() {
            self.build.recipe.as_ref()
        } else {
            after = self
                .build
                .recipe
                .after(steps)
                .ok_or_else(|| StudyError::NoSteps { build: self.build.name.clone() })?;
            after.as_ref()
        };
        let variant = Variant::new(&self.build.name, recipe);
        let sampler = BuildSampler::beside(&self.base, variant, self.settings.distances)?;
        self.flown += sampler.distinct(take, self.flights);
        let columns = sampler.fly(take, 0..self.flights, self.settings)?;
        let nominal = sampler.sighted.marks.clone();
        let shaft = sampler.sighted.setup.parts.shaft.outside;
        let hits = columns.iter().map(|column| Ok(self.judge.judge(column, shaft)?.0.value));
        let hits = hits.collect::<Result<_, StudyError>>()?;
        Ok(Flown { columns, nominal, hits })
    }

    fn done(&self, steps: &[usize], before: &Flown, after: &Flown) -> Result<Done, StudyError> {
        let blocks = Blocks::new(self.flights, self.settings.arrows);
        let mark = |place: usize| -> Result<DoneMark, StudyError> {
            let (before, nominal) = (&before.columns[place], after.nominal[place]);
            let (after, hit) = (&after.columns[place], after.hits[place]);
            let (old, flown) = (Group::of(before)?.r50, Group::of(after)?.r50);
            let flown_gain = gain(old.value - flown.value, before, after, blocks)?;
            let ratio = sigma_ratio(before, after, blocks)?;
            let (r50, gain) = match ratio {
                None => (exact(0.0), exact(old.value)),
                Some(ratio) if ratio.value > 0.0 => (scaled(old, ratio.value), gained(old, ratio)),
                // From a point there is no ratio that says how far.
                Some(_) => (flown, flown_gain),
            };
            let Nominal { drop, speed, .. } = nominal;
            Ok(DoneMark { r50, gain, ratio, flown, flown_gain, hit, drop, speed })
        };
        let of = |step: &usize| &self.asked.steps[*step];
        Ok(Done {
            steps: steps.to_vec(),
            time: steps.iter().map(|step| of(step).time.si()).sum(),
            cost: steps.iter().map(|step| of(step).cost).sum(),
            marks: (0..before.columns.len()).map(mark).collect::<Result<_, _>>()?,
        })
    }
}

fn exact(value: f64) -> Estimate {
    Estimate { value, low: value, high: value }
}

/// R50 after, the group keeping its shape.
fn scaled(before: Estimate, ratio: f64) -> Estimate {
    let Estimate { value, low, high } = before;
    Estimate { value: value / ratio, low: low / ratio, high: high / ratio }
}

/// R50 before less R50 after, the group keeping its shape.
fn gained(before: Estimate, ratio: Estimate) -> Estimate {
    let at = |ratio: f64| before.value * (1.0 - 1.0 / ratio);
    Estimate { value: at(ratio.value), low: at(ratio.low), high: at(ratio.high) }
}

/// An answer of few flights at a point, told anew from the many of the answer:
/// ratios are carried over, and what follows from them with the intervals of many
/// flights.
pub(crate) fn retell(main: &WorthOfSteps, centre: &WorthOfSteps, at: &mut WorthOfSteps) {
    for ((main, centre), at) in main.builds.iter().zip(&centre.builds).zip(&mut at.builds) {
        retell_all(&main.tried, &centre.tried, &mut at.tried);
        retell_all(&main.machine, &centre.machine, &mut at.machine);
        let mut now = 0;
        for (main, link) in main.chain.iter().zip(&mut at.chain) {
            for (place, (main, gain)) in main.gain.iter().zip(&mut link.gain).enumerate() {
                let r50 = |done: usize| at.tried[done].marks[place].r50.value;
                let value = r50(now) - r50(link.done);
                let (below, above) = (main.value - main.low, main.high - main.value);
                *gain = Estimate { value, low: value - below, high: value + above };
            }
            now = link.done;
        }
    }
}

fn retell_all(main: &[Done], centre: &[Done], at: &mut [Done]) {
    let Some((first, centre_first, at_first)) =
        main.first().zip(centre.first()).zip(at.first()).map(|((m, c), a)| (m, c, a.clone()))
    else {
        return;
    };
    for ((main, centre), at) in main.iter().zip(centre).zip(at) {
        let marks = main.marks.iter().zip(&centre.marks).zip(&mut at.marks).enumerate();
        for (place, ((main, centre), at)) in marks {
            let few = |done: &Done| done.marks[place].flown.value;
            let old = first.marks[place].flown;
            let moved = few(&at_first) / few(centre_first);
            // A group that is a point has no ratio to carry.
            if !(moved.is_finite() && moved > 0.0) {
                continue;
            }
            let Estimate { value, low, high } = old;
            let old = Estimate { value: value * moved, low: low * moved, high: high * moved };
            at.ratio = carried(main.ratio, centre.ratio, at.ratio);
            if let Some(ratio) = at.ratio.filter(|ratio| ratio.value > 0.0) {
                (at.r50, at.gain) = (scaled(old, ratio.value), gained(old, ratio));
            }
        }
    }
}

/// Everything tried with one build, and how many flights that took.
fn weigh(
    build: &Build,
    (asked, judge): (&Worth, &Judge),
    like: Option<&WorthBuild>,
    flights: usize,
    settings: &RunSettings,
) -> Result<(WorthBuild, usize), StudyError> {
    let count = asked.steps.len();
    let far = settings.distances.len() - 1;
    let base = [BuildSampler::new(Variant::of(build), settings.distances)?];
    let mut trial = Trial { build, base, asked, judge, settings, flights, flown: 0 };
    let sets = sets(count);
    let longer = count.saturating_sub(TOGETHER);
    let groups = sets.len() + longer * (longer + 1) / 2 + count.min(TOGETHER) + (count + 2);
    settings.watch.planned((groups * flights) as u64);

    let before = trial.fly(&[], Sample::Full)?;
    let mut tried = vec![trial.done(&[], &before, &before)?];
    for steps in &sets[1..] {
        let after = trial.fly(steps, Sample::Full)?;
        tried.push(trial.done(steps, &before, &after)?);
    }
    let order = match like {
        None => order(&mut trial, &before, &mut tried, far)?,
        Some(like) => {
            for done in like.tried.iter().skip(sets.len()) {
                let after = trial.fly(&done.steps, Sample::Full)?;
                tried.push(trial.done(&done.steps, &before, &after)?);
            }
            like.chain.iter().map(|link| (link.step, None)).collect()
        }
    };
    let chain = chain(&mut trial, order, &tried, before)?;
    let machine_before = trial.fly(&[], Sample::Machine)?;
    let mut machine = vec![trial.done(&[], &machine_before, &machine_before)?];
    let alone = (0..count).map(|step| vec![step]);
    for steps in alone.chain([(0..count).collect()]) {
        let after = trial.fly(&steps, Sample::Machine)?;
        machine.push(trial.done(&steps, &machine_before, &after)?);
    }
    let value = |at: &usize| tried[*at].marks[far].gain.value;
    let three = (0..tried.len()).filter(|at| tried[*at].steps.len() == TOGETHER.min(count));
    let best = three.max_by(|a, b| value(a).total_cmp(&value(b))).unwrap_or_default();
    let all = find(&tried, &(0..count).collect::<Vec<_>>()).unwrap_or_default();
    let built = Variant::of(build).shooter(Sample::Nominal)?.built;
    Ok((
        WorthBuild {
            name: build.name.clone(),
            built,
            flights,
            front: like.map_or_else(
                || front(&tried, far, tried[all].marks[far].gain.value),
                |like| like.front.clone(),
            ),
            best: like.map_or(best, |like| like.best),
            all,
            tried,
            machine,
            chain,
        },
        trial.flown,
    ))
}

/// No step, and every combination of up to three.
fn sets(count: usize) -> Vec<Vec<usize>> {
    let mut sets = vec![Vec::new()];
    let mut last = sets.clone();
    for _ in 0..TOGETHER.min(count) {
        let grown = |set: &Vec<usize>| {
            let from = set.last().map_or(0, |last| last + 1);
            (from..count).map(|step| [&set[..], &[step]].concat()).collect::<Vec<_>>()
        };
        last = last.iter().flat_map(grown).collect();
        sets.extend(last.clone());
    }
    sets
}

fn find(tried: &[Done], steps: &[usize]) -> Option<usize> {
    tried.iter().position(|done| done.steps == steps)
}

/// The steps in the order in which each brings most for its time at a
/// distance, after those before it; sets not yet tried are tried, and what was flown
/// with the chosen ones of these comes along.
fn order(
    trial: &mut Trial,
    before: &Flown,
    tried: &mut Vec<Done>,
    far: usize,
) -> Result<Vec<(usize, Option<Flown>)>, StudyError> {
    let count = trial.asked.steps.len();
    let mut order: Vec<(usize, Option<Flown>)> = Vec::with_capacity(count);
    let mut now = 0;
    while order.len() < count {
        let mut best: Option<(f64, usize, usize, Option<Flown>)> = None;
        for step in 0..count {
            if order.iter().any(|(done, _)| *done == step) {
                continue;
            }
            let mut steps = tried[now].steps.clone();
            steps.push(step);
            steps.sort_unstable();
            let (at, flown) = if let Some(at) = find(tried, &steps) {
                (at, None)
            } else {
                let after = trial.fly(&steps, Sample::Full)?;
                tried.push(trial.done(&steps, before, &after)?);
                (tried.len() - 1, Some(after))
            };
            let gained = tried[now].marks[far].r50.value - tried[at].marks[far].r50.value;
            let rate = gained / trial.asked.steps[step].time.si();
            if best.as_ref().is_none_or(|(most, ..)| rate > *most) {
                best = Some((rate, step, at, flown));
            }
        }
        let Some((_, step, at, flown)) = best else { break };
        order.push((step, flown));
        now = at;
    }
    Ok(order)
}

/// The way through the steps, with what each adds.
fn chain(
    trial: &mut Trial,
    order: Vec<(usize, Option<Flown>)>,
    tried: &[Done],
    mut before: Flown,
) -> Result<Vec<GreedyStep>, StudyError> {
    let mut links = Vec::with_capacity(order.len());
    let mut steps: Vec<usize> = Vec::new();
    let mut now = 0;
    for (step, flown) in order {
        steps.push(step);
        steps.sort_unstable();
        let after = match flown {
            Some(flown) => flown,
            None => trial.fly(&steps, Sample::Full)?,
        };
        let blocks = Blocks::new(trial.flights, trial.settings.arrows);
        let groups = tried[now].marks.iter().zip(before.columns.iter().zip(&after.columns));
        let gain = groups.map(|(mark, (before, after))| {
            let ratio = sigma_ratio(before, after, blocks)?;
            let old = mark.r50;
            Ok::<_, StudyError>(match ratio {
                None => exact(old.value),
                Some(ratio) if ratio.value > 0.0 => gained(old, ratio),
                Some(_) => exact(0.0),
            })
        });
        let gain = gain.collect::<Result<_, _>>()?;
        now = find(tried, &steps).unwrap_or_default();
        links.push(GreedyStep { step, done: now, gain });
        before = after;
    }
    Ok(links)
}

/// Sets whose gain shows and that no other beats in both time and R50, `all`
/// being the gain of all steps.
fn front(tried: &[Done], far: usize, all: f64) -> Vec<usize> {
    let r50 = |at: usize| tried[at].marks[far].r50.value;
    let shows = |at: &usize| tried[*at].marks[far].gain.low > 0.0;
    let mut by_time: Vec<usize> = (0..tried.len()).filter(shows).collect();
    by_time.sort_by(|a, b| {
        tried[*a].time.total_cmp(&tried[*b].time).then(r50(*a).total_cmp(&r50(*b)))
    });
    let mut least = f64::INFINITY;
    by_time.retain(|at| {
        let better = r50(*at) < least - WORTHWHILE * all.max(0.0);
        if better {
            least = r50(*at);
        }
        better
    });
    by_time
}
