//! The sentences of a tuning answer.

use study::{Banded, Clearance, Found, Joint, Nearest, Neutral, Offset, Trend, Tuned, TunedBuild};
use units::{Dimension, Length, Role, Style, Unit};

use super::super::unknown::{self, Asked};
use crate::document::Part;
use crate::show;
pub(super) use crate::words::value as name;

/// The first build of a tuning answer.
pub(super) fn first(found: &Found) -> Option<&TunedBuild> {
    match found {
        Found::Tune(tuned) => tuned.builds.first(),
        _ => None,
    }
}

/// What is not known: of how far bare and fletched land apart, and of whether
/// the change that is advised helps.
pub(super) fn not_known(tuned: &Tuned, joint: Option<&Joint<Found>>, style: Style) -> Vec<Part> {
    let Some((build, (neutral, _))) = tuned.builds.first().and_then(|b| Some((b, separation(b)?)))
    else {
        return Vec::new();
    };
    let mark = neutral.mark;
    let range = show::plain(Role::Range, build.bare[mark].distance.si(), style);
    let apart = |found: &Found| Some(first(found)?.bare.get(mark)?.apart.as_ref()?.size.value);
    let left = |found: &Found| Some(first(found)?.bare.get(mark)?.apart.as_ref()?.left.value);
    let is_left = |found: &Found| left(found).is_some_and(|left| left > 0.0);
    let asked = [
        Asked {
            what: format!("how far bare and fletched land apart at {range}"),
            read: &apart,
            verdict: &is_left,
        },
        Asked {
            what: "to which side the bare shaft goes, stiff or weak".to_owned(),
            read: &left,
            verdict: &is_left,
        },
    ];
    unknown::section(joint, &asked)
}

/// How far from neutral a build is, and its separation there.
pub(super) fn separation(build: &TunedBuild) -> Option<(&Neutral, &Offset)> {
    let neutral = build.neutral.as_ref()?;
    Some((neutral, build.bare.get(neutral.mark)?.apart.as_ref()?))
}

/// The last offset that is known, with its place in the list.
pub(super) fn farthest(list: &[Option<Offset>]) -> Option<(usize, &Offset)> {
    list.iter().enumerate().rev().find_map(|(at, offset)| Some((at, offset.as_ref()?)))
}

/// A size at the target; none for one that rounds to nothing.
pub(super) fn size(si: f64, style: Style) -> Option<String> {
    shows(si, style).then(|| Role::Impact.text(si.abs(), style))
}

fn shows(si: f64, style: Style) -> bool {
    Role::Impact.number(si.abs(), style).contains(|c: char| ('1'..='9').contains(&c))
}

/// "1.20 in left and 0.31 in high"; none where both round to nothing.
pub(super) fn direction([left, up]: [f64; 2], style: Style) -> Option<String> {
    let part = |si: f64, words: [&str; 2]| {
        let word = if si < 0.0 { words[1] } else { words[0] };
        size(si, style).map(|size| format!("{size} {word}"))
    };
    match (part(left, ["left", "right"]), part(up, ["high", "low"])) {
        (Some(left), Some(up)) => Some(format!("{left} and {up}")),
        (left, up) => left.or(up),
    }
}

/// "1.90 to 5.00 in".
pub(super) fn band(banded: &Banded, style: Style) -> String {
    let role = Role::Impact;
    format!("{} to {}", role.number(banded.low, style), role.text(banded.high, style))
}

/// The unit in which a trend's values are written.
pub(super) fn unit(trend: &Trend) -> &'static Unit {
    let written = trend.points.first().map_or("", |point| point.label.as_str());
    let symbol = written.trim_start_matches(|c: char| c.is_ascii_digit() || "+-.".contains(c));
    trend.dimension.unit(symbol.trim()).unwrap_or(&trend.dimension.units()[0])
}

/// A value of a trend to three figures, without its unit.
pub(super) fn bare_value(trend: &Trend, si: f64) -> String {
    show::three(unit(trend).of_si(si))
}

/// A value of a trend with its unit.
pub(super) fn value(trend: &Trend, si: f64) -> String {
    let unit = unit(trend);
    let number = bare_value(trend, si);
    if unit.symbol.is_empty() { number } else { format!("{number} {}", unit.symbol) }
}

/// Clock position in whole degrees from straight up, 0 to 359.
pub(super) fn degrees(clock: f64) -> String {
    let turn = clock.rem_euclid(std::f64::consts::TAU);
    let unit = Dimension::Angle.unit("deg").map_or(turn, |unit| unit.of_si(turn));
    // 359.7 rounds to 360, which is 0 again.
    let whole = format!("{unit:.0}");
    if whole == "360" { "0".to_owned() } else { whole }
}

/// How near the vanes come, in sentences.
pub(super) fn clearance(found: &Clearance, style: Style) -> Vec<String> {
    let mut out = Vec::new();
    if let Some(riser) = &found.riser {
        out.push(nearest(riser, "the side of the riser", style));
    }
    match &found.rest {
        Some(rest) => out.push(nearest(rest, "the rest", style)),
        None => out.push("The rest holds all round, so the vanes always touch it.".to_owned()),
    }
    out
}

fn nearest(found: &Nearest, what: &str, style: Style) -> String {
    let role = Role::Part;
    let gap = found.gap;
    let words = if gap.value >= 0.0 {
        format!("The vanes pass {what} with {} to spare", role.text(gap.value, style))
    } else {
        format!("The vanes reach {} into {what}", role.text(-gap.value, style))
    };
    let when = if found.after { ", after the string has let go" } else { ", still on the string" };
    let end = |si: f64| {
        let side = if si < 0.0 { "inside" } else { "clear" };
        format!("{} {side}", role.text(si.abs(), style))
    };
    format!(
        "{words} (from {} to {} over what is not well known). There the nock has moved {} from \
         full draw{when}; it is the vane at {} deg from straight up, {} ahead of the groove.",
        end(gap.low),
        end(gap.high),
        Role::Impact.text(found.travel, style),
        degrees(found.clock),
        Role::Impact.text(found.station, style),
    )
}

/// What the numbers of a tuning answer mean.
pub(super) const NEUTRAL: &str = "Neutral here means one thing: bare and fletched arrow in one \
    place at the farthest distance that the bare shaft reaches. Both are shot with the same aim. \
    The bare one has its vanes taken off and nothing put in their place; with tape, their weight \
    is left where they were. Even a clean push leaves the bare shaft a little high: it keeps its \
    nose up longer while its path bends down.";

/// How to read the bands.
pub(super) const BANDS: &str = "In brackets: nine tenths of what the poorly known values leave, \
    all drawn together. The number before them is computed at their usual values; where it lies \
    outside, those are no middle of it.";

/// How to read the effects.
pub(super) const EFFECTS: &str = "A step of each value, all else as it is: how far it moves the \
    bare shaft to the left (+) against the fletched one, and whether that brings the two nearer; \
    beside each word the share of what may be in which it holds.";

/// How to read the side.
pub(super) const SIDES: &str = "Bare left in: the share of what is poorly known, all of it drawn \
    together, in which the bare one lands to the left. From 95 % on that holds everywhere, from \
    80 % most likely; between 20 and 80 % the side is open, and no reason to change the arrow.";

/// How to read a tear.
pub(super) const TEAR: &str = "Tear: from the hole of the tip to where the nock passes, as the \
    archer sees the sheet from the bow. \"Nock high\" and the like are the trade's words for \
    where that end lies (common practice, no source). The paper's own push on the arrow is left \
    out.";

/// What turning the nock is.
pub(super) const NOCK: &str = "The nock is turned clockwise in the shaft, seen from behind, by \
    steps that leave each vane in another's place. The string holds the groove as before, so it \
    is the rest of the arrow that lies turned on the bow.";

/// What may be turned but cannot be seen.
pub(super) const STILL: &str = "Turning the nock moves nothing: with the faults that the \
    scenario fixes, the arrow is the same all round.";

/// What the numbers rest on.
pub(super) const SURE: [&str; 3] = [
    "These are computed numbers, not measured ones. A model of your arrow is as good as what you \
     told it.",
    "How firmly a string and a rest hold an arrow sideways is poorly known, and a kick can change \
     its side within that range. The bands say how far; one measured shift of impact narrows them.",
    "Compare before you trust: which change helps is better known than by how much.",
];

/// Whether any step of the nock moves an impact by something that shows.
pub(super) fn turns_show(build: &TunedBuild, style: Style) -> bool {
    let moved = build.turns.steps.iter().flat_map(|turn| turn.moved.iter().flatten());
    moved.into_iter().any(|offset| size(offset.size.high, style).is_some())
}

/// What turning does to arrows as they are drawn.
pub(super) fn drawn(widest: f64, distance: Length, style: Style) -> String {
    format!(
        "Of arrows as the scenario scatters them, half land at least {} apart at {} between two of \
         these nock positions.",
        Role::Impact.text(widest, style),
        show::plain(Role::Range, distance.si(), style)
    )
}
