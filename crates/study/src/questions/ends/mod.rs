//! What the faults of the ends do on their own.

pub(crate) mod answer;
pub(crate) mod order;
pub(crate) mod trade;

use target::{Estimate, Group, PowerTest};

use self::answer::{Ends, EndsAlone, Lever};
use self::order::EndsOrder;
use self::trade::TradeClaim;
use crate::group_bands::{self, bands};
use crate::group_cache::GroupCache;
use crate::one::cause_flights;
use crate::paired::{Blocks, sigma_ratio};
use crate::quantile::middle;
use crate::sample::Sample;
use crate::sampler::BuildSampler;
use crate::seen::{seen, shots};
use crate::{BuildAnswer, Compared, Owner, Setup, StudyError, UncertainParameter};

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
/// How the keys of fits end.
const FIT: &str = ".clearance";
/// How the keys of the nock begin; any other fit is at the front end.
const NOCK: &str = "arrow.nock.";
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
    let fits = |owner| fits(&range.rigs[BASE], owner).count();
    let fits = fits(Owner::FrontEnd) + fits(Owner::NockEnd);
    let groups = match range.rigs.len() {
        0 | 1 => 0,
        _ if range.origin(OTHER, Sample::Ends)? == OTHER => 2,
        _ => 1,
    };
    Ok(groups * some + group_bands::flights(fits, some) + order::flights(range, BASE, some))
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
    let archer_shots = shots(point_ratio(full(0), full(1)), power_test);
    Ok(EndsAlone {
        base_r50: stats[0].r50,
        other_r50: stats[1].r50,
        machine_ratio,
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

/// The fits in doubt at one end.
fn fits<'a>(
    sampler: &BuildSampler<'a>,
    owner: Owner,
) -> impl Iterator<Item = &'a UncertainParameter> {
    let of = |key: &str| if key.starts_with(NOCK) { Owner::NockEnd } else { Owner::FrontEnd };
    sampler
        .variant
        .uncertain()
        .filter(move |doubt| doubt.key.ends_with(FIT) && of(&doubt.key) == owner)
}

fn lever(range: &mut GroupCache, owner: Owner, flights: usize) -> Result<Lever, StudyError> {
    let take = Sample::Only(owner);
    let fits: Vec<&UncertainParameter> = fits(&range.rigs[BASE], owner).collect();
    let fit_band = if fits.is_empty() {
        None
    } else {
        let bands = bands(range, BASE, take, fits.into_iter(), flights)?;
        let far = range.settings.distances.len() - 1;
        let column = &range.group(BASE, take, flights)?[far][..flights];
        let r50 = Group::of(column)?.r50.value;
        bands.r50.last().map(|(less, more)| (r50 * less, r50 * more))
    };
    let sampler = &range.rigs[BASE];
    let limits = arrow::lean_limits(&sampler.sighted.setup.parts);
    let limit = if owner == Owner::NockEnd { limits.nock } else { limits.front };
    let [groove_offset, balance_offset, shaft_tilt, point_tilt] =
        sizes(range, sampler, take, flights)?;
    let lean_limit = limit.map(units::Angle::si);
    Ok(Lever { groove_offset, balance_offset, shaft_tilt, point_tilt, lean_limit, fit_band })
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
