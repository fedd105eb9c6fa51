//! How many flights are enough.

use target::Group;

use crate::group_cache::GroupCache;
use crate::questions::{ends, sides};
use crate::sample::Sample;
use crate::{Plan, Question, StudyError, one};

/// Fewest flights to a group. Chosen: two to each block of the jackknife, and
/// ten impacts outside R90.
const LEAST: usize = 100;

/// Refuses a plan that cannot be flown.
pub(crate) fn check(plan: &Plan) -> Result<(), StudyError> {
    if plan.builds.is_empty() {
        return Err(StudyError::NoBuild);
    }
    let flights = first_batch(plan);
    if flights < LEAST {
        return Err(StudyError::FewFlights { flights, least: LEAST });
    }
    if plan.arrows == Some(0) {
        return Err(StudyError::NoArrow);
    }
    match plan.stop {
        Some(rule) if rule.r90_within.is_nan() || rule.r90_within <= 0.0 => {
            Err(StudyError::StopShare { share: rule.r90_within })
        }
        _ => Ok(()),
    }
}

fn first_batch(plan: &Plan) -> usize {
    plan.stop.map_or(plan.flights, |rule| plan.flights.min(rule.at_most))
}

/// Flies the full groups of all cases to one size, batch by batch until the
/// stopping rule is met in every one, and gives that size.
///
/// One size for all, because builds are compared flight by flight.
pub(crate) fn fly_enough(range: &mut GroupCache, plan: &Plan) -> Result<usize, StudyError> {
    let mut flights = first_batch(plan);
    range.settings.watch.planned(planned(range, plan, flights)? as u64);
    loop {
        let mut within = true;
        for case in 0..range.rigs.len() {
            let columns = range.group(case, Sample::Full, flights)?;
            if let Some(rule) = plan.stop {
                for column in columns {
                    let r90 = Group::of(column)?.r90;
                    within &= 0.5 * (r90.high - r90.low) <= rule.r90_within * r90.value;
                }
            }
        }
        let Some(rule) = plan.stop.filter(|rule| !within && flights < rule.at_most) else {
            return Ok(flights);
        };
        let before = planned(range, plan, flights)?;
        flights += plan.flights.min(rule.at_most - flights);
        let now = planned(range, plan, flights)?;
        range.settings.watch.planned((now - before) as u64);
    }
}

/// All flights of a run with groups of this size.
fn planned(range: &GroupCache, plan: &Plan, flights: usize) -> Result<usize, StudyError> {
    let mut count = flights * range.distinct(&[Sample::Full, Sample::Machine, Sample::Form])?;
    for case in 0..range.rigs.len() {
        for owner in one::owners(range, case) {
            if range.origin(case, Sample::Only(owner))? == case {
                count += one::cause_flights(flights);
            }
        }
    }
    count += plan.builds.len() * sides::reach_flights(plan, flights);
    if plan.question == (Question::Compare { ends: true }) {
        count += ends::flights(range, flights)?;
    }
    Ok(count)
}
