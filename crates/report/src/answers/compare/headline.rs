//! The sentence that answers a comparison.

use study::{Band, BuildAnswer, Compared, PairMark};
use units::{Role, Style};

use super::super::unknown;
use super::case::Case;
use super::notice::{lands, notice, noticed};
use super::pairs::{pair_of, pairs, told};
use crate::show::{form_share, holds, plain, share};

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

fn single(case: Case, build: &BuildAnswer, style: Style) -> String {
    let mark = &build.marks[case.middle()];
    let at = case.skipped + case.middle();
    let drop =
        case.band(mark.nominal.drop, |of| Some(of.builds.first()?.marks.get(at)?.nominal.drop));
    let share = form_share(mark).map_or_else(String::new, |ratio| {
        let read = |of: &Compared| form_share(of.builds.first()?.marks.get(at)?);
        let told = unknown::portion(ratio, case.band(ratio, read));
        format!(" Your own form makes {told} of that spread.")
    });
    format!(
        "At {} half of your arrows land within {} of the middle of the group, and the arrow has \
         dropped {}.{share}",
        plain(Role::Range, mark.distance.si(), style),
        base_r50(case),
        unknown::figure(Role::Impact, mark.nominal.drop, drop, style),
    )
}

fn two(case: Case, base: &BuildAnswer, name: &str, mark: &PairMark, style: Style) -> String {
    let r50 = base.marks[case.middle()].full.stats.r50.value;
    let range = plain(Role::Range, mark.distance.si(), style);
    let (lands, noticed) = (lands(case, mark), noticed(case, mark));
    let after = after(case, true);
    if holds(&mark.gain, 0.0) {
        return format!(
            "At {range} \"{name}\" groups no tighter or wider than \"{}\"{lands}{noticed}. Half of \
             the arrows land within {} of the middle with either.{after}",
            base.name,
            base_r50(case),
        );
    }
    format!(
        "At {range} \"{name}\" groups {} than \"{}\"{lands}{noticed}. Half of its arrows land \
         within {} of the middle, not {}.{after}",
        change_of(case, mark, r50, style),
        base.name,
        other_r50(case, mark),
        base_r50(case),
    )
}

/// What it takes to notice, behind the sentence that answers.
fn after(case: Case, placed: bool) -> String {
    if !case.shot() {
        return format!(" {UNSAID}");
    }
    notice(case, placed).map_or_else(String::new, |told| format!(" {told}"))
}

fn many(case: Case, base: &BuildAnswer, pairs: &[(&str, &PairMark)], style: Style) -> String {
    let r50 = base.marks[case.middle()].full.stats.r50.value;
    let range = plain(Role::Range, pairs[0].1.distance.si(), style);
    let all = if case.barred().is_some() {
        "those safe to shoot".to_owned()
    } else {
        format!("{} builds", pairs.len() + 1)
    };
    let after = after(case, false);
    match told(case) {
        Some((name, mark)) if mark.gain.value > 0.0 => format!(
            "Of {all} \"{name}\" groups tightest at {range}: half of its arrows land within {} of \
             the middle, {} than \"{}\".{after}",
            other_r50(case, mark),
            change_of(case, mark, r50, style),
            base.name,
        ),
        Some((name, mark)) => format!(
            "Of {all} none is shown to group tighter than \"{}\" at {range}, where half of the \
             arrows land within {} of the middle; \"{name}\" groups {}.{after}",
            base.name,
            base_r50(case),
            change_of(case, mark, r50, style),
        ),
        None => format!(
            "At {range} no difference in group size shows between {all}: half of the arrows land \
             within {} of the middle.{after}",
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
