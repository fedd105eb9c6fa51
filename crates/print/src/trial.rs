//! The sheets of a blind trial: ends to shoot, and the key to fold away.

use crate::error::PrintError;
use crate::look::Paper;
use crate::page::{BODY, FOOT, MARGIN, foot, top};
use crate::sheet::{BLACK, FAINT, SOFT, Sheet, Side, Spot, Type};

/// Room left of an end's arrows, mm.
const LABEL: f64 = 21.0;
/// Widest and narrowest cell of an arrow, mm. Chosen: a number to read at the line, and
/// room to write in.
const CELL: (f64, f64) = (27.0, 12.0);
/// Height of an arrow's number and of each line to write in, mm.
const NUMBER: f64 = 7.0;
const LINE: f64 = 6.5;
/// Between two ends, mm.
const GAP: f64 = 3.0;
/// Below a rule that says to look, mm.
const RULE: f64 = 7.0;
/// Width of a box for a spread, mm.
const BOX: f64 = 30.0;

/// One end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetEnd {
    /// Numbers of its arrows, first shot first.
    pub order: Vec<u32>,
    /// What to do after it.
    pub after: String,
    /// Whether what to do is more than to rest.
    pub look: bool,
}

/// What a helper writes down.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SheetReads {
    /// Such lines below each arrow.
    Arrows(Vec<String>),
    /// Such boxes beside each end.
    Ends(Vec<String>),
}

/// Ends to shoot.
#[derive(Debug, Clone, PartialEq)]
pub struct ShootingSheet {
    /// Title.
    pub title: String,
    /// What to mind first, each a short paragraph.
    pub care: Vec<String>,
    /// What to do, each a short paragraph.
    pub about: Vec<String>,
    /// The ends, in order.
    pub ends: Vec<SheetEnd>,
    /// What is written down.
    pub reads: SheetReads,
    /// Size of the paper.
    pub paper: Paper,
}

/// Which arrow is which.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeyPage {
    /// Title.
    pub title: String,
    /// What to do with it, each a short paragraph.
    pub about: Vec<String>,
    /// Number and name of each arrow.
    pub arrows: Vec<(u32, String)>,
    /// Size of the paper.
    pub paper: Paper,
}

impl ShootingSheet {
    /// The pages, at true scale.
    ///
    /// # Errors
    /// [`PrintError::NoEnd`] without ends; [`PrintError::CrowdedEnd`] for more arrows
    /// than fit side by side.
    pub fn sheets(&self) -> Result<Vec<Sheet>, PrintError> {
        let (wide, high) = self.paper.size();
        let most = self.ends.iter().map(|end| end.order.len()).max().unwrap_or(0);
        if most == 0 {
            return Err(PrintError::NoEnd);
        }
        let boxes = match &self.reads {
            SheetReads::Arrows(_) => 0,
            SheetReads::Ends(names) => names.len(),
        };
        let room = wide - 2.0 * MARGIN - LABEL - BOX * boxes as f64;
        let cell = (room / most as f64).min(CELL.0);
        if cell < CELL.1 {
            return Err(PrintError::CrowdedEnd { arrows: most });
        }
        let mut pages = Vec::new();
        let mut next = 0;
        while next < self.ends.len() {
            let mut sheet = Sheet::new(self.paper, &self.title);
            let mut y = self.head(&mut sheet, wide, pages.len());
            let from = next;
            while let Some(end) = self.ends.get(next) {
                let below = y + self.height(end);
                // A page takes one end at least.
                if below > high - FOOT + 2.0 && next > from {
                    break;
                }
                self.draw(&mut sheet, next + 1, end, (MARGIN, y), cell);
                (y, next) = (below, next + 1);
            }
            foot(&mut sheet, wide, high);
            pages.push(sheet);
        }
        Ok(pages)
    }

    /// Title, care and, on the first page, what to do; gives the base line below.
    fn head(&self, sheet: &mut Sheet, wide: f64, page: usize) -> f64 {
        let care = self.care.as_slice();
        if page > 0 {
            let title = format!("{}, page {}", self.title, page + 1);
            return top(sheet, wide, (&title, &care[..care.len().min(1)], ""));
        }
        let mut y = top(sheet, wide, (&self.title, care, ""));
        for paragraph in &self.about {
            y = 1.2 + sheet.paragraph(paragraph, (MARGIN, y), wide - 2.0 * MARGIN, BODY);
        }
        y
    }

    fn lines(&self) -> usize {
        match &self.reads {
            SheetReads::Arrows(lines) => lines.len(),
            SheetReads::Ends(_) => 0,
        }
    }

    fn height(&self, end: &SheetEnd) -> f64 {
        let rule = if end.look { RULE } else { 0.0 };
        NUMBER + LINE * self.lines() as f64 + GAP + rule
    }

    /// One end with its top left corner at a place.
    fn draw(&self, sheet: &mut Sheet, number: usize, end: &SheetEnd, (left, y): Spot, cell: f64) {
        let high = NUMBER + LINE * self.lines() as f64;
        sheet.text(&format!("End {number}"), (left, y + 5.0), Side::From, Type::bold(3.6, BLACK));
        let small = Type::plain(2.4, SOFT);
        if !end.look && high > NUMBER + 1.0 {
            sheet.text(&end.after, (left, y + 10.0), Side::From, small);
        }
        for (at, arrow) in end.order.iter().enumerate() {
            let x = left + LABEL + cell * at as f64;
            outline(sheet, (x, y), (cell, high));
            let middle = x + 0.5 * cell;
            let look = Type::bold(5.0, BLACK);
            sheet.text(&arrow.to_string(), (middle, y + 5.4), Side::About, look);
            if let SheetReads::Arrows(lines) = &self.reads {
                for (line, name) in lines.iter().enumerate() {
                    let top = y + NUMBER + LINE * line as f64;
                    sheet.line((x, top), (x + cell, top), 0.1, FAINT);
                    sheet.text(name, (x + 0.8, top + 2.6), Side::From, Type::plain(2.1, SOFT));
                }
            }
        }
        if let SheetReads::Ends(names) = &self.reads {
            for (at, name) in names.iter().enumerate() {
                let x = left + LABEL + cell * end.order.len() as f64 + BOX * at as f64 + 2.0;
                outline(sheet, (x, y), (BOX - 2.0, high));
                sheet.text(name, (x + 0.8, y + 2.6), Side::From, Type::plain(2.1, SOFT));
            }
        }
        if end.look {
            let base = y + high + 4.4;
            sheet.text(&end.after, (left + LABEL, base), Side::From, Type::bold(3.0, BLACK));
            sheet.line(
                (left, base + 2.2),
                (left + sheet_wide(self.paper), base + 2.2),
                0.35,
                BLACK,
            );
        }
    }
}

impl KeyPage {
    /// The page, at true scale: folded along its line it shows nothing.
    pub fn sheet(&self) -> Sheet {
        let (wide, high) = self.paper.size();
        let mut sheet = Sheet::new(self.paper, &self.title);
        let mut y = top(&mut sheet, wide, (&self.title, &[], ""));
        for paragraph in &self.about {
            y = 1.2 + sheet.paragraph(paragraph, (MARGIN, y), wide - 2.0 * MARGIN, BODY);
        }
        // The key lies below the fold: folded forward, it faces the page itself.
        let fold = high / 2.0;
        let head = fold + 14.0;
        dashed(&mut sheet, (MARGIN, fold), wide - MARGIN);
        let look = Type::plain(2.6, SOFT);
        sheet.text(
            "fold here, the foot of the page forward and up, and tape it shut",
            (MARGIN, fold - 1.6),
            Side::From,
            look,
        );
        let half = self.arrows.len().div_ceil(2).max(1);
        for (at, (number, name)) in self.arrows.iter().enumerate() {
            let column = (at / half) as f64;
            let row = (at % half) as f64;
            let x = MARGIN + 8.0 + column * 0.5 * (wide - 2.0 * MARGIN);
            let base = head + 9.0 * row;
            sheet.text(&format!("arrow {number}"), (x, base), Side::From, Type::bold(4.2, BLACK));
            sheet.text(name, (x + 26.0, base), Side::From, Type::plain(4.2, BLACK));
        }
        sheet
    }
}

/// From margin to margin, mm.
fn sheet_wide(paper: Paper) -> f64 {
    paper.size().0 - 2.0 * MARGIN
}

fn outline(sheet: &mut Sheet, (x, y): Spot, (wide, high): Spot) {
    let corners = [(x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y)];
    for pair in corners.windows(2) {
        sheet.line(pair[0], pair[1], 0.18, BLACK);
    }
}

fn dashed(sheet: &mut Sheet, (from, y): Spot, to: f64) {
    let mut x = from;
    while x < to {
        sheet.line((x, y), ((x + 3.0).min(to), y), 0.15, FAINT);
        x += 5.0;
    }
}
