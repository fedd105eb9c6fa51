//! Where to cut a shaft, by what the arrow then does. Model card:
//! docs/model/cut-plan.md.

use arrow::Faults;
use rayon::prelude::*;
use units::{Angle, Length};
use workbench::{Axis, Cut, CutPlan, SawJob, Seats, plan};

use super::aimed::{AimedBow, Unsure, bands, form_sigma, unsure};
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::{Banded, Recipe, Setup, StudyError, Watch};

/// Turns of the arrow under the string at which a bent one is tried. Chosen:
/// four tell any first wave.
const TURNS: u32 = 4;
/// How far apart the cuts are that are tried by impact, m. Chosen: an eighth of
/// an inch, finer than stations are read.
const STEP: f64 = 0.003_175;

/// Shafts to cut.
pub struct CutAsk<'a> {
    /// Bow, arrow and archer.
    pub recipe: &'a dyn Recipe,
    /// Distances; the last decides.
    pub distances: &'a [Length],
    /// The shafts and their names.
    pub shafts: &'a [(String, Axis)],
    /// What is to be cut.
    pub job: SawJob,
    /// Seed of the archer's own group.
    pub seed: u64,
}

/// Ways to cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WayKind {
    /// The straightest piece.
    Straightest,
    /// The piece that hits closest.
    Closest,
    /// All off the point end.
    FrontOnly,
    /// All off the nock end.
    RearOnly,
    /// Half off each end.
    Halves,
}

/// One way to cut, with what it does.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Which.
    pub kind: WayKind,
    /// The cut.
    pub cut: Cut,
    /// Root mean square distance of the impacts from their middle as the nock
    /// is turned, at each distance, m: what the bend does.
    pub ring: Vec<f64>,
    /// The last of these over the stated ranges of the doubts.
    pub band: Banded,
}

/// A shaft's plan.
#[derive(Debug, Clone, PartialEq)]
pub struct CutShaft {
    /// Its name.
    pub name: String,
    /// Its axis.
    pub axis: Axis,
    /// The plan by straightness.
    pub plan: CutPlan,
    /// Every way that shaft and saw allow; the straightest first, then the one
    /// that hits closest.
    pub ways: Vec<Way>,
}

/// Shafts with their plans.
#[derive(Debug, Clone, PartialEq)]
pub struct Cutting {
    /// Distances.
    pub distances: Vec<Length>,
    /// What is to be cut.
    pub job: SawJob,
    /// The shafts, in the order given.
    pub shafts: Vec<CutShaft>,
    /// Standard deviation of the archer's own group in one direction at each
    /// distance, m.
    pub form: Vec<f64>,
}

/// Plans the cuts of some shafts.
///
/// # Errors
/// [`StudyError`]; a shaft that cannot give the piece is named.
pub fn cut(ask: &CutAsk, watch: &dyn Watch) -> Result<Cutting, StudyError> {
    let distances = checked(ask.distances)?;
    let mut lane = AimedBow::new(ask.recipe, &distances)?;
    lane.base.parts.shaft.length = ask.job.wanted;
    let mut uncertain = unsure(ask.recipe, &distances, ask.seed, watch)?;
    for point in uncertain.iter_mut().flat_map(|joint| &mut joint.points) {
        point.answer.base.parts.shaft.length = ask.job.wanted;
    }
    let form = form_sigma(ask.recipe, &distances, ask.seed, watch)?;
    watch.planned(ask.shafts.len() as u64);
    let one = |(name, axis): &(String, Axis)| {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let named = |source| StudyError::Bench { arrow: name.clone(), source: Box::new(source) };
        let done = shaft(&lane, &uncertain, name, axis, &ask.job).map_err(named);
        watch.done(1);
        done
    };
    let shafts = all_or_first(ask.shafts.par_iter().map(one))?;
    Ok(Cutting { distances: ask.distances.to_vec(), job: ask.job, shafts, form })
}

fn shaft(
    lane: &AimedBow,
    uncertain: &Unsure,
    name: &str,
    axis: &Axis,
    job: &SawJob,
) -> Result<CutShaft, StudyError> {
    let plan = plan(axis, job)?;
    let last = |ring: &[f64]| ring.last().copied().unwrap_or(0.0);
    let way = |kind, cut: Cut, thrown: Vec<f64>| -> Result<Way, StudyError> {
        let read = |lane: &AimedBow| Ok(vec![last(&self::ring(lane, axis, job, cut.rear)?)]);
        let band = bands(&[last(&thrown)], uncertain, &read)?[0];
        Ok(Way { kind, cut, ring: thrown, band })
    };
    let ring = |cut: &Cut| ring(lane, axis, job, cut.rear);
    let plain = [
        (WayKind::Straightest, Some(plan.best)),
        (WayKind::FrontOnly, plan.front_only),
        (WayKind::RearOnly, plan.rear_only),
        (WayKind::Halves, plan.halves),
    ];
    let mut ways = Vec::new();
    for (kind, cut) in plain {
        if let Some(cut) = cut {
            ways.push(way(kind, cut, ring(&cut)?)?);
        }
    }
    // The plain ways are tried too, so the closest is no worse than they are.
    let mut closest = (ways[0].cut, ways[0].ring.clone());
    for way in &ways {
        if last(&way.ring) < last(&closest.1) {
            closest = (way.cut, way.ring.clone());
        }
    }
    for rear in tried(&plan.windows) {
        let cut = job.cut(axis, rear);
        let ring = ring(&cut)?;
        if last(&ring) < last(&closest.1) * (1.0 - 1e-9) {
            closest = (cut, ring);
        }
    }
    ways.insert(1, way(WayKind::Closest, closest.0, closest.1)?);
    Ok(CutShaft { name: name.to_owned(), axis: axis.clone(), plan, ways })
}

/// Cuts spread over the allowed stretches.
fn tried(windows: &[(f64, f64)]) -> Vec<f64> {
    let mut cuts = Vec::new();
    for &(low, high) in windows {
        let mut next = low;
        while next < high {
            cuts.push(next);
            next += STEP;
        }
        cuts.push(high);
    }
    cuts
}

/// What the bend of a piece does to the impact as its nock is turned.
fn ring(lane: &AimedBow, axis: &Axis, job: &SawJob, rear: f64) -> Result<Vec<f64>, StudyError> {
    let seats = Seats { nock: job.nock, front: job.front };
    let bent = axis.faults(rear, job.wanted.si(), &seats);
    lane.ring(TURNS, |turn| {
        let mut setup = lane.base.clone();
        crooked(&mut setup, &bent);
        setup.index = Angle::from_si(setup.index.si() + turn.si());
        setup
    })
}

/// The shaft's own faults in place of those of the scenario's arrow.
fn crooked(setup: &mut Setup, bent: &Faults) {
    let faults = &mut setup.faults;
    faults.bend = bent.bend;
    faults.nock_cant = bent.nock_cant;
    faults.groove_offset = bent.groove_offset;
    faults.point_cant = bent.point_cant;
    faults.point_offset = bent.point_offset;
}
