//! Stiff or weak, and what may be advised: only what holds in most of what is not known,
//! and what can be undone before what cannot.

use study::{Found, Joint, Side, Trend, Tuned, TunedBuild, TuningChange, Word};
use units::{Role, Style};

use super::super::unknown::{self, Asked};
use super::words::{band, bare_value, direction, first, name, size, value};
use crate::document::{Table, table_of};
use crate::show::{plain, share};

/// The least share of what is not known in which advice must help. Chosen: where a
/// verdict begins to be called likely.
const SURE: f64 = 0.8;

/// How far a change can be taken back.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Undone {
    /// By a turn of a screw.
    Easily,
    /// By other shafts.
    Bought,
    /// Not at all.
    Never,
}

fn undone(trend: &Trend, to: f64) -> Undone {
    match trend.key.as_str() {
        "arrow.shaft.length" if to < trend.own => Undone::Never,
        key if key.starts_with("arrow.shaft.") => Undone::Bought,
        _ => Undone::Easily,
    }
}

/// Whether the shaft is stiff or weak for the bow, in a sentence or two.
pub(super) fn spine(build: &TunedBuild, style: Style) -> String {
    if build.straight {
        return "Whether this shaft is stiff or weak for this bow cannot be told: nock path and \
                release are taken as straight, and then no spine shows. Give the nock path \
                (bow.path.left), or shoot a bare shaft and give what it shows ([measured] with \
                bare = true)."
            .to_owned();
    }
    if blind(build) {
        return crossed(build).unwrap_or_else(|| {
            "No other spine was tried, so nothing shows whether this model knows stiff shafts from \
             weak ones off the fingers. So it advises no change of this arrow."
                .to_owned()
        });
    }
    let Some((at, left)) = side(build) else {
        return "Whether this shaft is stiff or weak for this bow cannot be told: its bare shaft \
                lands to no side."
            .to_owned();
    };
    let range = plain(Role::Range, build.bare[at].distance.si(), style);
    let (hand, stiff_side) = match build.side {
        Side::Left => ("right", "left"),
        Side::Right => ("left", "right"),
    };
    let stiff = stiff(build, left);
    let reads = match (study::Standing { share: stiff }).word() {
        Word::Everywhere | Word::Likely => "The shaft reads stiff for this bow",
        Word::Unlikely => "The shaft reads weak for this bow",
        Word::Open => "Whether the shaft is stiff or weak for this bow is open",
    };
    let (lands, of) = match stiff_side {
        "left" => ("left", left),
        _ => ("right", 1.0 - left),
    };
    format!(
        "{reads}: bare, it lands {lands} of the fletched one at {range} in {} of what may be \
         (drawn with the {hand} hand, stiff lands {stiff_side}, weak the other way; common \
         practice, no source).",
        share(of)
    )
}

/// The farthest distance at which the bare shaft goes to a side, and in what share of
/// what is not known that is the left.
fn side(build: &TunedBuild) -> Option<(usize, f64)> {
    build.bare.iter().enumerate().rev().find_map(|(at, mark)| Some((at, mark.left_in?)))
}

/// The share in which the side says stiff.
fn stiff(build: &TunedBuild, left: f64) -> f64 {
    match build.side {
        Side::Left => left,
        Side::Right => 1.0 - left,
    }
}

/// Whether bare shafts cross from the stiff side to the weak one as the spine grows:
/// the stiffest and the weakest spine of which that holds.
fn crossing(build: &TunedBuild) -> Option<(f64, f64)> {
    let (at, _) = side(build)?;
    let trend = build.trends.iter().find(|trend| trend.key == "arrow.shaft.spine")?;
    let of = |point: &study::TrendPoint| {
        let left = point.left_in.get(at).copied().flatten()?;
        Some((point.value, stiff(build, left)))
    };
    let known: Vec<(f64, f64)> = trend.points.iter().filter_map(of).collect();
    let stiffest = known.iter().filter(|point| point.1 >= SURE).map(|point| point.0);
    let weakest = known.iter().filter(|point| point.1 <= 1.0 - SURE).map(|point| point.0);
    let (to, from) = (stiffest.reduce(f64::max)?, weakest.reduce(f64::min)?);
    (to < from).then_some((to, from))
}

/// Whether the model shows nothing of stiff and weak: off the fingers, without the
/// crossing that the trade knows.
pub(super) fn blind(build: &TunedBuild) -> bool {
    build.flicked && crossing(build).is_none()
}

/// What such an answer tells and what not, first of all.
pub(super) fn cannot(style: Style) -> String {
    let range = match style {
        Style::Archery => "20 yd",
        Style::Metric => "18 m",
    };
    format!(
        "This cannot tell whether the shaft is stiff or weak for this bow; a bare shaft shot at \
         {range} will. What it tells is the room for the vanes and what turning the nock does."
    )
}

/// What the model makes of the crossing that the trade knows; nothing of a bow that
/// does not push the string to a side.
pub(super) fn crossed(build: &TunedBuild) -> Option<String> {
    let trend = build.trends.iter().find(|trend| trend.key == "arrow.shaft.spine")?;
    if !build.flicked {
        return None;
    }
    let ends = (trend.points.first()?, trend.points.last()?);
    let tried = format!("{} to {}", bare_value(trend, ends.0.value), value(trend, ends.1.value));
    Some(match crossing(build) {
        Some((to, from)) => format!(
            "Spines tried: {tried}. Over these the model shows the crossing that the trade knows: \
             up to {} the bare shaft lands on the stiff side, from {} on the weak one.",
            value(trend, to),
            value(trend, from)
        ),
        None => format!(
            "Spines tried: {tried}. Over these the model does not show the crossing that the trade \
             knows (stiff to one side, weak to the other; common practice, no source), so the side \
             on which its bare shaft lands means nothing. It advises no change of this arrow."
        ),
    })
}

/// By how much a change brings bare and fletched nearer where other things hold, m.
fn nearer(change: &TuningChange, mark: usize, at: &TunedBuild) -> Option<f64> {
    let now = at.bare.get(mark)?.apart.as_ref()?.size.value;
    Some(now - at.trends.get(change.trend)?.left_over(mark, change.value)?)
}

/// In what share of what is not known a change helps; all of it where nothing is unknown.
fn helps(change: &TuningChange, mark: usize, joint: Option<&Joint<Found>>) -> f64 {
    let help = |found: &Found| {
        first(found).and_then(|at| nearer(change, mark, at)).is_some_and(|nearer| nearer > 0.0)
    };
    joint.and_then(|joint| joint.standing(help)).map_or(1.0, |standing| standing.share)
}

/// Whether a value is the first or the last of those tried.
fn at_end(change: &TuningChange, trend: &Trend) -> bool {
    let ends = [trend.points.first(), trend.points.last()];
    ends.into_iter().flatten().any(|end| end.value.to_bits() == change.value.to_bits())
}

/// A change that surely helps and is the end of what was tried.
fn ended<'a>(
    build: &'a TunedBuild,
    joint: Option<&Joint<Found>>,
) -> Option<(&'a TuningChange, &'a Trend)> {
    let neutral = build.neutral.as_ref()?;
    let sure = neutral.changes.iter().filter(|c| helps(c, neutral.mark, joint) >= SURE);
    let mut all = sure.filter_map(|change| Some((change, build.trends.get(change.trend)?)));
    all.find(|(change, trend)| at_end(change, trend))
}

/// The same of a change of a build.
pub(super) fn helped(
    build: &TunedBuild,
    change: &TuningChange,
    joint: Option<&Joint<Found>>,
) -> f64 {
    build.neutral.as_ref().map_or(1.0, |neutral| helps(change, neutral.mark, joint))
}

/// What may be advised: the change that surely helps, of these one that can be undone,
/// of these the one that helps most.
pub(super) fn advised<'a>(
    build: &'a TunedBuild,
    joint: Option<&Joint<Found>>,
) -> Option<(&'a TuningChange, &'a Trend)> {
    if build.straight || blind(build) {
        return None;
    }
    let neutral = build.neutral.as_ref()?;
    let sure = neutral.changes.iter().filter(|c| helps(c, neutral.mark, joint) >= SURE);
    let all = sure.filter_map(|change| Some((change, build.trends.get(change.trend)?)));
    // Beyond the end of what was tried may lie better: a direction, no value.
    let all = all.filter(|(change, trend)| !at_end(change, trend));
    // The first of a kind helps most.
    all.min_by_key(|(change, trend)| undone(trend, change.value))
}

/// The advice of the first build, in a sentence or two.
pub(super) fn advice(build: &TunedBuild, joint: Option<&Joint<Found>>, style: Style) -> String {
    let Some(neutral) = build.neutral.as_ref().filter(|_| !build.trends.is_empty()) else {
        return String::new();
    };
    if build.straight {
        return "No change is advised before that.".to_owned();
    }
    if blind(build) {
        // Why stands with the crossing.
        return "No change is advised.".to_owned();
    }
    let Some((change, trend)) = advised(build, joint) else {
        if let Some((change, trend)) = ended(build, joint) {
            return format!(
                "No value is advised: of {} tried up to {}, the end of the range, the last brings \
                 bare and fletched nearest, and beyond it nothing was tried. Take it as a \
                 direction: a small step that can be undone, then shoot again.",
                name(&trend.key),
                value(trend, change.value)
            );
        }
        let best = neutral.changes.iter().map(|c| helps(c, neutral.mark, joint));
        return match best.reduce(f64::max) {
            None => "No change tried brings them a fifth nearer.".to_owned(),
            Some(best) => format!(
                "No change is advised: whether any helps is open, the surest in {} of what is not \
                 known{}.",
                share(best),
                decider(neutral.changes[0], neutral.mark, joint)
            ),
        };
    };
    let left = |found: &Found| {
        first(found)?.trends.get(change.trend)?.left_over(neutral.mark, change.value)
    };
    let known = joint.and_then(|joint| joint.band(change.left_over, left));
    let known = known.map_or_else(String::new, |of| {
        let banded = study::Banded { value: change.left_over, low: of.low, high: of.high };
        format!(" ({})", band(&banded, style))
    });
    let to = size(change.left_over, style).map_or("one place".to_owned(), |size| size);
    let undo = match undone(trend, change.value) {
        Undone::Easily => "",
        Undone::Bought => " That takes other shafts: try one before you buy a set.",
        Undone::Never => " Cutting cannot be undone: cut one arrow, a little at a time.",
    };
    let holds = joint.map_or_else(String::new, |_| {
        let helps = share(helps(change, neutral.mark, joint));
        format!("; it helps in {helps} of what may be")
    });
    format!(
        "Taking {} from {} to {} brings them nearest of what can be advised, to {to}{known}{holds}.\
         {undo}",
        name(&trend.key),
        value(trend, trend.own),
        value(trend, change.value),
    )
}

/// "; the release left would decide most".
fn decider(change: TuningChange, mark: usize, joint: Option<&Joint<Found>>) -> String {
    let Some(joint) = joint else { return String::new() };
    let read = |found: &Found| nearer(&change, mark, first(found)?);
    let verdict = |found: &Found| read(found).is_some_and(|nearer| nearer > 0.0);
    let asked = Asked { what: String::new(), read: &read, verdict: &verdict };
    unknown::decider(joint, &asked)
        .map_or_else(String::new, |decider| format!("; {decider} would decide most"))
}

/// Which way each change moves the bare shaft: a step of each value, with what is not
/// known of its size and of its side.
pub(super) fn effects(build: &TunedBuild, mark: usize) -> Table {
    let rows = build.trends.iter().filter_map(|trend| Some((trend, step(trend, mark)?)));
    table_of("effects", rows)
        .words("change", |(trend, _)| name(&trend.key))
        .words("step", |(trend, step)| {
            format!("{} to {}", bare_value(trend, trend.own), value(trend, step.to))
        })
        .quantity("bare goes left", Role::Impact, |(_, step)| step.left)
        .words("to the", |(_, step)| if step.left > 0.0 { "left" } else { "right" })
        .words("bare and fletched", |(_, step)| if step.nearer { "nearer" } else { "farther" })
        .done()
}

/// One step of a trend.
struct Step {
    to: f64,
    /// How far it moves the bare shaft against the fletched one, m.
    left: f64,
    /// Whether it brings them nearer.
    nearer: bool,
}

fn step(trend: &Trend, mark: usize) -> Option<Step> {
    let middle = trend.points.len() / 2;
    let place = |at: usize| trend.points.get(at)?.shot.as_ref().ok()?.apart.get(mark).copied()?;
    let own = place(middle)?;
    let beside = [middle + 1, middle.checked_sub(1)?];
    let (at, next) = beside.into_iter().find_map(|at| Some((at, place(at)?)))?;
    let far = |[left, up]: [f64; 2]| left.hypot(up);
    Some(Step { to: trend.points[at].value, left: next[0] - own[0], nearer: far(next) < far(own) })
}

/// Where other builds land, shot with the first one's aim.
pub(super) fn others(tuned: &Tuned, style: Style) -> Vec<String> {
    let Some(first) = tuned.builds.first() else { return Vec::new() };
    let other = |build: &TunedBuild| {
        let (at, offset) = super::words::farthest(&build.against)?;
        let range = plain(Role::Range, tuned.distances[at].si(), style);
        let known = band(&offset.size, style);
        Some(match direction([offset.left.value, offset.up.value], style) {
            Some(place) => format!(
                "With the same aim \"{}\" lands {place} of \"{}\" at {range} ({known}).",
                build.name, first.name
            ),
            None => format!(
                "With the same aim \"{}\" and \"{}\" land in one place at {range} ({known}).",
                build.name, first.name
            ),
        })
    };
    tuned.builds.iter().skip(1).filter_map(other).collect()
}
