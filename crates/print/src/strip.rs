//! One strip on the page.

use crate::choose::{Rank, marks, number};
use crate::error::PrintError;
use crate::letters::FIGURE;
use crate::look::{Ink, Look, mm};
use crate::sheet::{BLACK, FAINT, Grey, Sheet, Side, Spot, Type, WHITE};
use crate::tape::{Strip, TapeMark};

/// Height of the tall numbers, mm. Chosen: 3 mm at arm's length, 0.65 m, is 16
/// minutes of arc, the least that standards for screens ask for (from memory).
pub(crate) const TALL: f64 = 3.0;
/// Small numbers over tall ones. Chosen.
pub(crate) const SMALL: f64 = 0.7;
/// Beyond the last mark, mm. Chosen: a finger's hold.
const TAIL: f64 = 6.0;
/// Ground printed beyond the cut, mm. Chosen: hides a cut that wanders.
pub(crate) const BLEED: f64 = 1.0;
/// Length of crop marks, mm, and their distance from the corner. Chosen.
const CROP: (f64, f64) = (3.0, 1.5);

/// Marks and numbers in one ink.
pub(crate) struct Pen {
    pub(crate) ground: Option<Grey>,
    pub(crate) ink: Grey,
    /// Width of a mark of each rank, mm.
    pub(crate) lines: [f64; 4],
}

impl Pen {
    /// Chosen: a printed line of 0.12 mm is the thinnest that prints whole;
    /// white on black is heavier, since ink creeps into it.
    pub(crate) const fn of(ink: Ink) -> Self {
        match ink {
            Ink::Day => Self { ground: None, ink: BLACK, lines: [0.3, 0.25, 0.16, 0.12] },
            Ink::LowLight => Self { ground: Some(BLACK), ink: WHITE, lines: [0.5, 0.4, 0.3, 0.25] },
        }
    }
}

/// Refuses marks that no strip can carry.
pub(crate) fn check(strip: &Strip) -> Result<(), PrintError> {
    let name = || strip.name.clone();
    if strip.marks.len() < 2 {
        return Err(PrintError::StripEmpty { strip: name(), marks: strip.marks.len() });
    }
    if let Some(mark) = strip.marks.iter().find(|mark| !mark.travel.is_finite()) {
        let (mark, value) = (f64::from(mark.halves) / 2.0, mark.travel);
        return Err(PrintError::NotFinite { strip: name(), mark, value });
    }
    let falls =
        |pair: &&[TapeMark]| pair[1].halves <= pair[0].halves || pair[1].travel <= pair[0].travel;
    match strip.marks.windows(2).find(falls) {
        Some(pair) => Err(PrintError::StripOrder {
            strip: name(),
            before: f64::from(pair[0].halves) / 2.0,
            after: f64::from(pair[1].halves) / 2.0,
        }),
        None => Ok(()),
    }
}

/// Length of a strip cut out, mm.
pub(crate) fn length(strip: &Strip, look: &Look) -> f64 {
    let travel = |mark: Option<&TapeMark>| mark.map_or(0.0, |mark| 1e3 * mark.travel);
    mm(look.offset) + travel(strip.marks.last()) - travel(strip.marks.first()) + TAIL
}

/// Draws a strip with its top left corner at a place.
pub(crate) fn draw(sheet: &mut Sheet, strip: &Strip, look: &Look, corner: Spot) {
    let (wide, long) = (mm(look.width), length(strip, look));
    let (left, top) = corner;
    let pen = Pen::of(look.ink);
    cut(sheet, corner, (wide, long), pen.ground);
    let mut drawn = marks(&strip.marks, look.finest, look.ink);
    // The longest number beside the longest mark must stay on the strip.
    let figures = drawn.last().map_or(2, |mark| text(mark.halves).len()).max(2);
    let room = (1.0 - SHARES[0]) * wide - 2.0 * BESIDE;
    let fits = room / Type::bold(1.0, pen.ink).length(&"0".repeat(figures));
    let size = fits.min(TALL / FIGURE);
    number(&mut drawn, FIGURE * size, SMALL * FIGURE * size);
    for mark in &drawn {
        let along = mm(look.offset) + mark.at;
        let y = if look.near_below { top + long - along } else { top + along };
        let rank = mark.rank as usize;
        let end = left + SHARES[rank] * wide;
        sheet.line((left, y), (end, y), pen.lines[rank], pen.ink);
        if mark.numbered {
            let tall = mark.rank == Rank::Ten;
            let look =
                if tall { Type::bold(size, pen.ink) } else { Type::plain(SMALL * size, pen.ink) };
            let base = y + 0.5 * FIGURE * look.size;
            sheet.text(&text(mark.halves), (end + BESIDE, base), Side::From, look);
        }
    }
}

/// Length of a mark of each rank over the strip's width. Chosen.
const SHARES: [f64; 4] = [0.46, 0.36, 0.25, 0.15];
/// Between a mark and its number, mm. Chosen.
const BESIDE: f64 = 0.7;

fn text(halves: u32) -> String {
    (halves / 2).to_string()
}

/// Ground, hairline or bleed, and crop marks at the corners.
pub(crate) fn cut(sheet: &mut Sheet, corner: Spot, size: Spot, ground: Option<Grey>) {
    let ((left, top), (wide, long)) = (corner, size);
    let (right, foot) = (left + wide, top + long);
    if let Some(ground) = ground {
        let size = (wide + 2.0 * BLEED, long + 2.0 * BLEED);
        sheet.block((left - BLEED, top - BLEED), size, ground);
    } else {
        let corners = [(left, top), (right, top), (right, foot), (left, foot), (left, top)];
        for pair in corners.windows(2) {
            sheet.line(pair[0], pair[1], 0.1, FAINT);
        }
    }
    for (x, away) in [(left, -1.0), (right, 1.0)] {
        for (y, out) in [(top, -1.0), (foot, 1.0)] {
            let (near, far) = (CROP.1, CROP.1 + CROP.0);
            sheet.line((x + away * near, y), (x + away * far, y), 0.15, BLACK);
            sheet.line((x, y + out * near), (x, y + out * far), 0.15, BLACK);
        }
    }
}
