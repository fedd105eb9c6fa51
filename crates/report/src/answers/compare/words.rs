//! Sentences on builds held side by side.

use study::{
    Answer, BuildAnswer, Farthest, Measure, Misjudgement, Shots, SidePair, Sides, Stated,
    TargetChoice,
};
use units::{Role, Style};

use super::Shown;
use crate::show::{about, middle, plain, share};

/// What a share of hits leaves out. Never shown apart from it.
pub(crate) const NO_LICENCE: &str = "A share of hits is no licence to shoot. It is computed for a \
    target that keeps still: it leaves out what an animal does while the arrow flies, your own \
    judgement of the shot, and the law. Take it as a reason to move closer, never to shoot farther.";

/// Measures worth a word, best first named.
const TOLD: [(Measure, &str); 6] = [
    (Measure::Score, "scores most"),
    (Measure::Hit, "hits most often"),
    (Measure::R50, "groups tightest"),
    (Measure::Drop, "drops least"),
    (Measure::Drift, "drifts least"),
    (Measure::Energy, "carries most energy"),
];

/// Which build does best in what, at the middle distance; none with one build.
pub(crate) fn best(answer: &Answer, sides: &Sides, style: Style) -> Option<String> {
    if sides.pairs.is_empty() {
        return None;
    }
    let base = &answer.builds[0];
    let at = middle(base);
    let range = plain(Role::Range, base.marks[at].distance.si(), style);
    let face = matches!(answer.target, TargetChoice::Face { .. });
    let (mut found, mut none): (Vec<(usize, Vec<String>)>, Vec<&str>) = (Vec::new(), Vec::new());
    for (of, words) in TOLD {
        if (of == Measure::Score && !face) || (of == Measure::Hit && face) {
            continue;
        }
        let shown = Shown::of(of, answer, style);
        match winner(sides, answer.builds.len(), at, shown) {
            Some(build) => {
                let value = shown.role.text(shown.si(number(answer, sides, build, at, of)), style);
                let said = match of {
                    Measure::Drift => format!("{words} ({value} {})", each(style)),
                    Measure::R50 => format!("{words} (R50 {value})"),
                    Measure::Score => format!("{words} ({value} an arrow)"),
                    _ => format!("{words} ({value})"),
                };
                match found.iter_mut().find(|(known, _)| *known == build) {
                    Some((_, all)) => all.push(said),
                    None => found.push((build, vec![said])),
                }
            }
            None => none.push(words),
        }
    }
    let count = answer.builds.len();
    let named: Vec<String> = found
        .iter()
        .map(|(build, all)| format!("\"{}\" {}", answer.builds[*build].name, listed(all, "and")))
        .collect();
    if named.is_empty() {
        return Some(format!(
            "At {range} none of the {count} builds is shown to differ from all others."
        ));
    }
    let none: Vec<String> = none.iter().map(|words| (*words).to_owned()).collect();
    let open = if none.is_empty() {
        String::new()
    } else {
        format!(" Which one {} is not shown.", listed(&none, "or"))
    };
    Some(format!("Of the {count} builds at {range}, {}.{open}", named.join("; ")))
}

fn each(style: Style) -> &'static str {
    match style {
        Style::Archery => "for each mph of cross wind",
        Style::Metric => "for each m/s of cross wind",
    }
}

/// The build that is shown to be better than every other.
fn winner(sides: &Sides, builds: usize, at: usize, shown: Shown) -> Option<usize> {
    (0..builds).find(|&build| {
        let others = sides.pairs.iter().filter(|pair| pair.one == build || pair.other == build);
        others.clone().count() > 0
            && others.clone().all(|pair| {
                let found = pair.marks[at].differences.iter().find(|d| d.of == shown.of);
                found.is_some_and(|d| {
                    let rises = d.value.value > 0.0;
                    // The difference is the other less the one.
                    let wins_more = if pair.other == build { rises } else { !rises };
                    // Drift to either side counts by its size; a cross wind
                    // from the right drives every arrow left.
                    d.shown() && wins_more == shown.more_is_better()
                })
            })
    })
}

/// A measure of one build, SI.
pub(crate) fn number(answer: &Answer, sides: &Sides, build: usize, at: usize, of: Measure) -> f64 {
    let mark = &answer.builds[build].marks[at];
    match of {
        Measure::Drop => mark.nominal.drop,
        Measure::Drift => sides.builds[build].marks[at].drift.value,
        Measure::Time => mark.nominal.time,
        Measure::Speed => mark.nominal.speed,
        Measure::Energy => mark.nominal.energy,
        Measure::Momentum => mark.nominal.momentum,
        Measure::R50 => mark.full.stats.r50.value,
        Measure::Hit => mark.hit.value,
        Measure::Score => mark.score.map_or(0.0, |score| score.value),
    }
}

/// How far the stated share of hits holds, a sentence a build; empty if it was
/// not stated.
pub(crate) fn reach(answer: &Answer, sides: &Sides, style: Style) -> Vec<String> {
    let Some(wanted) = sides.stated.hit_share else { return Vec::new() };
    let share = share(wanted.si());
    let counts = super::hits(answer);
    let mut said = Vec::new();
    for (build, side) in answer.builds.iter().zip(&sides.builds) {
        let Some(reach) = &side.reach else { continue };
        let first = format!(
            "With \"{}\" the share of {counts} is {share} or more {}.",
            build.name,
            farthest(build, reach.farthest, style)
        );
        let name = if answer.builds.len() > 1 {
            first
        } else {
            first.replacen(&format!("With \"{}\" the", build.name), "The", 1)
        };
        let with = reach.misjudged.map(|misjudged| {
            let (wrong, holds) =
                (misjudgement(&sides.stated, style), farthest(build, misjudged, style));
            format!(" With {wrong}, the worst way: {holds}.")
        });
        said.push(format!("{name}{}", with.unwrap_or_default()));
    }
    said
}

fn farthest(build: &BuildAnswer, farthest: Farthest, style: Style) -> String {
    let place = |length: units::Length| format!("{:.1}", Role::Range.value(length.si(), style));
    let unit = Role::Range.symbol(style);
    let ends = |at: usize| plain(Role::Range, build.marks[at].distance.si(), style);
    let last = build.marks.len() - 1;
    match farthest {
        Farthest::Nowhere => format!("at no distance asked, not even {}", ends(0)),
        Farthest::Throughout { sure: true } => {
            format!("at every distance asked, up to {}; nothing beyond was looked at", ends(last))
        }
        Farthest::Throughout { sure: false } => format!(
            "at every distance asked, up to {}, though its 95 % interval reaches below; nothing \
             beyond was looked at",
            ends(last)
        ),
        Farthest::To { distance, low, high } => {
            let time = flight_time(build, distance.si());
            let low = low.map_or_else(
                || format!("below {}", ends(0)),
                |low| format!("{} {unit}", place(low)),
            );
            let high = high.map_or_else(
                || format!("beyond {}", ends(last)),
                |high| format!("{} {unit}", place(high)),
            );
            format!(
                "up to {} {unit} (95 % interval {low} to {high}), where the arrow flies for {}",
                place(distance),
                Role::Time.text(time, style)
            )
        }
    }
}

/// Time of flight between two distances asked, along a straight line.
fn flight_time(build: &BuildAnswer, distance: f64) -> f64 {
    let marks = &build.marks;
    let after = marks.iter().position(|mark| mark.distance.si() >= distance);
    let after = after.unwrap_or(marks.len() - 1).max(1).min(marks.len() - 1);
    let (a, b) = (&marks[after.saturating_sub(1)], &marks[after]);
    let width = b.distance.si() - a.distance.si();
    let part = if width > 0.0 { (distance - a.distance.si()) / width } else { 0.0 };
    a.nominal.time + part * (b.nominal.time - a.nominal.time)
}

/// What is stated to be misjudged.
fn misjudgement(stated: &Stated, style: Style) -> String {
    let range = stated.range_error.map(|error| {
        format!("the distance misjudged by {}", plain(Role::Range, error.si(), style))
    });
    let wind = stated
        .wind_error
        .map(|wind| format!("a cross wind of {} unnoticed", plain(Role::Wind, wind.si(), style)));
    [range, wind].into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

/// One misjudgement in words.
pub(crate) fn wrong(what: Misjudgement, stated: &Stated, style: Style) -> String {
    let range = stated.range_error.map_or(0.0, units::Length::si);
    let range = plain(Role::Range, range, style);
    let wind = plain(Role::Wind, stated.wind_error.map_or(0.0, units::Speed::si), style);
    match what {
        Misjudgement::TooFar => format!("aimed {range} too far"),
        Misjudgement::TooNear => format!("aimed {range} too near"),
        Misjudgement::WindFromRight => format!("{wind} unseen from right"),
        Misjudgement::WindFromLeft => format!("{wind} unseen from left"),
    }
}

/// Whether anyone would see two builds differ, at the middle distance.
pub(crate) fn told(answer: &Answer, sides: &Sides, pair: &SidePair, style: Style) -> String {
    let base = &answer.builds[0];
    let at = middle(base);
    let mark = &pair.marks[at];
    let (one, other) = (&answer.builds[pair.one].name, &answer.builds[pair.other].name);
    let range = plain(Role::Range, mark.distance.si(), style);
    let known = mark.archer.ratio.is_none_or(|ratio| ratio.low > 1.0 || ratio.high < 1.0);
    if !known {
        return format!(
            "At {range} the archer's groups with \"{one}\" and \"{other}\" are not shown to differ \
             in size, so there is nothing to see; a verdict either way would be chance."
        );
    }
    let telling = &sides.stated.telling;
    let six = mark.archer.after.iter().find(|after| after.shots == SIX);
    let wrong = six.map_or_else(String::new, |after| {
        format!(
            " After {SIX} shots with each, the smaller group is the wrong build's {} times in 100.",
            (100.0 * after.odds.wrong).round()
        )
    });
    format!(
        "At {range}, to tell \"{other}\" from \"{one}\" by their groups ({} confidence, {} power) \
         takes the archer {} shots with each, a shooting machine {}.{wrong}",
        share(telling.confidence()),
        share(telling.power()),
        count(mark.archer.shots),
        count(mark.machine.shots),
    )
}

/// Who would win a round, at the middle distance; none for a zone.
pub(crate) fn duel(answer: &Answer, pair: &SidePair, style: Style) -> Option<String> {
    let at = middle(&answer.builds[0]);
    let mark = &pair.marks[at];
    let duel = mark.duel?;
    let (one, other) = (&answer.builds[pair.one].name, &answer.builds[pair.other].name);
    let range = plain(Role::Range, mark.distance.si(), style);
    let [first, second] = [duel.first, duel.second].map(|chance| (100.0 * chance).round());
    // What is left, so that the three add to 100.
    let same = (100.0 - first - second).max(0.0);
    Some(format!(
        "Of 100 rounds at {range} with each, the same archer scores more with \"{one}\" in {first}, \
         with \"{other}\" in {second}, and the same in {same}."
    ))
}

/// Shots of the sentence. Chosen: what most people fire before they judge.
const SIX: u32 = 6;

fn count(shots: Shots) -> String {
    about(shots)
}

/// "a, b and c".
fn listed(all: &[String], joint: &str) -> String {
    match all {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} {joint} {last}", most.join(", ")),
    }
}
