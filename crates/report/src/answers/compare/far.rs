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
        let (far, _) = one(case, best, read)?;
        return Some(format!("{how}{wanted} hit {far} with \"{}\".", case.name(best)));
    }
    let what = case.zone().map_or("are tens".to_owned(), |zone| format!("hit a {zone}"));
    let wrong = words::misjudgement(&case.sides.stated, case.style);
    let (first, near) = one(case, 0, known)?;
    let missed = one(case, 0, missed);
    let limited = near && missed.as_ref().is_none_or(|(_, near)| *near);
    let missed = missed.map(|(far, _)| format!("; with {wrong}, the worst way, {far}"));
    Some(format!(
        "{wanted} or more of your arrows {what} {first}{}. {}",
        missed.unwrap_or_default(),
        if limited { LIMIT } else { NONE }
    ))
}

/// How a distance up to which a share holds is to be taken.
const LIMIT: &str = "Take the nearest as a limit, not as leave.";
/// The same where it may hold at none.
const NONE: &str = "No distance asked is near enough to be a limit; ask nearer ones.";

/// What is read of a build's reach.
type Read = fn(&BuildSide) -> Option<Farthest>;

/// How far one build's share holds and how far it may, and whether it holds at the nearest
/// distance at either end of its band.
fn one(case: Case, build: usize, read: Read) -> Option<(String, bool)> {
    let far = |found: &Compared| {
        let side = found.sides.builds.get(build)?;
        Some(place(found.builds.get(build)?, read(side)?))
    };
    let marks = &case.builds[build].marks;
    let [first, last] = [marks.first()?, marks.last()?].map(|mark| mark.distance.si());
    let farthest = read(&case.sides.builds[build])?;
    let value = place(&case.builds[build], farthest);
    let band = case.band(value, far);
    let asked = |far: f64| plain(Role::Range, far, case.style);
    let text = |far: f64| Role::Range.text(far, case.style);
    // Nearer than was asked a share holds nowhere that was looked at.
    let near = value >= first && band.is_none_or(|band| band.low >= first);
    let said = match farthest {
        Farthest::Nowhere => {
            let may = band.filter(|band| band.high >= first);
            let may =
                may.map_or_else(String::new, |band| format!("; may be up to {}", text(band.high)));
            format!("at no distance asked (not even {}{may})", asked(first))
        }
        Farthest::Throughout { .. } => {
            let may = match band.filter(|band| band.low < last) {
                Some(band) if near => format!(" (may be up to {} only)", text(band.low)),
                Some(_) => " (may be at none asked)".to_owned(),
                None => String::new(),
            };
            format!("up to {}, the farthest asked{may}", asked(last))
        }
        Farthest::To { .. } => match band.filter(|_| !near) {
            Some(band) => {
                let high = text(band.high.max(value));
                format!("up to {} (may be at none asked, or up to {high})", text(value))
            }
            None => format!("up to {}", unknown::figure(Role::Range, value, band, case.style)),
        },
    };
    Some((said, near))
}

/// A reach as a distance, m: none is nothing, throughout is as far as was asked.
fn place(build: &BuildAnswer, far: Farthest) -> f64 {
    match far {
        Farthest::Nowhere => 0.0,
        Farthest::To { distance, .. } => distance.si(),
        Farthest::Throughout { .. } => build.marks.last().map_or(0.0, |mark| mark.distance.si()),
    }
}
