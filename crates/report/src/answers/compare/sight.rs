//! Each build is sighted in for itself: what one sight setting would make of them.

use study::{Band, OneSight, Pair, PairMark};
use units::{Role, Style};

use super::case::Case;
use super::pairs::pair_of;
use crate::show::alike;

/// Smallest shift worth a word, m. Chosen: a tenth of an inch, which no archer holds.
const SMALLEST: f64 = 0.0025;

/// How many times as far as to one side a build must land to the other for that one to go
/// without a word. Chosen.
const BESIDE: f64 = 6.0;

/// That each build has its own sight setting; none with one build.
pub(in super::super) fn settings(case: Case) -> Option<String> {
    case.several().then(|| "Each build here has its own sight setting.".to_owned())
}

/// The further build that lands farthest from the first with the first's setting, by
/// what the archer's groups would show; none where none gets there.
pub(super) fn farthest(case: Case<'_>) -> Option<(&str, &PairMark)> {
    let at = case.middle();
    // Of several a dangerous one is none to speak of.
    let spoken = |pair: &&Pair| case.pairs.len() == 1 || case.safe(pair.other);
    let all = case.pairs.iter().filter(spoken).filter_map(|pair| {
        let mark = &pair.marks[at];
        Some((case.name(pair.other), mark, mark.one_sight?))
    });
    let farthest = all.max_by(|a, b| a.2.apart.total_cmp(&b.2.apart))?;
    Some((farthest.0, farthest.1))
}

/// Where the build of a pair lands with one sight setting, "3.93 in low (may be 2.87 to
/// 4.81)"; none where that is in one place with the first whatever is not known.
pub(super) fn place(case: Case, mark: &PairMark) -> Option<String> {
    let shift = mark.one_sight?.shift;
    let (index, _) = pair_of(case, mark)?;
    let at = case.skipped + case.middle();
    let band = |value: f64, read: fn(&OneSight) -> f64| {
        case.band(value, |of| Some(read(&of.pairs.get(index)?.marks.get(at)?.one_sight?)))
    };
    let (left, up) = (band(shift.left, |of| of.shift.left), band(shift.up, |of| of.shift.up));
    // A side that is little beside the other even at the worst is left out.
    let least = |other: f64| SMALLEST.max(other.abs() / BESIDE);
    let left = side(shift.left, left, least(shift.up), ["left", "right"], case.style);
    let up = side(shift.up, up, least(shift.left), ["high", "low"], case.style);
    match (up, left) {
        (Some(up), Some(left)) => Some(format!("{up} and {left}")),
        (one, other) => one.or(other),
    }
}

/// One side of a shift; none where neither it nor its band comes to `least`.
fn side(
    value: f64,
    band: Option<Band>,
    least: f64,
    [more, less]: [&str; 2],
    style: Style,
) -> Option<String> {
    let word = |si: f64| if si < 0.0 { less } else { more };
    let most = band.map_or(value.abs(), |of| value.abs().max(of.low.abs()).max(of.high.abs()));
    if most < least {
        return None;
    }
    let Some(Band { low, high }) = band else {
        return Some(format!("{} {}", Role::Impact.text(value.abs(), style), word(value)));
    };
    let [near, far] = if low.abs() <= high.abs() { [low, high] } else { [high, low] };
    let [own, near_text, far_text] =
        alike(Role::Impact, [value.abs(), near.abs(), far.abs()], style);
    let told = format!("{own} {} {}", Role::Impact.symbol(style), word(value));
    let may = if near * far >= 0.0 && near * value >= 0.0 && far * value >= 0.0 {
        if near_text == own && far_text == own {
            return Some(told);
        }
        format!("{near_text} to {far_text}")
    } else {
        format!("{near_text} {} to {far_text} {}", word(near), word(far))
    };
    Some(format!("{told} (may be {may})"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_a_shift_names_its_side_and_its_band() {
        let inch = 0.0254;
        let told = |value: f64, low: f64, high: f64| {
            let band = Some(Band { low: low * inch, high: high * inch });
            side(value * inch, band, SMALLEST, ["high", "low"], Style::Archery)
        };
        assert_eq!(told(-3.9, -4.8, -2.9).as_deref(), Some("3.90 in low (may be 2.90 to 4.80)"));
        assert_eq!(
            told(1.4, -2.1, 6.1).as_deref(),
            Some("1.40 in high (may be 2.10 low to 6.10 high)")
        );
        assert_eq!(told(0.05, -0.01, 0.06), None);
        // Nothing at the usual values, but perhaps much.
        assert!(told(0.0, -5.0, 0.5).is_some());
        let bare = side(inch, None, SMALLEST, ["left", "right"], Style::Archery);
        assert_eq!(bare.as_deref(), Some("1.00 in left"));
    }
}
