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
        let wide = wide / STAND_IN;
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
        let wide = wide / STAND_IN;
        let mut y = at.1;
        let mut line = String::new();
        for word in text.split_whitespace().flat_map(|word| pieces(word, wide, look)) {
            let longer = if line.is_empty() { word.clone() } else { format!("{line} {word}") };
            if look.length(&longer) > wide && !line.is_empty() {
                self.text(&line, (at.0, y), Side::From, look);
                y += LEADING * look.size;
                line = word;
            } else {
                line = longer;
            }
        }
        self.text(&line, (at.0, y), Side::From, look);
        y + LEADING * look.size
    }
}

/// A word in pieces that each keep within a width.
fn pieces(word: &str, wide: f64, look: Type) -> Vec<String> {
    let mut pieces = vec![String::new()];
    for letter in word.chars() {
        let last = pieces.len() - 1;
        if !pieces[last].is_empty() && look.length(&format!("{}{letter}", pieces[last])) > wide {
            pieces.push(String::new());
        }
        let last = pieces.len() - 1;
        pieces[last].push(letter);
    }
    pieces
}

/// Where the two faces are missing another stands in, and not every program that shows an
/// SVG squeezes it into the room that is named. Chosen: the widest sans-serif that commonly
/// stands in runs so much longer (common practice, no source), and a little.
const STAND_IN: f64 = 1.16;
/// Least size of letters that must fit, over the usual. Chosen: 1.8 mm of 2.9 mm is
/// read without a glass.
const SMALLEST: f64 = 0.62;
/// Base line to base line, in sizes of the type. Chosen: open enough to read.
const LEADING: f64 = 1.35;

#[cfg(test)]
mod tests {
    use super::*;

    /// A word of three hundred letters once ran off the page, and a line as wide as its room
    /// was cut where a wider face stood in.
    #[test]
    fn law_every_line_keeps_within_its_room_in_a_wider_face_too() {
        let look = Type::plain(3.2, BLACK);
        let text = format!("Before you shoot {} and more of it", "W".repeat(300)).repeat(2);
        let mut sheet = Sheet::new(Paper::A4, "x");
        let below = sheet.paragraph(&text, (10.0, 20.0), 120.0, look);
        let lines: Vec<&str> = sheet
            .items
            .iter()
            .filter_map(
                |item| if let Item::Text { text, .. } = item { Some(text.as_str()) } else { None },
            )
            .collect();
        for line in &lines {
            assert!(1.13 * look.length(line) <= 120.0, "{line}");
        }
        let letters = |text: &str| text.chars().filter(|c| !c.is_whitespace()).count();
        assert_eq!(lines.iter().map(|line| letters(line)).sum::<usize>(), letters(&text));
        assert!(below > 20.0 + 4.0 * look.size);
        let (small, cut) = look.fit(&"W".repeat(300), 40.0);
        assert!(1.13 * small.length(&cut) <= 40.0 && cut.ends_with(".."));
    }
}
