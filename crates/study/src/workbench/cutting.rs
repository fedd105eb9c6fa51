//! Where to cut a shaft, by what the arrow then does. Model card:
//! docs/model/cut-plan.md.

use arrow::Faults;
use rayon::prelude::*;
use units::{Angle, Length};
use workbench::{Axis, Cut, CutPlan, SawJob, Seats, plan};

use super::aimed::{AimedBow, FORM_FEW, FORM_FLIGHTS, at_points, form_sigma};
use crate::first::all_or_first;
use crate::sightin::checked;
use crate::watch::Inner;
use crate::{Joint, Recipe, Setup, Standing, StudyError, Watch};

/// Turns of the arrow under the string at which a bent one is tried. Chosen:
/// four tell any first wave.
const TURNS: u32 = 4;
/// How far apart the cuts are that are tried by impact, m. Chosen: an eighth of
/// an inch, finer than stations are read.
const STEP: f64 = 0.003_175;

/// Shafts to cut.
#[derive(Clone, Copy)]
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
}

impl Way {
    /// The last of these.
    pub fn far(&self) -> f64 {
        self.ring.last().copied().unwrap_or(0.0)
    }
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
    /// The same cuts at every outer point; none where nothing is poorly known.
    pub unknown: Option<Box<Joint<Cutting>>>,
}

impl Cutting {
    /// In what share of what is not known a way throws the impact less than the
    /// straightest; none for the straightest itself, or where nothing is poorly
    /// known.
    pub fn closer(&self, shaft: usize, way: usize) -> Option<Standing> {
        let less = |at: &Cutting| {
            let ways = at.shafts.get(shaft).map_or(&[][..], |shaft| &shaft.ways);
            ways.get(way).zip(ways.first()).is_some_and(|(way, first)| way.far() < first.far())
        };
        self.unknown.as_ref().filter(|_| way != 0)?.standing(less)
    }
}

/// Plans the cuts of some shafts.
///
/// # Errors
/// [`StudyError`]; a shaft that cannot give the piece is named.
pub fn cut(ask: &CutAsk, watch: &dyn Watch) -> Result<Cutting, StudyError> {
    let mut found = planned(ask, None, watch)?;
    found.unknown = at_points(ask.recipe, ask.seed, watch, &|recipe| {
        let ask = CutAsk { recipe, ..*ask };
        planned(&ask, Some(&found), &Inner(watch))
    })?;
    Ok(found)
}

/// The same with the poorly known values as the recipe has them; cuts chosen
/// `before` are kept.
fn planned(
    ask: &CutAsk,
    before: Option<&Cutting>,
    watch: &dyn Watch,
) -> Result<Cutting, StudyError> {
    let distances = checked(ask.distances)?;
    let mut lane = AimedBow::new(ask.recipe, &distances)?;
    lane.base.parts.shaft.length = ask.job.wanted;
    let flights = if before.is_some() { FORM_FEW } else { FORM_FLIGHTS };
    let form = form_sigma(ask.recipe, &distances, (ask.seed, flights), watch)?;
    watch.planned(ask.shafts.len() as u64);
    let one = |(at, (name, axis)): (usize, &(String, Axis))| {
        if watch.cancelled() {
            return Err(StudyError::Cancelled);
        }
        let named = |source| StudyError::Bench { arrow: name.clone(), source: Box::new(source) };
        let done = match before {
            Some(before) => again(&lane, &before.shafts[at], &ask.job),
            None => shaft(&lane, name, axis, &ask.job),
        };
        watch.done(1);
        done.map_err(named)
    };
    let shafts = all_or_first(ask.shafts.par_iter().enumerate().map(one))?;
    Ok(Cutting { distances: ask.distances.to_vec(), job: ask.job, shafts, form, unknown: None })
}

/// The ways of a shaft, its rings anew.
fn again(lane: &AimedBow, before: &CutShaft, job: &SawJob) -> Result<CutShaft, StudyError> {
    let mut shaft = before.clone();
    for way in &mut shaft.ways {
        way.ring = ring(lane, &shaft.axis, job, way.cut.rear)?;
    }
    Ok(shaft)
}

fn shaft(lane: &AimedBow, name: &str, axis: &Axis, job: &SawJob) -> Result<CutShaft, StudyError> {
    let plan = plan(axis, job)?;
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
            ways.push(Way { kind, cut, ring: ring(&cut)? });
        }
    }
    // The plain ways are tried too, so the closest is no worse than they are.
    let mut closest = ways[0].clone();
    for way in &ways {
        if way.far() < closest.far() {
            closest = way.clone();
        }
    }
    for rear in tried(&plan.windows) {
        let cut = job.cut(axis, rear);
        let way = Way { kind: WayKind::Closest, cut, ring: ring(&cut)? };
        if way.far() < closest.far() * (1.0 - 1e-9) {
            closest = way;
        }
    }
    ways.insert(1, Way { kind: WayKind::Closest, ..closest });
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
