//! Readings of end faces, one to a row.

use std::path::Path;

use study::workbench::{FaceReading, Where};
use units::Dimension::Length;
use workbench::{Gauge, Gauged};

use super::column::{ARROW, GAUGE, Holds, PART, columns, may, need, words};
use super::settle::{CORRECTION, Rule, settle};
use super::sheet::{Row, Sheet, read};
use super::{Opened, Table, TableMistake};
use crate::Report;

/// Where a gauge was held.
const PLACES: [(&str, Where); 5] = [
    ("front", Where::Front),
    ("insert", Where::Insert),
    ("rear", Where::Rear),
    ("point", Where::Point),
    ("nock", Where::Nock),
];

/// How a face was read.
#[derive(Clone, Copy)]
enum How {
    Leaf,
    Light,
    Dial,
    Wobble,
    Strokes,
}

const WAYS: [(&str, How); 5] = [
    ("leaf", How::Leaf),
    ("light", How::Light),
    ("dial", How::Dial),
    ("wobble", How::Wobble),
    ("strokes", How::Strokes),
];
const SEEN: [(&str, bool); 2] = [("yes", true), ("no", false)];

/// Chosen: no step or stroke is coarser.
const STEP: Holds = Holds::Amount(Length, 0.0, 1e-3, PART);

/// Readings of one face with one gauge, as often as it was read.
pub(super) const RULE: Rule =
    Rule { keys: &[("arrow", ""), ("where", ""), ("stage", ""), ("gauge", "")], repeats: true };

columns! { Faces {
    Arrow ARROW;
    Place need("where", &["end", "face"], Holds::Word(&words(&PLACES)));
    Stage may("stage", &["when"], Holds::Text);
    Gauge need("gauge", &["how", "method"], Holds::Word(&words(&WAYS)));
    Reading may("reading", &["gap", "tir", "total"], GAUGE);
    Step may("step", &["resolution"], STEP);
    Across may("across", &["diameter"], Holds::Amount(Length, 5e-4, 0.05, PART));
    Radius may("radius", &[], Holds::Amount(Length, 2e-4, 0.05, PART));
    Ahead may("ahead", &["seat to tip"], Holds::Amount(Length, 1e-3, 0.5, PART));
    Light may("light", &["light seen"], Holds::Word(&words(&SEEN)));
    Refused may("refused", &["leaf that does not go"], GAUGE);
    Count may("count", &["strokes"], Holds::Whole(10_000));
    Depth may("depth", &["depth of a stroke"], STEP);
    DepthGive may("depth give", &["depth range"], STEP);
} and CORRECTION }

/// Reads readings of end faces.
///
/// # Errors
/// Every mistake of the file.
pub fn faces(path: &Path, bytes: Opened) -> Result<Table<FaceReading>, Report> {
    read(path, bytes, 1, |sheet, rows| {
        let standing = settle(sheet, rows, &RULE).rows;
        standing.iter().filter_map(|row| face(sheet, row)).collect()
    })
}

fn face(sheet: &mut Sheet, row: &Row<Faces>) -> Option<FaceReading> {
    let way = row.meaning(Faces::Gauge, &WAYS);
    let gauge = way.and_then(|way| gauge(sheet, row, way));
    Some(FaceReading {
        name: row.text(Faces::Arrow)?.to_owned(),
        at: row.meaning(Faces::Place, &PLACES)?,
        stage: row.text(Faces::Stage).unwrap_or_default().to_owned(),
        gauge: gauge?,
    })
}

fn gauge(sheet: &mut Sheet, row: &Row<Faces>, how: How) -> Option<Gauge> {
    use Faces::{Across, Ahead, Count, Depth, DepthGive, Light, Radius, Reading, Refused, Step};
    let (who, needed): (_, &[Faces]) = match how {
        How::Leaf => ("a leaf reading", &[Reading, Step, Across]),
        How::Light => ("a light reading", &[Refused, Across, Light]),
        How::Dial => ("a dial reading", &[Reading, Step, Radius]),
        How::Wobble => ("a wobble reading", &[Reading, Step, Ahead]),
        How::Strokes => ("a strokes reading", &[Depth, DepthGive, Across, Count]),
    };
    for column in needed {
        sheet.need(row, *column, who);
    }
    let of = if matches!(how, How::Wobble) { Gauged::Wobble } else { Gauged::Face };
    for column in [Reading, Refused] {
        if let Some(Err(why)) = row.si(column).map(|reading| of.sound(reading)) {
            sheet.tell_cell(row, column, TableMistake::Unsound(why.to_string()));
        }
    }
    let (total, step, across) = (row.get(Reading), row.get(Step), row.get(Across));
    Some(match how {
        How::Leaf => Gauge::Leaf { gap: total?, step: step?, across: across? },
        How::Light => Gauge::Light {
            seen: row.meaning(Light, &SEEN)?,
            refused: row.get(Refused)?,
            across: across?,
        },
        How::Dial => Gauge::Dial { total: total?, step: step?, radius: row.get(Radius)? },
        How::Wobble => Gauge::Wobble { total: total?, step: step?, ahead: row.get(Ahead)? },
        How::Strokes => Gauge::Strokes {
            count: row.whole(Count)?,
            depth: row.get(Depth)?,
            depth_give: row.get(DepthGive)?,
            across: across?,
        },
    })
}
