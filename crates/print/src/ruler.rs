//! Rulers that show whether the printer kept the scale.

use crate::letters::FIGURE;
use crate::sheet::{BLACK, SOFT, Sheet, Side, Spot, Type};

/// Length of the rulers, mm.
const LENGTH: u32 = 100;
/// Size of their numbers, mm.
const SIZE: f64 = 2.6;

/// Lengths of ticks of a millimetre scale, mm.
fn tick(at: u32) -> f64 {
    match at {
        at if at % 10 == 0 => 4.0,
        at if at % 5 == 0 => 3.0,
        _ => 2.0,
    }
}

/// A ruler of 100 mm to the right of a place, millimetres above, inches below.
pub(crate) fn across(sheet: &mut Sheet, (left, y): Spot) {
    let end = left + f64::from(LENGTH);
    sheet.line((left, y), (end, y), 0.2, BLACK);
    for at in 0..=LENGTH {
        let x = left + f64::from(at);
        sheet.line((x, y), (x, y - tick(at)), 0.15, BLACK);
        if at % 10 == 0 {
            let look = Type::plain(SIZE, BLACK);
            sheet.text(&at.to_string(), (x, y - 5.0), Side::About, look);
        }
    }
    for eighth in 0..=31_u32 {
        let x = left + 25.4 * f64::from(eighth) / 8.0;
        let long = if eighth % 8 == 0 { 4.0 } else { 2.0 };
        sheet.line((x, y), (x, y + long), 0.15, BLACK);
        if eighth % 8 == 0 {
            let look = Type::plain(SIZE, SOFT);
            let base = y + 4.8 + FIGURE * SIZE;
            sheet.text(&(eighth / 8).to_string(), (x, base), Side::About, look);
        }
    }
    let look = Type::plain(SIZE, BLACK);
    sheet.text("mm", (end + 3.5, y - 5.0), Side::From, look);
    let look = Type::plain(SIZE, SOFT);
    sheet.text("in", (end + 3.5, y + 4.8 + FIGURE * SIZE), Side::From, look);
}

/// A ruler of 100 mm down from a place.
pub(crate) fn down(sheet: &mut Sheet, (x, top): Spot) {
    sheet.line((x, top), (x, top + f64::from(LENGTH)), 0.2, BLACK);
    for at in 0..=LENGTH {
        let y = top + f64::from(at);
        sheet.line((x, y), (x - tick(at), y), 0.15, BLACK);
        if at % 10 == 0 {
            let look = Type::plain(SIZE, BLACK);
            let base = y + 0.5 * FIGURE * SIZE;
            sheet.text(&at.to_string(), (x - 4.8, base), Side::Upto, look);
        }
    }
    let look = Type::plain(SIZE, BLACK);
    sheet.text("mm", (x - 4.8, top + f64::from(LENGTH) + 4.5), Side::Upto, look);
}
