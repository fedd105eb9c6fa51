//! Numbered labels for shafts and arrows: a sheet to cut up.

use crate::error::PrintError;
use crate::look::Paper;
use crate::page::{FOOT, MARGIN, foot, top};
use crate::sheet::{BLACK, FAINT, SOFT, Sheet, Side, Spot, Type};

/// Width and height of a label, mm. Chosen: once round a shaft of 8 mm and back on
/// itself as a flag, and a number that is read at arm's length.
const SIZE: (f64, f64) = (58.0, 13.0);
/// Between labels, mm.
const BETWEEN: (f64, f64) = (3.0, 2.0);
/// Room for the number, mm.
const NUMBER: f64 = 17.0;

/// One label.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Label {
    /// The number, large.
    pub number: String,
    /// Short lines beside it, the first the heaviest; three fit.
    pub lines: Vec<String>,
}

/// Labels, as many pages as they take.
#[derive(Debug, Clone, PartialEq)]
pub struct Labels {
    /// Title of the pages.
    pub title: String,
    /// What they are for, a sentence or two.
    pub about: String,
    /// The labels, in order.
    pub labels: Vec<Label>,
    /// Size of the paper.
    pub paper: Paper,
}

impl Labels {
    /// The pages, at true scale.
    ///
    /// # Errors
    /// [`PrintError::NoLabel`] where there is none.
    pub fn sheets(&self) -> Result<Vec<Sheet>, PrintError> {
        if self.labels.is_empty() {
            return Err(PrintError::NoLabel);
        }
        let (wide, high) = self.paper.size();
        let across = ((wide - 2.0 * MARGIN + BETWEEN.0) / (SIZE.0 + BETWEEN.0)).floor();
        let mut sheets = Vec::new();
        let mut left = self.labels.as_slice();
        while !left.is_empty() {
            let mut sheet = Sheet::new(self.paper, &self.title);
            let head = top(&mut sheet, wide, (&self.title, &[], &self.about)) + 3.0;
            let down = ((high - FOOT - head) / (SIZE.1 + BETWEEN.1)).floor();
            let fit = count(across * down);
            let (now, later) = left.split_at(left.len().min(fit.max(1)));
            for (place, label) in now.iter().enumerate() {
                let (row, column) = (place / count(across), place % count(across));
                let x = MARGIN + column as f64 * (SIZE.0 + BETWEEN.0);
                draw(&mut sheet, label, (x, head + row as f64 * (SIZE.1 + BETWEEN.1)));
            }
            foot(&mut sheet, wide, high);
            sheets.push(sheet);
            left = later;
        }
        Ok(sheets)
    }
}

/// A small whole number.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "labels of a page")]
pub(crate) fn count(whole: f64) -> usize {
    whole.clamp(1.0, 1e4) as usize
}

fn draw(sheet: &mut Sheet, label: &Label, corner: Spot) {
    outline(sheet, corner, SIZE);
    let number = Type::bold(8.0, BLACK).fit(&label.number, NUMBER - 3.0).0;
    let middle = corner.1 + 0.5 * SIZE.1 + 0.35 * number.size;
    sheet.text(&label.number, (corner.0 + 0.5 * NUMBER, middle), Side::About, number);
    let mut y = corner.1 + 4.2;
    for (place, line) in label.lines.iter().take(3).enumerate() {
        let look = if place == 0 { Type::bold(2.9, BLACK) } else { Type::plain(2.5, SOFT) };
        let (look, line) = look.fit(line, SIZE.0 - NUMBER - 2.0);
        sheet.text(&line, (corner.0 + NUMBER, y), Side::From, look);
        y += 3.6;
    }
}

/// Thin lines round a block.
pub(crate) fn outline(sheet: &mut Sheet, (left, top): Spot, (wide, high): Spot) {
    let (right, foot) = (left + wide, top + high);
    let corners = [(left, top), (right, top), (right, foot), (left, foot), (left, top)];
    for pair in corners.windows(2) {
        sheet.line(pair[0], pair[1], 0.12, FAINT);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_a_gross_of_labels_stands_on_pages_none_lost() -> Result<(), PrintError> {
        let label = |at: u32| Label { number: at.to_string(), lines: vec!["a".repeat(200)] };
        let labels = Labels {
            title: "Labels".into(),
            about: "Made up.".into(),
            labels: (1..=144).map(label).collect(),
            paper: Paper::Letter,
        };
        let sheets = labels.sheets()?;
        let shown = sheets.iter().flat_map(|sheet| &sheet.items).filter(|item| {
            matches!(item, crate::sheet::Item::Text { side: Side::About, look, .. } if look.size > 4.0)
        });
        assert_eq!((sheets.len() > 2, shown.count()), (true, 144));
        Ok(())
    }
}
