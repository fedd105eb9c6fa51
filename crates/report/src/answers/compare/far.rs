//! How far the asked share of hits holds: the first thing of the short answer where it is
//! asked.

use study::{BuildAnswer, BuildSide, Compared, Farthest};
use units::Role;

use super::super::unknown;
use super::case::Case;
use super::words;
use crate::show::share;
use crate::words::listed;

/// Most builds named. Chosen: three lines.
const NAMED: usize = 3;

/// Up to where every build hits often enough, and up to where when something is misjudged;
/// none where no share is asked for, or nobody shoots.
pub(super) fn how_far(case: Case) -> Option<String> {
    let wanted = case.sides.stated.hit_share.filter(|_| case.shot())?;
    let choices = case.choices();
    let (first, rest) = choices.split_at(choices.len().min(NAMED));
    let all = |read: fn(&BuildSide) -> Option<Farthest>| -> Option<String> {
        let told: Option<Vec<String>> = first.iter().map(|&at| one(case, at, read)).collect();
        told.filter(|told| !told.is_empty()).map(|told| listed(&told, "and"))
    };
    let known = all(|side| side.reach.as_ref().map(|reach| reach.farthest))?;
    let missed = all(|side| side.reach.as_ref()?.misjudged).map(|far| {
        let wrong = words::misjudgement(&case.sides.stated, case.style);
        let missed = format!("with {wrong}, the worst way, {far}");
        // Of several only what is asked of them most.
        if case.several() { missed } else { format!("{known}; {missed}") }
    });
    let others = match rest.len() {
        0 => String::new(),
        more => format!(" ({more} more: --full)"),
    };
    Some(format!(
        "{} or more of your arrows count as {} {}{others}. Take the nearest as a limit, not as leave.",
        share(wanted.si()),
        case.hits(),
        missed.unwrap_or(known)
    ))
}

/// How far one build's share holds, with its name where there are several.
fn one(case: Case, build: usize, read: fn(&BuildSide) -> Option<Farthest>) -> Option<String> {
    let far = |found: &Compared| {
        let side = found.sides.builds.get(build)?;
        Some(place(found.builds.get(build)?, read(side)?))
    };
    let side = &case.sides.builds[build];
    let farthest = read(side)?;
    let value = place(&case.builds[build], farthest);
    let told = match farthest {
        Farthest::Nowhere => "at no distance asked".to_owned(),
        Farthest::Throughout { .. } => {
            format!("up to {}, the farthest asked", yards(case, value))
        }
        Farthest::To { .. } => {
            format!(
                "up to {}",
                unknown::figure(Role::Range, value, case.band(value, far), case.style)
            )
        }
    };
    Some(if case.several() { format!("{told} with \"{}\"", case.name(build)) } else { told })
}

/// A reach as a distance, m: none is nothing, throughout is as far as was asked.
fn place(build: &BuildAnswer, far: Farthest) -> f64 {
    match far {
        Farthest::Nowhere => 0.0,
        Farthest::To { distance, .. } => distance.si(),
        Farthest::Throughout { .. } => build.marks.last().map_or(0.0, |mark| mark.distance.si()),
    }
}

fn yards(case: Case, place: f64) -> String {
    crate::show::plain(Role::Range, place, case.style)
}
