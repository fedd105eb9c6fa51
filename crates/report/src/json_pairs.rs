//! Comparisons and the trade's claims on their way to JSON.

use study::{Ends, EndsView, Finding, Lever, Pair, PairMark, Seen, Shots, TradeClaim};
use target::Estimate;

use crate::show;
use crate::tree::Node;

/// A build against the base.
pub(crate) fn pair(pair: &Pair) -> Node {
    Node::Map(vec![
        ("base", Node::size(pair.base, "index")),
        ("other", Node::size(pair.other, "index")),
        ("marks", Node::list(&pair.marks, pair_mark)),
    ])
}

fn pair_mark(mark: &PairMark) -> Node {
    Node::Map(vec![
        ("distance", Node::Number(mark.distance.si(), "m")),
        ("full_ratio", Node::maybe(mark.full_ratio.as_ref(), "1")),
        ("full_group_is_a_point", point(mark.full_ratio.as_ref())),
        ("machine_ratio", Node::maybe(mark.machine_ratio.as_ref(), "1")),
        ("machine_group_is_a_point", point(mark.machine_ratio.as_ref())),
        ("gain_r50", Node::estimate(&mark.gain, "m")),
        ("archer_shots", shots(mark.archer_shots)),
        ("machine_shots", shots(mark.machine_shots)),
        ("seen", seen(mark.seen)),
    ])
}

fn seen(seen: Seen) -> Node {
    Node::text(match seen {
        Seen::Archer => "archer",
        Seen::MachineOnly => "machine_only",
        Seen::Nobody => "nobody",
    })
}

/// Which of two groups has no spread: "base", "other" or nothing.
pub(crate) fn point(ratio: Option<&Estimate>) -> Node {
    show::point(ratio).map_or(Node::Null, Node::text)
}

pub(crate) fn shots(shots: Shots) -> Node {
    match shots {
        Shots::Each(count) => Node::Map(vec![("each", Node::Count(count.into(), "shots"))]),
        Shots::MoreThan(limit) => {
            Node::Map(vec![("more_than", Node::Count(limit.into(), "shots"))])
        }
    }
}

/// A claim of the trade with the finding.
pub(crate) fn trade(claim: &TradeClaim) -> Node {
    let (name, first, second, unit) = match claim.claim {
        EndsView::LooksTrue => ("looks_true", "run_out_median", "gauge_step", "m"),
        EndsView::FrontOutweighsNock => {
            ("front_outweighs_nock", "front_end_r50", "nock_end_r50", "m")
        }
        EndsView::MachineNotShooter => {
            ("machine_not_shooter", "machine_shots", "archer_shots", "shots")
        }
        EndsView::MachineNotShooterEndsAlone => {
            ("machine_not_shooter_ends_alone", "machine_shots", "archer_shots", "shots")
        }
    };
    Node::Map(vec![
        ("claim", Node::text(name)),
        (
            "finding",
            Node::text(match claim.finding {
                Finding::Agrees => "agrees",
                Finding::InDirection => "in_direction",
                Finding::Disagrees => "disagrees",
            }),
        ),
        (first, Node::Number(claim.numbers.0, unit)),
        (second, Node::Number(claim.numbers.1, unit)),
    ])
}

/// What the ends do on their own.
pub(crate) fn ends(ends: &Ends) -> Node {
    let alone = ends.alone.as_ref().map_or(Node::Null, |alone| {
        Node::Map(vec![
            ("base_machine_r50", Node::estimate(&alone.base_r50, "m")),
            ("other_machine_r50", Node::estimate(&alone.other_r50, "m")),
            ("machine_ratio", Node::maybe(alone.machine_ratio.as_ref(), "1")),
            ("machine_group_is_a_point", point(alone.machine_ratio.as_ref())),
            ("archer_shots", shots(alone.archer_shots)),
            ("machine_shots", shots(alone.machine_shots)),
            ("seen", seen(alone.seen)),
        ])
    });
    Node::Map(vec![("front", lever(&ends.front)), ("nock", lever(&ends.nock)), ("alone", alone)])
}

fn lever(lever: &Lever) -> Node {
    Node::Map(vec![
        ("groove_offset_median", Node::Number(lever.groove_offset, "m")),
        ("balance_offset_median", Node::Number(lever.balance_offset, "m")),
        ("shaft_tilt_median", Node::Number(lever.shaft_tilt, "rad")),
        ("point_tilt_median", Node::Number(lever.point_tilt, "rad")),
        ("lean_limit", lever.lean_limit.map_or(Node::Null, |limit| Node::Number(limit, "rad"))),
        ("machine_r50_fit_band", lever.fit_band.map_or(Node::Null, |band| Node::band(band, "m"))),
    ])
}
