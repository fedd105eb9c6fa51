//! Sight tapes and wallet cards to print at true scale. Described in
//! `docs/model/tape.md`.

mod card;
mod choose;
mod of;
mod page;
mod ruler;
mod strip;

use units::{Length, Style};

use crate::{File, Paper, ReportError};

pub use card::{Card, card_files};
pub use of::{About, cards, tape};

/// How light it is when the marks are read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Ink {
    /// Black on white.
    #[default]
    Day,
    /// White on black, heavier and with fewer marks.
    LowLight,
}

/// The finest marks of a strip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Finest {
    /// Every fifth yard or metre.
    Fifth,
    /// Every one.
    #[default]
    Every,
    /// Every half.
    Half,
}

/// What a user chooses about a page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Size of the paper.
    pub paper: Paper,
    /// Day or low light.
    pub ink: Ink,
    /// The finest marks.
    pub finest: Finest,
    /// Width of a strip.
    pub width: Length,
    /// From the end of the strip to its first mark.
    pub offset: Length,
    /// The nearest mark at the foot, for a tape that moves past a fixed
    /// pointer.
    pub near_below: bool,
}

impl Default for Look {
    /// Chosen: strips 12 mm wide take two figures that can be read at arm's
    /// length; 6 mm before the first mark can be held by a finger.
    fn default() -> Self {
        Self {
            paper: Paper::A4,
            ink: Ink::Day,
            finest: Finest::Every,
            width: Length::from_si(0.012),
            offset: Length::from_si(0.006),
            near_below: false,
        }
    }
}

/// A mark of a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeMark {
    /// Distance, in halves of the unit: 41 is 20.5 yd.
    pub halves: u32,
    /// How far along the strip it lies, m, from any zero.
    pub travel: f64,
}

/// One candidate strip.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// What it holds for, such as "282 ft/s".
    pub name: String,
    /// A second line, such as "1 % faster".
    pub note: String,
    /// Marks at every half unit, distance and travel both rising.
    pub marks: Vec<TapeMark>,
}

/// A page of strips.
#[derive(Debug, Clone, PartialEq)]
pub struct Tape {
    /// Title of the page.
    pub title: String,
    /// What the strips hold for, a sentence or two.
    pub about: String,
    /// The strips, from left to right.
    pub strips: Vec<Strip>,
    /// Yards or metres.
    pub style: Style,
    /// Two distances in halves of the unit between which each strip's length
    /// is told.
    pub between: Option<(u32, u32)>,
    /// What the user chose.
    pub look: Look,
}

/// The page as `tape.pdf` and `tape.svg`.
///
/// # Errors
/// [`ReportError`] for a strip without two marks, marks that do not rise,
/// a strip longer than the page, or more strips than fit side by side.
pub fn tape_files(tape: &Tape) -> Result<Vec<File>, ReportError> {
    let sheet = page::sheet(tape)?;
    Ok(vec![
        File { name: "tape.pdf".to_owned(), bytes: sheet.pdf() },
        File::new("tape.svg", sheet.svg()),
    ])
}

/// What every page of marks says.
const CARE: &str = "Computed, not measured. Sight in at short range first, with a safe backstop. \
                    Shoot every mark at a target before you trust it, and never shoot at an \
                    animal by a computed mark alone.";

/// The symbol of the unit of distance.
fn symbol(style: Style) -> &'static str {
    units::Role::Range.symbol(style)
}

/// A length in mm.
fn mm(length: Length) -> f64 {
    1e3 * length.si()
}
