//! Builds held side by side on their way to JSON.

use study::{
    After, Difference, Farthest, Measure, Misjudged, Misjudgement, Reach, RoundScore, Side,
    SideMark, SidePair, SidePairMark, Sides, Stated, Told,
};

use crate::json_pairs::{point, shots};
use crate::tree::Node;

pub(crate) fn tree(sides: &Sides) -> Node {
    Node::Map(vec![
        ("stated", stated(&sides.stated)),
        ("builds", Node::list(&sides.builds, side)),
        ("pairs", Node::list(&sides.pairs, pair)),
    ])
}

fn maybe(value: Option<f64>, unit: &'static str) -> Node {
    value.map_or(Node::Null, |value| Node::Number(value, unit))
}

fn stated(stated: &Stated) -> Node {
    Node::Map(vec![
        ("confidence", Node::Number(stated.telling.confidence(), "1")),
        ("power", Node::Number(stated.telling.power(), "1")),
        ("range_error", maybe(stated.range_error.map(units::Length::si), "m")),
        ("wind_error", maybe(stated.wind_error.map(units::Speed::si), "m/s")),
        ("hit_share", maybe(stated.hit_share.map(units::Ratio::si), "1")),
        ("round", stated.round.map_or(Node::Null, |n| Node::Count(n.into(), "arrows"))),
    ])
}

fn side(side: &Side) -> Node {
    Node::Map(vec![
        ("marks", Node::list(&side.marks, mark)),
        ("reach", side.reach.as_ref().map_or(Node::Null, reach)),
    ])
}

fn mark(mark: &SideMark) -> Node {
    Node::Map(vec![
        ("distance", Node::Number(mark.distance.si(), "m")),
        ("drift_per_cross_wind", Node::Number(mark.drift.value, "m/(m/s)")),
        ("drift_band", Node::band((mark.drift.low, mark.drift.high), "m/(m/s)")),
        ("misjudged", Node::list(&mark.misjudged, misjudged)),
        ("round", mark.round.as_ref().map_or(Node::Null, round)),
    ])
}

fn misjudged(misjudged: &Misjudged) -> Node {
    Node::Map(vec![
        ("what", Node::text(word(misjudged.what))),
        ("shift_left", Node::Number(misjudged.shift.left, "m")),
        ("shift_up", Node::Number(misjudged.shift.up, "m")),
        ("hit", Node::estimate(&misjudged.hit, "1")),
        ("score", Node::maybe(misjudged.score.as_ref(), "points")),
    ])
}

/// A misjudgement as files name it.
pub(super) fn word(what: Misjudgement) -> &'static str {
    match what {
        Misjudgement::TooFar => "distance_too_far",
        Misjudgement::TooNear => "distance_too_near",
        Misjudgement::WindFromRight => "wind_from_right",
        Misjudgement::WindFromLeft => "wind_from_left",
    }
}

fn round(round: &RoundScore) -> Node {
    Node::Map(vec![
        ("arrows", Node::Count(round.arrows.into(), "arrows")),
        ("mean", Node::estimate(&round.mean, "points")),
        ("deviation", Node::Number(round.deviation, "points")),
        ("low95", Node::Count(round.low.into(), "points")),
        ("high95", Node::Count(round.high.into(), "points")),
    ])
}

/// Said wherever a farthest distance stands.
const CAUTION: &str = super::say::NO_LICENCE;

fn reach(reach: &Reach) -> Node {
    Node::Map(vec![
        ("caution", Node::text(CAUTION)),
        ("farthest", farthest(&reach.farthest)),
        ("farthest_misjudged", reach.misjudged.as_ref().map_or(Node::Null, farthest)),
        (
            "curve",
            Node::list(&reach.curve, |mark| {
                Node::Map(vec![
                    ("distance", Node::Number(mark.distance.si(), "m")),
                    ("hit", Node::estimate(&mark.hit, "1")),
                    ("hit_misjudged", Node::maybe(mark.misjudged.as_ref(), "1")),
                ])
            }),
        ),
    ])
}

fn farthest(farthest: &Farthest) -> Node {
    let kind = |word| ("holds", Node::text(word));
    let length = |length: Option<units::Length>| maybe(length.map(units::Length::si), "m");
    Node::Map(match farthest {
        Farthest::Nowhere => vec![kind("nowhere")],
        Farthest::Throughout { sure } => vec![kind("throughout"), ("sure", Node::Flag(*sure))],
        Farthest::To { distance, low, high } => vec![
            kind("to"),
            ("distance", length(Some(*distance))),
            ("low95", length(*low)),
            ("high95", length(*high)),
        ],
    })
}

fn pair(pair: &SidePair) -> Node {
    Node::Map(vec![
        ("one", Node::size(pair.one, "index")),
        ("other", Node::size(pair.other, "index")),
        ("marks", Node::list(&pair.marks, pair_mark)),
    ])
}

fn pair_mark(mark: &SidePairMark) -> Node {
    let duel = mark.duel.map_or(Node::Null, |duel| {
        Node::Map(vec![
            ("one_scores_more", Node::Number(duel.first, "1")),
            ("tie", Node::Number(duel.tie, "1")),
            ("other_scores_more", Node::Number(duel.second, "1")),
        ])
    });
    Node::Map(vec![
        ("distance", Node::Number(mark.distance.si(), "m")),
        ("other_less_one", Node::list(&mark.differences, difference)),
        ("archer", told(&mark.archer)),
        ("machine", told(&mark.machine)),
        ("round", duel),
    ])
}

/// A measure as files name it, and its SI unit.
pub(super) fn measure(of: Measure) -> (&'static str, &'static str) {
    match of {
        Measure::Drop => ("drop", "m"),
        Measure::Drift => ("drift_per_cross_wind", "m/(m/s)"),
        Measure::Time => ("time", "s"),
        Measure::Speed => ("speed", "m/s"),
        Measure::Energy => ("energy", "J"),
        Measure::Momentum => ("momentum", "kg m/s"),
        Measure::R50 => ("r50", "m"),
        Measure::Hit => ("hit", "1"),
        Measure::Score => ("score", "points"),
    }
}

fn difference(difference: &Difference) -> Node {
    let (name, unit) = measure(difference.of);
    let Node::Map(estimate) = Node::estimate(&difference.value, unit) else { return Node::Null };
    let mut map = vec![("of", Node::text(name)), ("shown", Node::Flag(difference.shown()))];
    map.extend(estimate);
    Node::Map(map)
}

fn told(told: &Told) -> Node {
    Node::Map(vec![
        ("ratio", Node::maybe(told.ratio.as_ref(), "1")),
        ("group_is_a_point", point(told.ratio.as_ref())),
        ("shots", shots(told.shots)),
        ("after", Node::list(&told.after, after)),
    ])
}

fn after(after: &After) -> Node {
    Node::Map(vec![
        ("shots", Node::Count(after.shots.into(), "shots")),
        ("smaller_group_wrong", Node::Number(after.odds.wrong, "1")),
        ("test_sees_nothing", Node::Number(after.odds.missed, "1")),
        ("test_says_the_opposite", Node::Number(after.odds.reversed, "1")),
        ("picked_smaller_group_wrong", Node::Number(after.picked_wrong, "1")),
        ("picked_test_sees_nothing", Node::Number(after.picked_missed, "1")),
    ])
}
