//! A printed page at true scale. Everything is in millimetres from the top
//! left corner, y downward; it leaves as PDF or as SVG with the same numbers.

use crate::letters::width;
use crate::look::Paper;

/// A place on the page, mm from the left and from the top.
pub(crate) type Spot = (f64, f64);

/// How dark: a share of white.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Grey(pub(crate) f64);

/// Full ink.
pub(crate) const BLACK: Grey = Grey(0.0);
/// Second-rank text; chosen: 7:1 on white.
pub(crate) const SOFT: Grey = Grey(0.33);
/// Cut lines and table rules; chosen: just seen.
pub(crate) const FAINT: Grey = Grey(0.65);
/// The paper's own colour.
pub(crate) const WHITE: Grey = Grey(1.0);

/// Where a text stands about its spot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Side {
    /// It begins there.
    From,
    /// Its middle is there.
    About,
    /// It ends there.
    Upto,
}

/// How letters look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Type {
    /// Size of the type, mm; figures are [`FIGURE`] of it tall.
    pub(crate) size: f64,
    /// Heavy strokes.
    pub(crate) bold: bool,
    /// Its colour.
    pub(crate) ink: Grey,
}

impl Type {
    /// Letters of the usual weight.
    pub(crate) const fn plain(size: f64, ink: Grey) -> Self {
        Self { size, bold: false, ink }
    }

    /// Heavy letters.
    pub(crate) const fn bold(size: f64, ink: Grey) -> Self {
        Self { size, bold: true, ink }
    }

    /// Length of a text, mm.
    pub(crate) fn length(self, text: &str) -> f64 {
        width(text, self.bold) * self.size
    }

    /// A text that keeps within a width: smaller letters down to [`SMALLEST`] of the
    /// size, then letters off its end.
    pub(crate) fn fit(self, text: &str, wide: f64) -> (Self, String) {
        let share = (wide / self.length(text).max(1e-9)).clamp(SMALLEST, 1.0);
        let small = Self { size: self.size * share, ..self };
        if small.length(text) <= wide * (1.0 + 1e-9) {
            return (small, text.to_owned());
        }
        let mut kept = text.to_owned();
        while small.length(&format!("{kept}..")) > wide && kept.pop().is_some() {}
        (small, format!("{kept}.."))
    }
}

/// Something drawn.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Item {
    Line { from: Spot, to: Spot, width: f64, ink: Grey },
    Block { corner: Spot, size: Spot, ink: Grey },
    Text { at: Spot, side: Side, look: Type, text: String },
}

/// A page, ready to print.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    pub(crate) paper: Paper,
    pub(crate) title: String,
    pub(crate) items: Vec<Item>,
}

impl Sheet {
    /// An empty page with a title for the viewer's window.
    pub(crate) fn new(paper: Paper, title: &str) -> Self {
        Self { paper, title: title.to_owned(), items: Vec::new() }
    }

    /// A straight line with square ends.
    pub(crate) fn line(&mut self, from: Spot, to: Spot, width: f64, ink: Grey) {
        self.items.push(Item::Line { from, to, width, ink });
    }

    /// A filled block, from its top left corner.
    pub(crate) fn block(&mut self, corner: Spot, size: Spot, ink: Grey) {
        self.items.push(Item::Block { corner, size, ink });
    }

    /// A line of text on its base line.
    pub(crate) fn text(&mut self, text: &str, at: Spot, side: Side, look: Type) {
        self.items.push(Item::Text { at, side, look, text: text.to_owned() });
    }

    /// A paragraph no wider than `wide`; gives the base line below it.
    pub(crate) fn paragraph(&mut self, text: &str, at: Spot, wide: f64, look: Type) -> f64 {
        let mut y = at.1;
        let mut line = String::new();
        for word in text.split_whitespace() {
            let longer = if line.is_empty() { word.to_owned() } else { format!("{line} {word}") };
            if look.length(&longer) > wide && !line.is_empty() {
                self.text(&line, (at.0, y), Side::From, look);
                y += LEADING * look.size;
                word.clone_into(&mut line);
            } else {
                line = longer;
            }
        }
        self.text(&line, (at.0, y), Side::From, look);
        y + LEADING * look.size
    }
}

/// Least size of letters that must fit, over the usual. Chosen: 1.8 mm of 2.9 mm is
/// read without a glass.
const SMALLEST: f64 = 0.62;
/// Base line to base line, in sizes of the type. Chosen: open enough to read.
const LEADING: f64 = 1.35;
