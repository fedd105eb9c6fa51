//! How the push leaves the arrow, and what would bring it nearer neutral.
//! Model card: docs/model/tuning.md.

pub(crate) mod answer;
pub(crate) mod bench;
mod clearance;
mod paper;
pub(crate) mod pin;
mod scan;
mod trends;
mod turn;

use std::sync::atomic::AtomicUsize;

use units::Length;

use self::bench::{Places, UndrawnShots, less, side, swing};
use crate::sampler::RunSettings;
use crate::sightin::checked;
use crate::variant::Variant;
use crate::{
    Banded, BareMark, Clearance, Nearest, Offset, Plan, StudyError, Tune, Tuned, TunedBuild, Turn,
    Turns, Watch,
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
        watch.planned(planned(tune));
        builds.push(build(bench, &benches[0], tune, &paper, (&settings, plan.flights))?);
    }
    let tuned = Tuned { distances: plan.distances.clone(), builds };
    Ok((tuned, flown.into_inner()))
}

/// Shots of a build: its own, and those of the trends.
fn planned(tune: &Tune) -> u64 {
    let points: usize = tune.trends.iter().map(|sweep| sweep.values.len()).sum();
    points as u64 + 1
}

fn build(
    bench: &UndrawnShots,
    first: &UndrawnShots,
    tune: &Tune,
    paper: &[f64],
    (settings, flights): (&RunSettings, usize),
) -> Result<TunedBuild, StudyError> {
    let shot = bench.shot(None)?;
    let Some(vanes) = shot.setup.parts.vanes else {
        return Err(StudyError::NoVanes { build: bench.variant.name.to_owned() });
    };
    bench.watch.done(1);
    let marks = bench.distances.len();
    let home = bench.impacts_at(&shot)?;
    let passes = bench.clearance(&shot)?;
    let clearance = Clearance { riser: passes.riser.map(nearest), rest: passes.rest.map(nearest) };
    let bare = bench.bare(&shot)?;
    let apart = offsets(&less(&bench.impacts_at(&bare)?, &home));
    let taped = bench.apart(&shot, &bench.taped(&shot)?)?;
    let trends =
        tune.trends.iter().map(|sweep| bench.trend(sweep)).collect::<Result<Vec<_>, _>>()?;
    let now: Vec<Option<f64>> =
        apart.iter().map(|apart| Some(apart.as_ref()?.size.value)).collect();
    let tears = bench.tears(&shot, paper)?;
    let tear = |(at, torn): (usize, &Option<paper::Torn>)| {
        Some(torn.as_ref()?.tear(paper[at], vanes.count))
    };
    let turns = bench.turns(&shot, &home)?;
    let outside = shot.setup.parts.shaft.outside.si() / 2.0;
    let bow = &shot.setup.bow;
    let flicked = bow.release.left.si() != 0.0;
    Ok(TunedBuild {
        name: bench.variant.name.to_owned(),
        built: shot.built.clone(),
        departure: shot.departure,
        swing: swing(&shot),
        side: bow.rest.side,
        flicked,
        straight: !flicked && bow.path.left.si() == 0.0,
        shaft_radius: outside,
        vane_radius: outside + vanes.span.si(),
        bare_mass: bare.built.mass.mass().si(),
        bare: (0..marks)
            .map(|at| BareMark {
                distance: Length::from_si(bench.distances[at]),
                apart: apart[at],
                taped: taped[at],
                left_in: apart[at].and_then(|apart| side(apart.left.value)),
            })
            .collect(),
        paper: tears.iter().enumerate().filter_map(tear).collect(),
        neutral: trends::neutral(&now, &trends),
        trends,
        against: against(bench, first)?,
        clearance,
        turns: Turns {
            steps: turn::steps(&shot.setup)
                .into_iter()
                .zip(turns)
                .map(|(angle, moved)| Turn { angle, moved: offsets(&moved) })
                .collect(),
            drawn: bench.drawn_turns(settings, shot.pitch, flights)?,
        },
        uncertain: bench.uncertain(),
    })
}

fn nearest(pass: clearance::Pass) -> Nearest {
    let clearance::Pass { gap, travel, station, clock, after } = pass;
    Nearest { gap: Banded::sure(gap), travel, station, clock, after }
}

/// Places as offsets.
fn offsets(places: &Places) -> Vec<Option<Offset>> {
    places.iter().map(|place| Some(Offset::new((*place)?))).collect()
}

/// Impacts of a build less those of the first, both with the first one's aim.
fn against(bench: &UndrawnShots, first: &UndrawnShots) -> Result<Vec<Option<Offset>>, StudyError> {
    if std::ptr::eq(bench, first) {
        return Ok(Vec::new());
    }
    let (base, own) = (first.shot(None)?, bench.shot(None)?);
    let other = bench.aimed(own.setup, base.pitch)?;
    Ok(offsets(&less(&bench.impacts_at(&other)?, &first.impacts_at(&base)?)))
}
