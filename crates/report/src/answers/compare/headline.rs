//! The sentence that answers a comparison.

use study::{Band, BuildAnswer, Compared, Pair, PairMark, Seen, Shots};
use target::Estimate;
use units::{Role, Style};

use super::super::unknown;
use super::case::Case;
use crate::show::{about, form_share, holds, interval, plain, point, share};

/// More shots than this from a machine and the sentence says "even a machine".
/// Chosen: a long day of shooting at a machine.
const MANY_SHOTS: u32 = 1000;

/// What is said of who would see it where nobody shoots.
const UNSAID: &str = "These groups are a machine's: the scenario does not say who shoots.";

/// The answer in one or two plain sentences, at the middle distance.
pub(in super::super) fn headline(case: Case) -> String {
    let (base, style) = (&case.builds[0], case.style);
    let pairs = pairs(case);
    let told = match pairs[..] {
        [] => single(case, base, style),
        [(name, mark)] => two(case, base, name, mark, style),
        _ => many(case, base, &pairs, style),
    };
    match case.barred() {
        Some(barred) => format!("{barred} {told}"),
        None => told,
    }
}

/// Every further build's name and its pair with the first, at the middle distance.
fn pairs(case: Case<'_>) -> Vec<(&str, &PairMark)> {
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

/// R50 of archer and arrows of the first build, in words.
fn base_r50(case: Case) -> String {
    let value = case.builds[0].marks[case.middle()].full.stats.r50.value;
    let at = case.skipped + case.middle();
    let read = |of: &Compared| Some(of.builds.first()?.marks.get(at)?.full.stats.r50.value);
    unknown::figure(Role::Impact, value, case.band(value, read), case.style)
}

/// R50 of another build: that of the first less what is gained.
fn other_r50(case: Case, mark: &PairMark) -> String {
    let base = case.builds[0].marks[case.middle()].full.stats.r50.value;
    let (value, at) = (base - mark.gain.value, case.skipped + case.middle());
    let band = pair_of(case, mark).and_then(|(index, _)| {
        case.band(value, |of| {
            let base = of.builds.first()?.marks.get(at)?.full.stats.r50.value;
            Some(base - of.pairs.get(index)?.marks.get(at)?.gain.value)
        })
    });
    unknown::figure(Role::Impact, value, band, case.style)
}

/// The pair that a mark at the middle distance belongs to, and its index.
fn pair_of<'a>(case: Case<'a>, mark: &PairMark) -> Option<(usize, &'a Pair)> {
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

fn single(case: Case, build: &BuildAnswer, style: Style) -> String {
    let mark = &build.marks[case.middle()];
    let at = case.skipped + case.middle();
    let drop =
        case.band(mark.nominal.drop, |of| Some(of.builds.first()?.marks.get(at)?.nominal.drop));
    let share = form_share(mark).map_or_else(String::new, |ratio| {
        let read = |of: &Compared| form_share(of.builds.first()?.marks.get(at)?);
        let told = unknown::portion(ratio, case.band(ratio, read));
        format!(" The archer's own form makes {told} of that spread (by variance).")
    });
    format!(
        "At {} half of all arrows land within {} of their centre (R50; 95 % interval {}), \
         and the arrow has dropped {}.{share}",
        plain(Role::Range, mark.distance.si(), style),
        base_r50(case),
        interval(Role::Impact, &mark.full.stats.r50, style),
        unknown::figure(Role::Impact, mark.nominal.drop, drop, style),
    )
}

fn two(case: Case, base: &BuildAnswer, name: &str, mark: &PairMark, style: Style) -> String {
    let r50 = base.marks[case.middle()].full.stats.r50.value;
    let range = plain(Role::Range, mark.distance.si(), style);
    if holds(&mark.gain, 0.0) {
        return format!(
            "At {range} no difference shows between \"{}\" and \"{name}\": half of all arrows \
             land within {} of their centre (R50), and the 95 % interval of the change is {}. \
             {}",
            base.name,
            base_r50(case),
            interval(Role::Impact, &change(&mark.gain), style),
            machine_alone(case, mark),
        );
    }
    format!(
        "At {range} \"{name}\" groups {} than \"{}\": half of all its arrows land within {} of \
         their centre (R50) instead of {}. {}",
        change_of(case, mark, r50, style),
        base.name,
        other_r50(case, mark),
        base_r50(case),
        who(case, mark),
    )
}

fn many(case: Case, base: &BuildAnswer, pairs: &[(&str, &PairMark)], style: Style) -> String {
    let r50 = base.marks[case.middle()].full.stats.r50.value;
    let range = plain(Role::Range, pairs[0].1.distance.si(), style);
    let all = if case.barred().is_some() {
        "those safe to shoot".to_owned()
    } else {
        format!("{} builds", pairs.len() + 1)
    };
    match told(case) {
        Some((name, mark)) if mark.gain.value > 0.0 => format!(
            "Of {all} \"{name}\" groups tightest at {range}: half of all its arrows land \
             within {} of their centre (R50), {} than \"{}\". {}",
            other_r50(case, mark),
            change_of(case, mark, r50, style),
            base.name,
            who(case, mark),
        ),
        Some((name, mark)) => format!(
            "Of {all} none is shown to group tighter than \"{}\" at {range}, where half of all its \
             arrows land within {} of their centre (R50); \"{name}\" groups {}. {}",
            base.name,
            base_r50(case),
            change_of(case, mark, r50, style),
            who(case, mark),
        ),
        None => format!(
            "At {range} no difference shows between {all}: with \"{}\" half of all \
             arrows land within {} of their centre (R50), and the 95 % interval of every change holds \
             zero.",
            base.name,
            base_r50(case),
        ),
    }
}

/// "0.12 in (3 %) tighter".
fn change_of(case: Case, mark: &PairMark, r50: f64, style: Style) -> String {
    let size = mark.gain.value.abs();
    let part = if r50 > 0.0 { format!(" ({})", share(size / r50)) } else { String::new() };
    let way = if mark.gain.value > 0.0 { "tighter" } else { "wider" };
    let at = case.skipped + case.middle();
    let band = pair_of(case, mark).and_then(|(index, _)| {
        let gain = |of: &Compared| Some(of.pairs.get(index)?.marks.get(at)?.gain.value);
        let Band { low, high } = case.band(mark.gain.value, gain)?;
        // As a size to the side of the gain.
        Some(if mark.gain.value > 0.0 {
            Band { low, high }
        } else {
            Band { low: -high, high: -low }
        })
    });
    let band = unknown::bracket(Role::Impact, size, band, style);
    format!("{}{part} {way}{band}", Role::Impact.text(size, style))
}

/// A gain as a change of R50: the sign turned.
fn change(gain: &Estimate) -> Estimate {
    Estimate { value: -gain.value, low: -gain.high, high: -gain.low }
}

/// Who would see a difference that is there.
fn who(case: Case, mark: &PairMark) -> String {
    if !case.shot() {
        return UNSAID.to_owned();
    }
    let archer = needs(case, mark, |mark| mark.archer_shots);
    let machine = needs(case, mark, |mark| mark.machine_shots);
    let rare = match mark.machine_shots {
        Shots::Each(n) => n > MANY_SHOTS,
        Shots::MoreThan(_) => true,
    };
    let told = match (mark.seen, rare) {
        (Seen::Archer, _) => format!(
            "You would notice after {archer} arrows with each; a shooting machine after {machine}."
        ),
        (_, false) => format!(
            "You would need {archer} arrows with each to notice; a shooting machine would see it \
             in {machine}."
        ),
        (_, true) => format!(
            "You would need {archer} arrows with each to notice, and even a shooting machine \
             {machine}."
        ),
    };
    format!("{told}{}{}", one_hole(case, mark), stands(case, mark))
}

/// What a machine sees where the archer's groups show nothing.
pub(super) fn machine_alone(case: Case, mark: &PairMark) -> String {
    if !case.shot() {
        return UNSAID.to_owned();
    }
    if mark.machine_ratio.is_some_and(|ratio| holds(&ratio, 1.0)) {
        return "A shooting machine shows none either.".to_owned();
    }
    let told = match mark.machine_shots {
        Shots::Each(_) => "A shooting machine would see one in",
        Shots::MoreThan(_) => "Even a shooting machine would need",
    };
    let shots = needs(case, mark, |mark| mark.machine_shots);
    format!("{told} {shots} arrows with each.{}{}", one_hole(case, mark), stands(case, mark))
}

/// A sentence on a build whose arrows all follow one another; empty where
/// both builds scatter from a machine.
fn one_hole(case: Case, mark: &PairMark) -> String {
    let Some((_, pair)) = pair_of(case, mark) else { return String::new() };
    let name = match point(mark.machine_ratio.as_ref()) {
        Some("base") => case.name(pair.base),
        Some(_) => case.name(pair.other),
        None => return String::new(),
    };
    format!(" From the machine every arrow of \"{name}\" lands in one point.")
}
