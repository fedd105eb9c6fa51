//! What the faults of the ends do on their own.

pub(crate) mod answer;
pub(crate) mod order;
pub(crate) mod trade;

use target::{Estimate, Group, PowerTest};

use self::answer::{Ends, EndsAlone, Lever};
use self::order::EndsOrder;
use self::trade::TradeClaim;
use crate::group_cache::GroupCache;
use crate::one::cause_flights;
use crate::paired::{Blocks, sigma_ratio};
use crate::quantile::middle;
use crate::sample::Sample;
use crate::sampler::BuildSampler;
use crate::seen::{carried, seen, shots};
use crate::{BuildAnswer, Compared, Owner, Setup, StudyError};

/// Builds compared for what their square ends do.
#[derive(Debug, Clone, PartialEq)]
pub struct SquareEnds {
    /// The comparison.
    pub compared: Compared,
    /// The trade's claims.
    pub trade: Vec<TradeClaim>,
    /// What the ends do on their own.
    pub ends: Ends,
    /// Which end does more, as the arrow is and under fixed blades.
    pub orders: Vec<EndsOrder>,
}

/// The cases whose ends are held against each other.
const BASE: usize = 0;
const OTHER: usize = 1;
/// Groove offset, balance offset, shaft tilt, point tilt.
const LEVERS: usize = 4;

/// The trade's claims on compared builds, and what decides them.
pub(crate) fn found(
    range: &mut GroupCache,
    compared: Compared,
    power_test: &PowerTest,
) -> Result<SquareEnds, StudyError> {
    let ends = ends(range, &compared.builds, power_test)?;
    let orders = order::orders(range, BASE, cause_flights(compared.builds[BASE].flights))?;
    let trade = trade::claims(range, &compared, ends.alone, &orders)?;
    Ok(SquareEnds { compared, trade, ends, orders })
}

/// Levers of the base build, and base against the first other build with the
/// ends alone at fault.
fn ends(
    range: &mut GroupCache,
    builds: &[BuildAnswer],
    power_test: &PowerTest,
) -> Result<Ends, StudyError> {
    let flights = cause_flights(builds[0].flights);
    let front = lever(range, Owner::FrontEnd, flights)?;
    let nock = lever(range, Owner::NockEnd, flights)?;
    let alone =
        if builds.len() > 1 { Some(alone(range, builds, power_test, flights)?) } else { None };
    Ok(Ends { front, nock, alone })
}

/// Flights that this takes besides those of the answer for each build.
pub(crate) fn flights(range: &GroupCache, group: usize) -> Result<usize, StudyError> {
    let some = cause_flights(group);
    let groups = match range.rigs.len() {
        0 | 1 => 0,
        _ if range.origin(OTHER, Sample::Ends)? == OTHER => 2,
        _ => 1,
    };
    Ok(groups * some + order::flights(range, BASE, some))
}

/// Claims at a point told anew, from ratios carried over from the many flights
/// of the answer. The comparison itself is told anew before.
pub(crate) fn retell(
    main: &SquareEnds,
    centre: &SquareEnds,
    at: &mut SquareEnds,
    power_test: &PowerTest,
) {
    if let (Some(main), Some(centre), Some(at)) =
        (main.ends.alone, centre.ends.alone, at.ends.alone.as_mut())
    {
        at.machine_ratio = carried(main.machine_ratio, centre.machine_ratio, at.machine_ratio);
        at.machine_shots = shots(at.machine_ratio, power_test);
        at.archer_ratio = carried(main.archer_ratio, centre.archer_ratio, at.archer_ratio);
        at.archer_shots = shots(at.archer_ratio, power_test);
        at.seen = seen(at.archer_shots, at.machine_shots);
    }
    retell_claims(at);
}

/// Claims on the two ends told anew from the share in which each does more.
pub(crate) fn retell_orders(main: &mut SquareEnds) {
    for told in main.orders.iter().map(trade::front_outweighs_nock) {
        if let Some(claim) = main.trade.iter_mut().find(|claim| claim.claim == told.claim) {
            *claim = told;
        }
    }
}

/// Claims at a point told anew from what is carried over from the many flights
/// of the answer.
fn retell_claims(at: &mut SquareEnds) {
    let told = trade::machine_claims(&at.compared.pairs, at.ends.alone);
    for claim in &mut at.trade {
        if let Some(anew) = told.iter().find(|told| told.claim == claim.claim) {
            *claim = anew.clone();
        }
    }
}

fn alone(
    range: &mut GroupCache,
    builds: &[BuildAnswer],
    power_test: &PowerTest,
    flights: usize,
) -> Result<EndsAlone, StudyError> {
    let far = range.settings.distances.len() - 1;
    let mut group =
        |case| Ok::<_, StudyError>(range.group(case, Sample::Ends, flights)?[far].clone());
    let groups = [group(BASE)?, group(OTHER)?];
    let stats = [Group::of(&groups[0])?, Group::of(&groups[1])?];
    let blocks = Blocks::new(flights, range.settings.arrows);
    let machine_ratio = sigma_ratio(&groups[0], &groups[1], blocks)?;
    let machine_shots = shots(machine_ratio, power_test);
    // Form and faults are independent, so their variances add.
    let full = |at: usize| {
        let form = builds[[BASE, OTHER][at]].marks[far].form.stats.sigma.value;
        form.hypot(stats[at].sigma.value)
    };
    let archer_ratio = point_ratio(full(0), full(1));
    let archer_shots = shots(archer_ratio, power_test);
    Ok(EndsAlone {
        base_r50: stats[0].r50,
        other_r50: stats[1].r50,
        machine_ratio,
        archer_ratio,
        machine_shots,
        archer_shots,
        seen: seen(archer_shots, machine_shots),
    })
}

/// A ratio of sigmas without an interval; none to a point, 1 of two points.
fn point_ratio(a: f64, b: f64) -> Option<Estimate> {
    let value = match (a > 0.0, b > 0.0) {
        (true, false) => return None,
        (false, false) => 1.0,
        _ => a / b,
    };
    Some(Estimate { value, low: value, high: value })
}

fn lever(range: &mut GroupCache, owner: Owner, flights: usize) -> Result<Lever, StudyError> {
    let take = Sample::Only(owner);
    let sampler = &range.rigs[BASE];
    let limits = arrow::lean_limits(&sampler.sighted.setup.parts);
    let limit = if owner == Owner::NockEnd { limits.nock } else { limits.front };
    let [groove_offset, balance_offset, shaft_tilt, point_tilt] =
        sizes(range, sampler, take, flights)?;
    let lean_limit = limit.map(units::Angle::si);
    Ok(Lever { groove_offset, balance_offset, shaft_tilt, point_tilt, lean_limit })
}

/// Medians of the levers that what is drawn adds to what is fixed; zero where
/// nothing is drawn.
fn sizes(
    range: &GroupCache,
    sampler: &BuildSampler,
    take: Sample,
    arrows: usize,
) -> Result<[f64; LEVERS], StudyError> {
    if sampler.variant.draws(take).next().is_none() {
        return Ok([0.0; LEVERS]);
    }
    let fixed = levers(sampler, &sampler.variant.undrawn(take)?)?;
    let mut drawn = sampler.drawn(take, &range.settings);
    let mut sizes: [Vec<f64>; LEVERS] = Default::default();
    for flight in 0..arrows {
        let one = levers(sampler, &sampler.setup(&mut drawn, flight)?)?;
        for ((sizes, one), fixed) in sizes.iter_mut().zip(one).zip(fixed) {
            sizes.push((one.0 - fixed.0).hypot(one.1 - fixed.1));
        }
    }
    Ok(sizes.map(|sizes| middle(sizes).unwrap_or_default()))
}

/// The levers of an arrow as it lies on the string, each to the left and up.
fn levers(sampler: &BuildSampler, setup: &Setup) -> Result<[(f64, f64); LEVERS], StudyError> {
    let built = arrow::build(&setup.parts, &setup.faults)
        .map_err(|source| StudyError::Arrow { who: sampler.variant.tag().who(), source })?;
    let e = built.effects;
    let all = [e.groove_offset, e.balance_offset, e.shaft_tilt, e.point_tilt];
    Ok(all.map(|lever| lever.left_up(setup.index.si())))
}
