//! How the push leaves the arrow, and what would bring it nearer neutral.
//! Model card: docs/model/tuning.md.

pub(crate) mod answer;
mod bench;
mod clearance;
mod offset;
mod paper;
pub(crate) mod pin;
mod scan;
mod side;
mod trends;
mod turn;

use std::sync::atomic::AtomicUsize;

use units::Length;

use self::bench::{Places, UndrawnShots, less, swing};
use self::offset::{Known, bands, numbers, offsets, readings};
use crate::band::{Changed, Numbers};
use crate::sampler::RunSettings;
use crate::sightin::checked;
use crate::variant::Variant;
use crate::{
    BareMark, Clearance, Nearest, Offset, Plan, StudyError, Tune, Tuned, TunedBuild, Turn, Turns,
    UncertainParameter, Watch,
};

/// Answers a tuning question; no chances but those of drawn arrows whose nocks
/// are turned.
pub(crate) fn run(
    plan: &Plan,
    tune: &Tune,
    watch: &dyn Watch,
) -> Result<(Tuned, usize), StudyError> {
    let distances = checked(&plan.distances)?;
    let paper = if tune.paper.is_empty() { Vec::new() } else { checked(&tune.paper)? };
    if plan.builds.is_empty() {
        return Err(StudyError::NoBuild);
    }
    for sweep in &tune.trends {
        super::sweep::check(sweep)?;
    }
    let flown = AtomicUsize::new(0);
    let benches: Vec<UndrawnShots> = plan
        .builds
        .iter()
        .map(|build| UndrawnShots {
            variant: Variant::of(build),
            distances: &distances,
            watch,
            flown: &flown,
        })
        .collect();
    let settings =
        RunSettings { seed: plan.seed, arrows: plan.arrows, distances: &distances, watch };
    let mut builds = Vec::with_capacity(benches.len());
    for bench in &benches {
        watch.planned(planned(bench, tune));
        builds.push(build(bench, &benches[0], tune, &paper, &settings)?);
    }
    let tuned = Tuned { distances: plan.distances.clone(), builds };
    Ok((tuned, flown.into_inner()))
}

/// Shots of a build: those of the trends, and those of the bands.
fn planned(bench: &UndrawnShots, tune: &Tune) -> u64 {
    let points: usize = tune.trends.iter().map(|sweep| sweep.values.len()).sum();
    let spines = tune.trends.iter().filter(|sweep| sweep.key == trends::SPINE);
    let sides = 1 + spines.map(|sweep| sweep.values.len() as u64).sum::<u64>();
    points as u64 + readings(&bench.uncertain()) + side::SHOTS * sides
}

fn build(
    bench: &UndrawnShots,
    first: &UndrawnShots,
    tune: &Tune,
    paper: &[f64],
    settings: &RunSettings,
) -> Result<TunedBuild, StudyError> {
    let shot = bench.shot(None, None)?;
    let Some(vanes) = shot.setup.parts.vanes else {
        return Err(StudyError::NoVanes { build: bench.variant.name.to_owned() });
    };
    let uncertain = bench.uncertain();
    let known = bands(&uncertain, &|doubt| {
        let numbers = read(bench, doubt, paper);
        bench.watch.done(1);
        numbers
    })?;
    let marks = bench.distances.len();
    let steps = turn::steps(&shot.setup);
    let mut known = known.as_slice();
    let mut take = |count: usize| -> Vec<Option<Offset>> {
        let (some, rest) = known.split_at(3 * count);
        known = rest;
        offsets(some)
    };
    let apart = take(marks);
    let torn = take(paper.len());
    let moved: Vec<Vec<Option<Offset>>> = steps.iter().map(|_| take(marks)).collect();
    let passes = bench.clearance(&shot)?;
    let clearance =
        Clearance { riser: nearest(passes.riser, known[0]), rest: nearest(passes.rest, known[1]) };
    let bare = bench.bare(&shot)?;
    let taped = bench.apart(&shot, &bench.taped(&shot)?)?;
    let left_in = bench.left_in(None)?;
    let trends =
        tune.trends.iter().map(|sweep| bench.trend(sweep)).collect::<Result<Vec<_>, _>>()?;
    let now: Numbers = apart.iter().map(|apart| apart.map(|apart| apart.size.value)).collect();
    let tears = bench.tears(&shot, paper)?;
    let tear = |(at, torn_here): (usize, &Option<paper::Torn>)| {
        Some(torn_here.as_ref()?.tear(paper[at], torn[at]?, vanes.count))
    };
    let outside = shot.setup.parts.shaft.outside.si() / 2.0;
    Ok(TunedBuild {
        name: bench.variant.name.to_owned(),
        built: shot.noted(),
        departure: shot.departure,
        swing: swing(&shot),
        shaft_radius: outside,
        vane_radius: outside + vanes.span.si(),
        bare_mass: bare.built.mass.mass().si(),
        bare: (0..marks)
            .map(|at| BareMark {
                distance: Length::from_si(bench.distances[at]),
                apart: apart[at],
                taped: taped[at],
                left_in: left_in[at],
            })
            .collect(),
        paper: tears.iter().enumerate().filter_map(tear).collect(),
        neutral: bench.neutral(&now, &tune.trends, &trends, &uncertain)?,
        trends,
        against: against(bench, first)?,
        clearance,
        turns: Turns {
            steps: steps
                .into_iter()
                .zip(moved)
                .map(|(angle, moved)| Turn { angle, moved })
                .collect(),
            drawn: bench.drawn_turns(settings, shot.pitch)?,
        },
        uncertain,
    })
}

/// Every number of a build that has a band, in the order in which [`build`]
/// takes them.
fn read(bench: &UndrawnShots, doubt: Changed, paper: &[f64]) -> Result<Numbers, StudyError> {
    let shot = bench.shot(doubt, None)?;
    let home = bench.impacts_at(&shot)?;
    let mut out = numbers(&less(&bench.impacts_at(&bench.bare(&shot)?)?, &home));
    let torn: Places =
        bench.tears(&shot, paper)?.iter().map(|torn| Some(torn.as_ref()?.nock)).collect();
    out.extend(numbers(&torn));
    for moved in bench.turns(&shot, &home)? {
        out.extend(numbers(&moved));
    }
    let passes = bench.clearance(&shot)?;
    out.extend([passes.riser.map(|pass| pass.gap), passes.rest.map(|pass| pass.gap)]);
    Ok(out)
}

fn nearest(pass: Option<clearance::Pass>, known: Known) -> Option<Nearest> {
    let (pass, (gap, _)) = (pass?, known?);
    let clearance::Pass { travel, station, clock, after, .. } = pass;
    Some(Nearest { gap, travel, station, clock, after })
}

/// Impacts of a build less those of the first, both with the first one's aim.
/// A doubt that both share is moved in both.
fn against(bench: &UndrawnShots, first: &UndrawnShots) -> Result<Vec<Option<Offset>>, StudyError> {
    if std::ptr::eq(bench, first) {
        return Ok(Vec::new());
    }
    let (of_first, of_bench) = (first.uncertain(), bench.uncertain());
    let mut uncertain: Vec<UncertainParameter> = of_first.clone();
    let known = |list: &[UncertainParameter], doubt: &UncertainParameter| {
        list.iter().any(|d| d.slot == doubt.slot)
    };
    uncertain.extend(of_bench.iter().filter(|doubt| !known(&of_first, doubt)).cloned());
    let known = bands(&uncertain, &|change| {
        let only = |list: &[UncertainParameter]| {
            change.filter(|(slot, _)| list.iter().any(|d| d.slot == *slot))
        };
        let base = first.shot(only(&of_first), None)?;
        let own = bench.shot(only(&of_bench), None)?;
        let other = bench.aimed(own.setup, base.pitch)?;
        Ok(numbers(&less(&bench.impacts_at(&other)?, &first.impacts_at(&base)?)))
    })?;
    Ok(offsets(&known))
}
