//! Short names of things on the bench.

use arrow::PointShape;
use study::workbench::{Trait, WayKind, Where};
use units::{Length, Role, Style};

use crate::document::{Table, table_of};
use crate::show;

/// A trait of an arrow.
pub(super) fn trait_word(of: Trait) -> &'static str {
    match of {
        Trait::Mass => "weight",
        Trait::Balance => "balance",
        Trait::Spine => "spine",
        Trait::Stiff => "stiff side",
        Trait::Length => "length",
        Trait::RunOut => "run-out",
        Trait::Tip => "tip wobble",
        Trait::Groove => "nock wobble",
    }
}

/// A way to cut.
pub(super) fn way_word(kind: WayKind) -> &'static str {
    match kind {
        WayKind::Straightest => "straightest",
        WayKind::Closest => "hits closest",
        WayKind::FrontOnly => "point end only",
        WayKind::RearOnly => "nock end only",
        WayKind::Halves => "half each end",
    }
}

/// Where a gauge was held.
pub(super) fn where_word(at: Where) -> &'static str {
    match at {
        Where::Front => "front end face",
        Where::Insert => "insert face",
        Where::Rear => "rear end face",
        Where::Point => "point out of line",
        Where::Nock => "nock out of line",
    }
}

/// A point.
pub(super) fn shape_word(shape: PointShape) -> &'static str {
    match shape {
        PointShape::Streamlined => "streamlined",
        PointShape::Field => "field",
        PointShape::Bullet => "bullet",
        PointShape::Blunt => "blunt",
        PointShape::FixedBlade => "fixed blades",
        PointShape::ClosedBlade => "closed blades",
    }
}

/// The distance that decides, the last.
pub(super) fn last(distances: &[Length], style: Style) -> String {
    show::plain(Role::Range, distances.last().map_or(0.0, |d| d.si()), style)
}

/// The archer's own spread at each distance, one standard deviation.
pub(super) fn form(distances: &[Length], sigmas: &[f64]) -> Table {
    table_of("form", distances.iter().zip(sigmas))
        .quantity("distance", Role::Range, |(distance, _)| distance.si())
        .quantity("sigma", Role::Impact, |(_, sigma)| **sigma)
        .done()
}

/// How much a group grows, as a share.
pub(super) fn grows(over: f64) -> f64 {
    over - 1.0
}

/// The same in words, in per cent.
pub(super) fn growth(over: f64) -> String {
    let percent = 100.0 * (over - 1.0);
    if percent < 0.05 {
        "under 0.1 %".to_owned()
    } else if percent < 9.95 {
        format!("{percent:.1} %")
    } else {
        format!("{percent:.0} %")
    }
}

/// Names in a row: "1, 2 and 3".
pub(super) fn row<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    let names: Vec<&str> = names.into_iter().collect();
    match names.split_last() {
        None => "none".to_owned(),
        Some((only, [])) => (*only).to_owned(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
    }
}
