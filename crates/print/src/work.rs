//! A sheet to work by: one row an arrow, boxes to tick, room to write.

use crate::error::PrintError;
use crate::label::{count, outline};
use crate::look::Paper;
use crate::page::{FOOT, MARGIN, foot, top};
use crate::sheet::{BLACK, FAINT, SOFT, Sheet, Side, Spot, Type};

/// Least and most height of a row, mm. Chosen: a line of handwriting, and room to spare.
const ROW: (f64, f64) = (5.0, 8.0);
/// Side of a box, mm.
const BOX: f64 = 3.4;
/// Size of the type in rows, mm.
const SIZE: f64 = 2.9;
/// Height of the heads, mm.
const HEADS: f64 = 8.5;

/// What a place of the sheet holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Place {
    /// A text; empty for room to write.
    Text(String),
    /// A text from here to the end of the row, whose other places are empty: of a row that
    /// is not to be worked on.
    Across(String),
    /// A box, ticked or not.
    Box(bool),
}

/// A column: a word, a unit below it, and its share of the width.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkColumn {
    /// The word.
    pub word: String,
    /// The unit; empty where there is none.
    pub unit: String,
    /// How wide it is beside the others.
    pub share: f64,
}

/// A sheet to work by, as many pages as it takes.
#[derive(Debug, Clone, PartialEq)]
pub struct WorkSheet {
    /// Title of the pages.
    pub title: String,
    /// What to mind first, each a short paragraph.
    pub care: Vec<String>,
    /// What it is for, a sentence or two.
    pub about: String,
    /// The columns.
    pub columns: Vec<WorkColumn>,
    /// The rows, each as long as `columns`.
    pub rows: Vec<Vec<Place>>,
    /// Size of the paper.
    pub paper: Paper,
}

impl WorkSheet {
    /// The pages, at true scale.
    ///
    /// # Errors
    /// [`PrintError::Ragged`] for a row of another length than the columns, and
    /// [`PrintError::NoRoom`] where the words above leave no room for a row.
    pub fn sheets(&self) -> Result<Vec<Sheet>, PrintError> {
        if let Some(row) = self.rows.iter().find(|row| row.len() != self.columns.len()) {
            let (card, found) = (self.title.clone(), row.len());
            return Err(PrintError::Ragged { card, found, expected: self.columns.len() });
        }
        let (wide, high) = self.paper.size();
        let mut sheets = Vec::new();
        let mut left = self.rows.as_slice();
        while sheets.is_empty() || !left.is_empty() {
            let mut sheet = Sheet::new(self.paper, &self.title);
            let above = top(&mut sheet, wide, (&self.title, &self.care, &self.about)) + HEADS;
            let room = high - FOOT - above;
            if room < ROW.0 {
                return Err(PrintError::NoRoom { title: self.title.clone(), room, needed: ROW.0 });
            }
            let (now, later) = left.split_at(left.len().min(count((room / ROW.0).floor())));
            let pitch = (room / now.len().max(1) as f64).clamp(ROW.0, ROW.1);
            self.draw(&mut sheet, now, (above, pitch), wide);
            foot(&mut sheet, wide, high);
            sheets.push(sheet);
            left = later;
        }
        Ok(sheets)
    }

    fn draw(&self, sheet: &mut Sheet, rows: &[Vec<Place>], (above, pitch): Spot, wide: f64) {
        let whole: f64 = self.columns.iter().map(|column| column.share).sum();
        let room = wide - 2.0 * MARGIN;
        let mut ends = vec![MARGIN];
        for column in &self.columns {
            ends.push(ends[ends.len() - 1] + room * column.share / whole);
        }
        let foot = above + pitch * rows.len() as f64;
        for (place, column) in self.columns.iter().enumerate() {
            let (left, right) = (ends[place], ends[place + 1]);
            let middle = 0.5 * (left + right);
            for (text, up, look) in [
                (&column.word, 4.9, Type::bold(2.6, BLACK)),
                (&column.unit, 1.6, Type::plain(2.4, SOFT)),
            ] {
                let (look, text) = look.fit(text, right - left - 1.0);
                sheet.text(&text, (middle, above - up), Side::About, look);
            }
            sheet.line((left, above - HEADS + 0.5), (left, foot), 0.12, FAINT);
        }
        sheet.line((wide - MARGIN, above - HEADS + 0.5), (wide - MARGIN, foot), 0.12, FAINT);
        sheet.line((MARGIN, above), (wide - MARGIN, above), 0.3, BLACK);
        for (at, row) in rows.iter().enumerate() {
            let y = above + pitch * at as f64;
            sheet.line((MARGIN, y + pitch), (wide - MARGIN, y + pitch), 0.12, FAINT);
            for (place, cell) in row.iter().enumerate() {
                let end =
                    if matches!(cell, Place::Across(_)) { wide - MARGIN } else { ends[place + 1] };
                let span = (ends[place], end);
                cell.draw(sheet, span, y + 0.5 * pitch, place == 0);
            }
        }
    }
}

impl Place {
    fn draw(&self, sheet: &mut Sheet, (left, right): Spot, y: f64, first: bool) {
        let middle = 0.5 * (left + right);
        match self {
            Self::Text(text) => {
                let look = Type { size: SIZE, bold: first, ink: BLACK };
                let (look, text) = look.fit(text, right - left - 2.4);
                sheet.text(&text, (middle, y + 0.35 * SIZE), Side::About, look);
            }
            Self::Across(text) => {
                sheet.block((left + 0.3, y - 0.5 * BOX), (right - left - 0.6, BOX), FAINT);
                let look = Type::bold(SIZE, BLACK);
                let (look, text) = look.fit(text, right - left - 2.4);
                sheet.text(&text, (left + 1.2, y + 0.35 * SIZE), Side::From, look);
            }
            Self::Box(ticked) => {
                let (x, y) = (middle - 0.5 * BOX, y - 0.5 * BOX);
                outline(sheet, (x, y), (BOX, BOX));
                if *ticked {
                    let dip = (x + 0.4 * BOX, y + 0.8 * BOX);
                    sheet.line((x + 0.15 * BOX, y + 0.5 * BOX), dip, 0.5, BLACK);
                    sheet.line(dip, (x + 0.85 * BOX, y + 0.15 * BOX), 0.5, BLACK);
                }
            }
        }
    }
}
