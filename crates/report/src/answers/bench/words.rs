//! Short names of things on the bench.

use arrow::PointShape;
use study::workbench::{Trait, WayKind, Where};
use study::{ARCHER_SHOTS, Banded, MOST_SHOTS};
use target::PowerTest;
use units::{Length, Role, Style};
use workbench::Span;

use crate::document::{Table, table_of};
pub(super) use crate::prose::row;
use crate::show;

/// Rows of the short answer. Chosen: a dozen arrows.
pub(super) const ROWS: usize = 12;

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
        WayKind::Listed => "as listed",
        WayKind::Straightest => "reads straightest",
        WayKind::Uncut => "uncut",
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

/// What a gauge leaves as a band.
pub(super) fn band(span: &Span) -> Banded {
    Banded { value: span.value, low: span.low, high: span.high }
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

/// Whether an archer would see a group grow from one size to another, both over that
/// with faultless arrows: a sentence.
pub(super) fn would_see(small: f64, large: f64) -> String {
    let ratio = large / small;
    if ratio < 1.0 + 1e-4 {
        return "Nobody would see a difference.".to_owned();
    }
    let shots = PowerTest::default().shots(ratio, MOST_SHOTS);
    match shots {
        Some(shots) if shots <= ARCHER_SHOTS => {
            format!("This archer would see that within {shots} shots each way.")
        }
        Some(shots) => format!(
            "No archer would see that: it takes {} shots each way to show.",
            show::count(shots.into())
        ),
        None => format!(
            "Nobody would see that: it takes more than {} shots each way to show.",
            show::count(MOST_SHOTS.into())
        ),
    }
}

/// The archer's group with arrows that spread by so much, over that with faultless ones.
pub(super) fn grown(spread: f64, sigma: f64) -> f64 {
    if sigma > 0.0 { (1.0 + spread * spread / (2.0 * sigma * sigma)).sqrt() } else { 1.0 }
}

/// A face against the limits of the bench.
pub(super) fn face_word(verdict: study::workbench::FaceVerdict) -> &'static str {
    use study::workbench::FaceVerdict::{AsIs, Reject, Square};
    match verdict {
        AsIs => "as is",
        Square => "square it",
        Reject => "reject",
    }
}
