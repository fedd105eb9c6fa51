//! Each further build against the first, at the distance that sentences speak of.

use study::{Compared, Pair, PairMark, Shots};

use super::super::unknown;
use super::case::Case;
use crate::show::{about, holds, point};

/// Every further build's name and its pair with the first, at the middle distance.
pub(super) fn pairs(case: Case<'_>) -> Vec<(&str, &PairMark)> {
    let at = case.middle();
    case.pairs.iter().map(|pair| (case.name(pair.other), &pair.marks[at])).collect()
}

/// The further build that the answer speaks of: the only one, or that which gains most, or
/// loses most where none gains; none where of several none differs. Of several a dangerous
/// one is none to speak of.
pub(super) fn told(case: Case<'_>) -> Option<(&str, &PairMark)> {
    let pairs = pairs(case);
    if let [one] = pairs[..] {
        return Some(one);
    }
    let safe = case.pairs.iter().map(|pair| case.safe(pair.other));
    let pairs: Vec<_> = pairs.into_iter().zip(safe).filter(|of| of.1).map(|of| of.0).collect();
    let shown = pairs.iter().filter(|(_, mark)| !holds(&mark.gain, 0.0));
    let by_gain =
        |a: &&(&str, &PairMark), b: &&(&str, &PairMark)| a.1.gain.value.total_cmp(&b.1.gain.value);
    let most = shown.clone().max_by(by_gain).filter(|(_, mark)| mark.gain.value > 0.0);
    most.or_else(|| shown.min_by(by_gain)).copied()
}

/// The pair that a mark at the middle distance belongs to, and its index.
pub(super) fn pair_of<'a>(case: Case<'a>, mark: &PairMark) -> Option<(usize, &'a Pair)> {
    let at = case.middle();
    case.pairs.iter().enumerate().find(|(_, pair)| pair.marks[at] == *mark)
}

/// Shots that archer or machine need, with their band.
pub(super) fn needs(case: Case, mark: &PairMark, read: fn(&PairMark) -> Shots) -> String {
    let at = case.skipped + case.middle();
    let Some((index, _)) = pair_of(case, mark) else { return about(read(mark)) };
    let own = unknown::endless(read(mark));
    let at_point = |of: &Compared| Some(of.pairs.get(index)?.marks.get(at)?.clone());
    let band = case.band(own, |of| Some(unknown::endless(read(&at_point(of)?))));
    unknown::needed(read(mark), band)
}

/// How the verdict on who sees it stands.
pub(super) fn stands(case: Case, mark: &PairMark) -> String {
    pair_of(case, mark).map_or_else(String::new, |(_, pair)| case.seen_stands(pair, case.middle()))
}

/// A sentence on a build whose arrows all follow one another; empty where
/// both builds scatter from a machine.
pub(super) fn one_hole(case: Case, mark: &PairMark) -> String {
    let Some((_, pair)) = pair_of(case, mark) else { return String::new() };
    let name = match point(mark.machine_ratio.as_ref()) {
        Some("base") => case.name(pair.base),
        Some(_) => case.name(pair.other),
        None => return String::new(),
    };
    format!(" From the machine every arrow of \"{name}\" lands in one point.")
}
