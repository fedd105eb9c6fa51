//! What the faults of the ends do on their own.

use target::{Estimate, Group, PowerTest};

use super::compare::{carried, seen, shots};
use super::trade;
use crate::group_cache::GroupCache;
use crate::one::cause_flights;
use crate::paired::{Blocks, sigma_ratio};
use crate::quantile::middle;
use crate::sample::Sample;
use crate::sampler::BuildSampler;
use crate::{BuildAnswer, Compared, Owner, Seen, Setup, Shots, StudyError, TradeClaim};

/// Builds compared for what their square ends do.
#[derive(Debug, Clone, PartialEq)]
pub struct SquareEnds {
    /// The comparison.
    pub compared: Compared,
    /// The trade's claims.
    pub trade: Vec<TradeClaim>,
    /// What the ends do on their own.
    pub ends: Ends,
}

/// What the ends do on their own.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ends {
    /// The front end of the base build.
    pub front: Lever,
    /// Its nock end.
    pub nock: Lever,
    /// The base against the first other build; none where there is no other.
    pub alone: Option<EndsAlone>,
}

/// Two builds whose arrows have no faults but those of their ends, at the
/// farthest distance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndsAlone {
    /// R50 of the base from a machine, m.
    pub base_r50: Estimate,
    /// R50 of the other from a machine, m.
    pub other_r50: Estimate,
    /// Sigma of the base over sigma of the other, from a machine; none when
    /// only the other's group is a point.
    pub machine_ratio: Option<Estimate>,
    /// The same from the archer, the variance of form added to that of the
    /// ends.
    pub archer_ratio: Option<Estimate>,
    /// Shots with each build until a machine can tell.
    pub machine_shots: Shots,
    /// Shots with each build until the archer can tell.
    pub archer_shots: Shots,
    /// The verdict.
    pub seen: Seen,
}

/// What the drawn faults of one end do to an arrow before it is shot, each the
/// median over the arrows, and how far its fit lets it go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lever {
    /// Groove, where the string pushes, off the principal axis, m.
    pub groove_offset: f64,
    /// Balance point off the shaft's line, m.
    pub balance_offset: f64,
    /// Rear shaft tilted to the principal axis, rad.
    pub shaft_tilt: f64,
    /// Point tilted to the principal axis, rad.
    pub point_tilt: f64,
    /// How far the fit lets the part in that end of the shaft lean, rad; none
    /// where nothing limits it.
    pub lean_limit: Option<f64>,
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
    let trade = trade::claims(range, &compared.builds, &compared.pairs, &ends)?;
    Ok(SquareEnds { compared, trade, ends })
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
    Ok(groups * some)
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
    trade::retell(main, centre, at);
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
