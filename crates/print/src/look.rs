//! What a user chooses about a page.

use units::Length;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Paper {
    /// 210 x 297 mm (defined: ISO 216).
    #[default]
    A4,
    /// 8.5 x 11 in (defined).
    Letter,
}

impl Paper {
    /// Width and height, mm.
    pub fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

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

/// A length in mm.
pub(crate) fn mm(length: Length) -> f64 {
    1e3 * length.si()
}
