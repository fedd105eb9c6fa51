//! Wallet cards: tables on cards of the usual size.

use crate::error::PrintError;
use crate::look::{Ink, Look};
use crate::page::{FOOT, foot, top};
use crate::sheet::{BLACK, Grey, Sheet, Side, Spot, Type, WHITE};
use crate::strip::cut;

/// Width and height of a card, mm (defined: ISO/IEC 7810, ID-1).
const SIZE: (f64, f64) = (85.6, 53.98);
/// Between cards, mm.
const BETWEEN: (f64, f64) = (9.0, 9.0);
/// From the edge of a card to its text, mm.
const INSIDE: f64 = 4.0;
/// Between rows at most, mm. Chosen.
const ROW: f64 = 4.3;
/// Room for rows, mm, under title and heads.
const ROOM: f64 = 37.0;
/// Rows on one card. Chosen: figures stay 1.8 mm tall.
const ROWS: usize = 11;
/// Size of the type over the pitch of the rows.
const FILL: f64 = 0.76;

/// A table for one card, or more when it is long. Cells are ready to print.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Card {
    /// Title.
    pub title: String,
    /// What it holds for, one short line.
    pub note: String,
    /// Heads of the columns: a word and a unit.
    pub heads: Vec<(String, String)>,
    /// Rows, each as long as `heads`.
    pub rows: Vec<Vec<String>>,
}

/// A page of cards.
#[derive(Debug, Clone, PartialEq)]
pub struct Cards {
    /// Title of the page.
    pub title: String,
    /// What to mind before any is used, each a short paragraph.
    pub care: Vec<String>,
    /// What the cards hold for, a sentence or two.
    pub about: String,
    /// The tables.
    pub cards: Vec<Card>,
    /// What the user chose.
    pub look: Look,
}

impl Cards {
    /// The page, at true scale.
    ///
    /// # Errors
    /// [`PrintError`] for a row of another length than its heads, or more cards
    /// than fit on a page.
    pub fn sheet(&self) -> Result<Sheet, PrintError> {
        sheet(self)
    }
}

fn sheet(of: &Cards) -> Result<Sheet, PrintError> {
    let Cards { title, care, about, cards, look } = of;
    let (wide, high) = look.paper.size();
    let mut sheet = Sheet::new(look.paper, title);
    let top = top(&mut sheet, wide, (title, care, about)) + 4.0;
    let across = wide - 2.0 * SIZE.0 - BETWEEN.0;
    let fit = ((high - FOOT - top + BETWEEN.1 - 6.0) / (SIZE.1 + BETWEEN.1)).floor();
    let pages: Vec<(String, &Card, &[Vec<String>])> = cards.iter().flat_map(split).collect();
    if pages.len() as f64 > 2.0 * fit {
        return Err(PrintError::Cards { cards: pages.len(), most: 2.0 * fit });
    }
    for (place, (name, card, rows)) in pages.iter().enumerate() {
        if let Some(row) = rows.iter().find(|row| row.len() != card.heads.len()) {
            let (found, expected) = (row.len(), card.heads.len());
            return Err(PrintError::Ragged { card: name.clone(), found, expected });
        }
        let column = (place % 2) as f64;
        let row = (place / 2) as f64;
        let corner =
            (0.5 * across + column * (SIZE.0 + BETWEEN.0), top + row * (SIZE.1 + BETWEEN.1));
        draw(&mut sheet, name, card, rows, look.ink, corner);
    }
    foot(&mut sheet, wide, high);
    Ok(sheet)
}

/// A long table on several cards, as even as can be.
fn split(card: &Card) -> Vec<(String, &Card, &[Vec<String>])> {
    let count = card.rows.len().div_ceil(ROWS).max(1);
    let each = card.rows.len().div_ceil(count).max(1);
    let parts: Vec<&[Vec<String>]> = card.rows.chunks(each).collect();
    let name = |part: usize| match parts.len() {
        1 => card.title.clone(),
        of => format!("{}, {} of {of}", card.title, part + 1),
    };
    parts.iter().enumerate().map(|(part, rows)| (name(part), card, *rows)).collect()
}

fn draw(sheet: &mut Sheet, name: &str, card: &Card, rows: &[Vec<String>], ink: Ink, corner: Spot) {
    let (ground, dark, soft) = match ink {
        Ink::Day => (None, BLACK, Grey(0.33)),
        Ink::LowLight => (Some(BLACK), WHITE, Grey(0.8)),
    };
    cut(sheet, corner, SIZE, ground);
    let (left, right) = (corner.0 + INSIDE, corner.0 + SIZE.0 - INSIDE);
    let mut y = corner.1 + 6.2;
    let note = Type::plain(2.5, soft);
    let room = right - left - note.length(&card.note) - 2.0;
    let (look, name) = Type::bold(3.4, dark).fit(name, room);
    sheet.text(&name, (left, y), Side::From, look);
    sheet.text(&card.note, (right, y), Side::Upto, note);
    y += 4.6;
    let column = (right - left) / card.heads.len() as f64;
    let end = |place: usize| left + column * (place as f64 + 0.82);
    for (place, (word, unit)) in card.heads.iter().enumerate() {
        sheet.text(word, (end(place), y), Side::Upto, Type::plain(2.5, soft));
        sheet.text(unit, (end(place), y + 3.0), Side::Upto, Type::plain(2.5, soft));
    }
    y += 4.3;
    sheet.line((left, y), (right, y), 0.2, soft);
    let pitch = ROW.min(ROOM / rows.len().max(1) as f64);
    for row in rows {
        y += pitch;
        for (place, cell) in row.iter().enumerate() {
            // The first column names the row.
            let look = Type { size: FILL * pitch, bold: place == 0, ink: dark };
            sheet.text(cell, (end(place), y), Side::Upto, look);
        }
    }
}
