use arrow::{Built, Parts};
use body::State;
use flight::FlightEnd;
use launch::{Bow, Departure, Form, GivenDeparture, PushTrace, Reel};
use units::{Angle, Length};

use crate::alone::alone;
use crate::enough::{check, fly_enough};
use crate::group_cache::GroupCache;
use crate::questions::{compare, ends, matters, sides, sweep, tune, worth};
use crate::sample::Sample;
use crate::sampler::{BuildSampler, RunSettings};
use crate::score::Judge;
use crate::shoot::{Motion, start};
use crate::sightin::{Sighted, checked};
use crate::unknown::Point;
use crate::variant::Variant;
use crate::{
    Answer, Compared, Found, Joint, Plan, PointsFound, Question, Quiet, Recipe, SafetyAsk, Setup,
    StudyError, Swept, Watch, one, safety, whole,
};

/// Answers a question: flies everything it needs, on all cores.
///
/// The answer is the same, bit for bit, on any number of threads. A sweep is
/// answered for each value, and for the builds as they stand, with one number
/// of flights and the same chances throughout.
///
/// # Errors
/// [`StudyError::Cancelled`] when the watch ends it, unless it wants what is known and
/// that is a whole answer but for its bands. Else [`StudyError`]; a flight that fails or falls short is an error that names
/// it, the first in order when several do.
pub fn run(plan: &Plan, watch: &dyn Watch) -> Result<Answer, StudyError> {
    run_with(plan, &mut None, watch)
}

/// As [`run`], bit for bit, with what was found at the outer points of the same plan
/// with other numbers of flights; leaves there what is found now.
///
/// # Errors
/// As [`run`].
pub fn run_with(
    plan: &Plan,
    found: &mut Option<PointsFound>,
    watch: &dyn Watch,
) -> Result<Answer, StudyError> {
    let known = whole::known(plan, watch)?;
    let centred = whole::centred(plan, &known);
    watch.at_the_end(whole::flights_of(plan, &known));
    let mut answer = answered(centred.as_ref().unwrap_or(plan), None, watch)?;
    match whole::unknown(plan, &mut answer, (known, found), &answered, watch) {
        Err(StudyError::Cancelled) if watch.wants_part() => {}
        other => other?,
    }
    answer.cautions = safety::among(&SafetyAsk::all(plan), Some(&answer))?;
    Ok(answer)
}

/// The answer with the poorly known values at their own; at an outer point what was
/// found `before` says which choices it is about.
fn answered(plan: &Plan, before: Option<&Found>, watch: &dyn Watch) -> Result<Answer, StudyError> {
    let (found, flown) = match &plan.question {
        Question::Tune(asked) => asked_of(tune::run(plan, asked, watch)?, Found::Tune),
        Question::Matters(asked) => asked_of(matters::run(plan, *asked, watch)?, Found::Matters),
        Question::Worth(asked) => {
            let before = before.and_then(|before| match before {
                Found::Worth(before) => Some(before),
                _ => None,
            });
            asked_of(worth::run(plan, asked, before, watch)?, Found::Worth)
        }
        _ => side_by_side(plan, watch)?,
    };
    Ok(Answer::new(plan, flown, found))
}

/// What a question found, with its flights.
fn asked_of<T>((found, flown): (T, usize), variant: fn(T) -> Found) -> (Found, usize) {
    (variant(found), flown)
}

/// Builds compared, for their ends, or as a value is swept.
fn side_by_side(plan: &Plan, watch: &dyn Watch) -> Result<(Found, usize), StudyError> {
    let distances = checked(&plan.distances)?;
    check(plan)?;
    sides::check(plan, &distances)?;
    let judge = Judge::new(&plan.target)?;
    let settings =
        RunSettings { seed: plan.seed, arrows: plan.arrows, distances: &distances, watch };
    let mut rigs = Vec::with_capacity(plan.builds.len());
    for build in &plan.builds {
        rigs.push(BuildSampler::beside(&rigs, Variant::of(build), &distances)?);
    }
    if let Question::Sweep(swept) = &plan.question {
        sweep::check(swept)?;
        rigs.extend(sweep::rigs(plan, swept, &settings)?);
    }
    let mut range = GroupCache::new(settings, rigs);
    range.alone = plan.alone;
    let flights = fly_enough(&mut range, plan)?;
    let mut builds = Vec::with_capacity(range.rigs.len());
    for case in 0..range.rigs.len() {
        builds.push(one::answer(&mut range, case, flights, &judge)?);
    }
    let points = builds.split_off(plan.builds.len());
    let power_test = &plan.stated.power_test;
    let pairs = compare::pairs(&mut range, &builds, power_test)?;
    let found = match &plan.question {
        Question::Sweep(swept) => {
            Found::Sweep(Swept { builds, pairs, sweeps: sweep::answers(plan, swept, points) })
        }
        question => {
            let sides = sides::sides(&mut range, plan, flights, &judge)?;
            let compared = Compared { builds, pairs, sides };
            match question {
                Question::Compare { ends: true } => {
                    Found::Ends(Box::new(ends::found(&mut range, compared, power_test)?))
                }
                _ => Found::Compare(compared),
            }
        }
    };
    Ok((found, range.flown))
}

/// Answers a question on this many threads, or on all cores.
///
/// # Errors
/// As [`run`]; [`StudyError::Threads`] when the threads cannot be had.
pub fn run_on(
    plan: &Plan,
    threads: Option<usize>,
    watch: &dyn Watch,
) -> Result<Answer, StudyError> {
    let Some(threads) = threads else { return run(plan, watch) };
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
    pool.map_err(|_| StudyError::Threads { threads })?.install(|| run(plan, watch))
}

/// Does work on threads of its own: those that all share take up nothing new before they
/// are through with a long row of arrows, and whoever else asks would wait for its end.
pub fn apart<T: Send>(work: impl FnOnce() -> T + Send) -> T {
    match rayon::ThreadPoolBuilder::new().build() {
        Ok(pool) => pool.install(work),
        // A program that cannot have more threads shares those that it has.
        Err(_) => work(),
    }
}

/// The nominal arrow of a build, its sight set: nothing drawn, no faults, no
/// form error.
///
/// # Errors
/// [`StudyError`].
pub fn nominal(recipe: &dyn Recipe, distances: &[Length]) -> Result<Sighted, StudyError> {
    Variant::new("", recipe).zeroed()?.sighted(&checked(distances)?)
}

/// One arrow flown.
#[derive(Debug, Clone, PartialEq)]
pub struct OneFlight {
    /// The arrow.
    pub built: Built,
    /// Its departure.
    pub departure: Departure,
    /// From the line to the target up to the line of departure, rad.
    pub launch_pitch: f64,
    /// Its state as it leaves the string.
    pub start: State,
    /// Its state as the balance point passes each mark.
    pub states: Vec<State>,
    /// How the flight ended.
    pub end: FlightEnd,
}

/// Flies one arrow past marks of its balance point (m along the line to the
/// target, rising) with the scenario's fixed faults and form, and nothing
/// drawn. The sight is set for the nominal arrow; as a point mass if so asked.
///
/// # Errors
/// [`StudyError`]; that the arrow falls short of a mark is no error here.
pub fn fly_one(
    recipe: &dyn Recipe,
    marks: &[f64],
    point_mass: bool,
) -> Result<OneFlight, StudyError> {
    let variant = Variant::new("", recipe);
    let motion = if point_mass { Motion::Point } else { Motion::Rigid };
    let launch_pitch = variant.shooter(Sample::Nominal)?.moving(motion).zeroed()?.pitch;
    let shooter = variant.shooter(Sample::Fixed)?.moving(motion).aimed(launch_pitch);
    let flight = shooter.fly(marks)?;
    Ok(OneFlight {
        built: shooter.built.clone(),
        departure: shooter.departure,
        launch_pitch,
        start: start(&shooter.departure, launch_pitch, &shooter.setup.form),
        states: flight.marks,
        end: flight.end,
    })
}

/// Follows the push of one arrow with the scenario's fixed faults and form;
/// whatever is drawn by chance stays at its centre.
///
/// # Errors
/// [`StudyError`].
pub fn trace_push(recipe: &dyn Recipe) -> Result<PushTrace, StudyError> {
    pushed(recipe, launch::story)
}

/// How the arrow of [`trace_push`] leaves where what is poorly known is drawn; none where
/// nothing is.
///
/// # Errors
/// [`StudyError`].
pub fn push_unknown(
    recipe: &dyn Recipe,
    seed: u64,
) -> Result<Option<Joint<Departure>>, StudyError> {
    let leaves = |recipe: &dyn Recipe| pushed(recipe, launch::story).map(|push| push.departure);
    let at = |_: &Departure, point: &Point| leaves(&point.of(recipe));
    let (_, joint) = alone(recipe, (seed, PUSHES), &Quiet, leaves, at)?;
    Ok(joint.map(|joint| *joint))
}

/// Points at which a push is followed. Chosen: enough for a side and a rough band, in
/// about a second.
const PUSHES: usize = 16;

/// As [`trace_push`], keeping the whole arrow and the bow at every step.
///
/// # Errors
/// [`StudyError`].
pub fn film_push(recipe: &dyn Recipe) -> Result<Reel, StudyError> {
    pushed(recipe, launch::filmed)
}

type Follow<T> =
    fn(&Bow, &Parts, Built, Angle, &Form, &GivenDeparture) -> Result<T, launch::LaunchError>;

fn pushed<T>(recipe: &dyn Recipe, follow: Follow<T>) -> Result<T, StudyError> {
    let variant = Variant::new("", recipe);
    let Setup { parts, faults, bow, form, index, departure, .. } =
        variant.undrawn(Sample::Fixed)?;
    let who = || variant.tag().who();
    let built =
        arrow::build(&parts, &faults).map_err(|source| StudyError::Arrow { who: who(), source })?;
    follow(&bow, &parts, built, index, &form, &departure)
        .map_err(|source| StudyError::Launch { who: who(), source })
}
