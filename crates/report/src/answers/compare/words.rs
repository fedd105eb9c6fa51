//! The sentences of a comparison.

use study::{BuildAnswer, BuildMeasure, Farthest, Misjudgement, SidePair, Stated};
use units::{Role, Style};

use super::case::Case;
use crate::show::{about, plain, share};
use crate::words::listed;

/// Measures worth a word, best first named.
const TOLD: [(BuildMeasure, &str); 6] = [
    (BuildMeasure::Score, "scores most"),
    (BuildMeasure::Hit, "hits most often"),
    (BuildMeasure::R50, "groups tightest"),
    (BuildMeasure::Drop, "drops least"),
    (BuildMeasure::Drift, "drifts least"),
    (BuildMeasure::Energy, "carries most energy"),
];

/// Which build does best in what, at the middle distance; none with one build.
pub(super) fn best(case: Case) -> Option<String> {
    if case.sides.pairs.is_empty() {
        return None;
    }
    let at = case.middle();
    let (range, face, style) = (case.range(at), case.face(), case.style);
    let (mut found, mut none): (Vec<(usize, Vec<String>)>, Vec<&str>) = (Vec::new(), Vec::new());
    for (of, words) in TOLD {
        let told = match of {
            BuildMeasure::Score => face && case.shot(),
            BuildMeasure::Hit => !face && case.shot(),
            _ => true,
        };
        if !told {
            continue;
        }
        match winner(case, at, of) {
            Some(build) => {
                let value = role(of).text(number(case, build, at, of), style);
                let said = match of {
                    BuildMeasure::R50 => format!("{words} (R50 {value})"),
                    BuildMeasure::Score => format!("{words} ({value} an arrow)"),
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
    let count = case.builds.len();
    let named: Vec<String> = found
        .iter()
        .map(|(build, all)| format!("\"{}\" {}", case.builds[*build].name, listed(all, "and")))
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

/// The build that is shown to be better than every other.
fn winner(case: Case, at: usize, of: BuildMeasure) -> Option<usize> {
    (0..case.builds.len()).find(|&build| {
        let others =
            case.sides.pairs.iter().filter(|pair| pair.one == build || pair.other == build);
        others.clone().count() > 0
            && others.clone().all(|pair| {
                let found = pair.marks[at].differences.iter().find(|d| d.of == of);
                found.is_some_and(|d| {
                    let rises = d.value.value > 0.0;
                    // The difference is the other less the one.
                    let wins_more = if pair.other == build { rises } else { !rises };
                    // Drift to either side counts by its size; a cross wind
                    // from the right drives every arrow left.
                    d.shown() && wins_more == more_is_better(of)
                })
            })
    })
}

/// Whether more of a measure is better.
fn more_is_better(of: BuildMeasure) -> bool {
    use BuildMeasure::{Energy, Hit, Momentum, Score, Speed};
    matches!(of, Speed | Energy | Momentum | Hit | Score)
}

/// A measure as it is called.
pub(super) fn measure(of: BuildMeasure, case: Case) -> &'static str {
    match of {
        BuildMeasure::Drop => "drop",
        BuildMeasure::Drift => drift(case.style),
        BuildMeasure::Time => "time of flight",
        BuildMeasure::Speed => "speed",
        BuildMeasure::Energy => "energy",
        BuildMeasure::Momentum => "momentum",
        BuildMeasure::R50 => "R50",
        BuildMeasure::Hit => case.hits(),
        BuildMeasure::Score => "score of an arrow",
    }
}

/// What a measure of flight or of a group is shown as.
pub(super) fn role(of: BuildMeasure) -> Role {
    match of {
        BuildMeasure::Drop | BuildMeasure::Drift | BuildMeasure::R50 => Role::Impact,
        BuildMeasure::Time => Role::Time,
        BuildMeasure::Speed => Role::Speed,
        BuildMeasure::Energy => Role::Energy,
        BuildMeasure::Momentum => Role::Momentum,
        BuildMeasure::Hit => Role::Percent,
        BuildMeasure::Score => Role::Number,
    }
}

/// The wind by which drift is told.
pub(super) fn drift(style: Style) -> &'static str {
    match style {
        Style::Archery => "drift in 10 mph of cross wind",
        Style::Metric => "drift in 4.5 m/s of cross wind",
    }
}

/// A measure of one build, SI.
pub(super) fn number(case: Case, build: usize, at: usize, of: BuildMeasure) -> f64 {
    let mark = &case.builds[build].marks[at];
    match of {
        BuildMeasure::Drop => mark.nominal.drop,
        BuildMeasure::Drift => case.sides.builds[build].marks[at].drift,
        BuildMeasure::Time => mark.nominal.time,
        BuildMeasure::Speed => mark.nominal.speed,
        BuildMeasure::Energy => mark.nominal.energy,
        BuildMeasure::Momentum => mark.nominal.momentum,
        BuildMeasure::R50 => mark.full.stats.r50.value,
        BuildMeasure::Hit => mark.hit.value,
        BuildMeasure::Score => mark.score.map_or(0.0, |score| score.value),
    }
}

/// How far the stated share of hits holds, a sentence a build; empty if it was
/// not stated.
pub(super) fn reach(case: Case) -> Vec<String> {
    let Some(wanted) = case.sides.stated.hit_share else { return Vec::new() };
    let (share, counts, style) = (share(wanted.si()), case.hits(), case.style);
    let mut said = Vec::new();
    for (build, side) in case.builds.iter().zip(&case.sides.builds) {
        let Some(reach) = side.reach.as_ref().filter(|_| case.shot()) else { continue };
        let first = format!(
            "With \"{}\" the share of {counts} is {share} or more {}.",
            build.name,
            farthest(build, reach.farthest, style)
        );
        let name = if case.builds.len() > 1 {
            first
        } else {
            first.replacen(&format!("With \"{}\" the", build.name), "The", 1)
        };
        let with = reach.misjudged.map(|misjudged| {
            let (wrong, holds) =
                (misjudgement(&case.sides.stated, style), farthest(build, misjudged, style));
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
pub(super) fn misjudgement(stated: &Stated, style: Style) -> String {
    let range = stated.range_error.map(|error| {
        format!("the distance misjudged by {}", plain(Role::Range, error.si(), style))
    });
    let wind = stated
        .wind_error
        .map(|wind| format!("a cross wind of {} unnoticed", plain(Role::Wind, wind.si(), style)));
    [range, wind].into_iter().flatten().collect::<Vec<_>>().join(" and ")
}

/// One misjudgement in words.
pub(super) fn wrong(what: Misjudgement, stated: &Stated, style: Style) -> String {
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
pub(super) fn told(case: Case, pair: &SidePair) -> String {
    let mark = &pair.marks[case.middle()];
    let (one, other) = (case.name(pair.one), case.name(pair.other));
    let range = case.range(case.middle());
    let known = mark.archer.ratio.is_none_or(|ratio| ratio.low > 1.0 || ratio.high < 1.0);
    if !known {
        return format!(
            "At {range} the archer's groups with \"{one}\" and \"{other}\" are not shown to differ \
             in size, so there is nothing to see; a verdict either way would be chance."
        );
    }
    let power_test = &case.sides.stated.power_test;
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
        share(power_test.confidence()),
        share(power_test.power()),
        about(mark.archer.shots),
        about(mark.machine.shots),
    )
}

/// Who would win a round, at the middle distance; none for a zone.
pub(super) fn duel(case: Case, pair: &SidePair) -> Option<String> {
    let duel = pair.marks[case.middle()].duel?;
    let (one, other) = (case.name(pair.one), case.name(pair.other));
    let range = case.range(case.middle());
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

/// Two builds of a pair in words.
pub(super) fn against(case: Case, pair: &SidePair) -> String {
    format!("\"{}\" against \"{}\"", case.name(pair.other), case.name(pair.one))
}

/// That fixed blades do not drift in proportion to the wind; none where none are shot in
/// a wind.
pub(super) fn blades_in_wind(case: Case) -> Option<&'static str> {
    let bladed = |build: &BuildAnswer| {
        let layout = &build.built.layout;
        layout.blade_front.si() < layout.tip.si()
    };
    blown(case, bladed).then_some(
        "Fixed blades in wind: drift grows less than the wind, groups draw together; scale neither.",
    )
}

/// Whether the wind carries a build of a kind by more than the width of an arrow.
pub(super) fn blown(case: Case, of: impl Fn(&BuildAnswer) -> bool) -> bool {
    /// Chosen: the width of an arrow, m.
    const WIDTH: f64 = 0.006;
    let at = case.middle();
    let mut sides = case.builds.iter().zip(&case.sides.builds);
    sides.any(|(build, side)| of(build) && side.marks[at].carried.abs() > WIDTH)
}

/// How to read R50 and drop.
pub(in super::super) const READ: &str = "R50: half of all arrows land within this distance of \
    their centre, with its 95 % interval. Drop: below the line of departure.";

/// How to read the rest of the table of distances.
pub(super) fn read_more(case: Case) -> String {
    let (doubt, power) = asked(case);
    format!(
        "Form's share: of the variance, form sigma squared over full sigma squared, of the first \
         build. Tells: shots with each build to tell them apart ({power} power, two-sided \
         {doubt})."
    )
}

/// How to read the tables of pairs.
pub(super) fn seen(case: Case) -> String {
    let (doubt, power) = asked(case);
    format!(
        "Gain: R50 of the base less that of the other build, so positive is tighter. Ratio: the \
         base's spread (sigma) over the other's; a build whose arrows all land in one point has \
         none, and two shots with each, the fewest that show any spread, tell it from one that \
         has. Tells: shots with each build until a test of the two groups shows the difference as \
         often as asked ({power} power, two-sided {doubt}). Seen by: within {} shots with each \
         build.",
        study::ARCHER_SHOTS
    )
}

/// What the confidence asked for leaves, and the power.
fn asked(case: Case) -> (String, String) {
    let power_test = &case.sides.stated.power_test;
    (share(1.0 - power_test.confidence()), share(power_test.power()))
}

#[cfg(test)]
mod tests {
    use units::{Dimension, Style, parse_si};

    use super::drift;

    #[test]
    fn exact_the_wind_of_drift_is_the_one_that_is_named() {
        for (style, wind) in [(Style::Archery, "10 mph"), (Style::Metric, "4.5 m/s")] {
            assert!(drift(style).contains(wind));
            let named = parse_si(Dimension::Speed, wind).unwrap();
            assert!((named - study::DRIFT_WIND).abs() < 0.05, "{named}");
        }
    }
}
