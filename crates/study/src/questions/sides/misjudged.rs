//! Distance or wind misjudged: the group is as large, and elsewhere.

use target::Impact;
use units::Length;

use super::wind::{blown, crossed};
use crate::sampler::BuildSampler;
use crate::score::Judge;
use crate::{Misjudged, Misjudgement, Stated, StudyError};

/// A misjudgement and where it puts the group.
pub(super) type ImpactShift = (Misjudgement, Impact);

/// What each stated misjudgement does at each distance.
pub(super) fn shifts(
    sampler: &BuildSampler,
    stated: &Stated,
    distances: &[f64],
) -> Result<Vec<Vec<ImpactShift>>, StudyError> {
    let mut found = vec![Vec::new(); distances.len()];
    let own = sampler.sighted.setup.site.wind;
    let tips =
        |wind, marks: &[f64]| blown(&sampler.sighted, wind, sampler.variant.tag()).tips(marks);
    if let Some(error) = stated.range_error.map(Length::si) {
        let mut marks: Vec<f64> =
            distances.iter().flat_map(|d| [d - error, *d, d + error]).collect();
        marks.sort_unstable_by(f64::total_cmp);
        marks.dedup();
        let path = tips(own, &marks)?;
        // Every mark asked for below is in the list.
        let up = |mark: f64| {
            marks.binary_search_by(|m| m.total_cmp(&mark)).map_or(0.0, |at| path[at].up)
        };
        for (found, &distance) in found.iter_mut().zip(distances) {
            // The whole path is turned until it meets the line at the mark
            // that the sight was set for.
            let set_for = |mark: f64| up(distance) - up(mark) * distance / mark;
            let high = |mark| Impact { left: 0.0, up: set_for(mark) };
            found.push((Misjudgement::TooFar, high(distance + error)));
            found.push((Misjudgement::TooNear, high(distance - error)));
        }
    }
    if let Some(wind) = stated.wind_error.map(units::Speed::si) {
        let expected = tips(own, distances)?;
        for (what, wind) in
            [(Misjudgement::WindFromRight, wind), (Misjudgement::WindFromLeft, -wind)]
        {
            let blown = tips(crossed(own, wind), distances)?;
            for (found, (blown, set_for)) in found.iter_mut().zip(blown.iter().zip(&expected)) {
                let shift = Impact { left: blown.left - set_for.left, up: blown.up - set_for.up };
                found.push((what, shift));
            }
        }
    }
    Ok(found)
}

/// A group, shifted.
pub(crate) fn shifted(column: &[Impact], shift: Impact) -> Vec<Impact> {
    let place = |i: &Impact| Impact { left: i.left + shift.left, up: i.up + shift.up };
    column.iter().map(place).collect()
}

/// What a group scores when its aim was misjudged.
pub(super) fn judged(
    what: Misjudgement,
    shift: Impact,
    column: &[Impact],
    judge: &Judge,
    shaft: Length,
) -> Result<Misjudged, StudyError> {
    let (hit, score) = judge.judge(&shifted(column, shift), shaft)?;
    Ok(Misjudged { what, shift, hit, score })
}
