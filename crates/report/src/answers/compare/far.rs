//! How far the asked share of hits holds: the first thing of the short answer where it is
//! asked.

use study::{BuildAnswer, BuildSide, Compared, Farthest};
use units::Role;

use super::super::unknown;
use super::case::Case;
use super::words;
use crate::show::{plain, share};

/// Up to where a build hits often enough, and up to where when something is misjudged; of
/// several the one that holds farthest when something is, or else at all. None where no share
/// is asked for, or nobody shoots.
pub(super) fn how_far(case: Case) -> Option<String> {
    let wanted = share(case.sides.stated.hit_share.filter(|_| case.shot())?.si());
    let known: Read = |side| side.reach.as_ref().map(|reach| reach.farthest);
    let missed: Read = |side| side.reach.as_ref()?.misjudged;
    if case.several() {
        let (read, how) = match missed(&case.sides.builds[0]) {
            Some(_) => (missed, "Misjudged the worst way, "),
            None => (known, ""),
        };
        let reach = |at: usize| Some((place(&case.builds[at], read(&case.sides.builds[at])?), at));
        let reaches = case.choices().into_iter().filter_map(reach);
        let (_, best) = reaches.max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)))?;
        let far = one(case, best, read)?;
        return Some(format!("{how}{wanted} hit {far} with \"{}\".", case.name(best)));
    }
    let wrong = words::misjudgement(&case.sides.stated, case.style);
    let missed = one(case, 0, missed).map(|far| format!("; with {wrong}, the worst way, {far}"));
    Some(format!(
        "{wanted} or more of your arrows count as {} {}{}. Take the nearest as a limit, not as leave.",
        case.hits(),
        one(case, 0, known)?,
        missed.unwrap_or_default()
    ))
}

/// What is read of a build's reach.
type Read = fn(&BuildSide) -> Option<Farthest>;

/// How far one build's share holds.
fn one(case: Case, build: usize, read: Read) -> Option<String> {
    let far = |found: &Compared| {
        let side = found.sides.builds.get(build)?;
        Some(place(found.builds.get(build)?, read(side)?))
    };
    let farthest = read(&case.sides.builds[build])?;
    let value = place(&case.builds[build], farthest);
    Some(match farthest {
        Farthest::Nowhere => "at no distance asked".to_owned(),
        Farthest::Throughout { .. } => {
            format!("up to {}, the farthest asked", plain(Role::Range, value, case.style))
        }
        Farthest::To { .. } => {
            let band = case.band(value, far);
            format!("up to {}", unknown::figure(Role::Range, value, band, case.style))
        }
    })
}

/// A reach as a distance, m: none is nothing, throughout is as far as was asked.
fn place(build: &BuildAnswer, far: Farthest) -> f64 {
    match far {
        Farthest::Nowhere => 0.0,
        Farthest::To { distance, .. } => distance.si(),
        Farthest::Throughout { .. } => build.marks.last().map_or(0.0, |mark| mark.distance.si()),
    }
}
