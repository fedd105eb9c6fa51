//! Colours and line styles.
//!
//! Build colours are from the colour-blind safe set of Okabe and Ito
//! [okabe-ito]; marker shapes and dashes say the same again. The page's style
//! sheet finds these colours by their hexadecimal text and changes them for a
//! dark screen, so both must change together (a test holds that).

/// A colour: red, green and blue.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Colour(pub(crate) u8, pub(crate) u8, pub(crate) u8);

/// The sheet behind a plot; chosen: a warm off-white like drawing paper.
pub(crate) const PAPER: Colour = Colour(0xFB, 0xF7, 0xEE);
/// Text and main lines; chosen: near black, brown.
pub const INK: Colour = Colour(0x2A, 0x24, 0x1D);
/// Second-rank text and lines; chosen: 6.8:1 on the paper.
pub const SOFT: Colour = Colour(0x5E, 0x55, 0x4A);
/// Grid lines and frames; chosen: just seen.
pub const GRID: Colour = Colour(0xD8, 0xCD, 0xBB);

/// Series colours: blue, vermilion, bluish green, black (here the ink),
/// reddish purple, orange [okabe-ito].
const SERIES: [Colour; 6] = [
    Colour(0x00, 0x72, 0xB2),
    Colour(0xD5, 0x5E, 0x00),
    Colour(0x00, 0x9E, 0x73),
    INK,
    Colour(0xCC, 0x79, 0xA7),
    Colour(0xE6, 0x9F, 0x00),
];

/// Colour of a series; it repeats after six.
pub fn series(index: usize) -> Colour {
    SERIES[index % SERIES.len()]
}

/// Dash pattern, px drawn and px left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Dash {
    /// Unbroken.
    Solid,
    /// Long dashes.
    Dashed,
    /// Short dots.
    Dotted,
}

impl Dash {
    /// Lengths drawn and left out, px; none for an unbroken line.
    pub(crate) fn pattern(self) -> Option<(f64, f64)> {
        match self {
            Self::Solid => None,
            Self::Dashed => Some((7.0, 4.0)),
            Self::Dotted => Some((1.6, 3.4)),
        }
    }
}

/// Dashes that tell lines apart which may lie on each other; repeats after
/// three.
pub fn dash(index: usize) -> Dash {
    [Dash::Solid, Dash::Dashed, Dash::Dotted][index % 3]
}

/// A line's look.
#[derive(Debug, Clone, Copy)]
pub struct Pen {
    /// Colour.
    pub colour: Colour,
    /// Width, px.
    pub width: f64,
    /// Dashes.
    pub dash: Dash,
}

impl Pen {
    /// An unbroken line.
    pub const fn solid(colour: Colour, width: f64) -> Self {
        Self { colour, width, dash: Dash::Solid }
    }

    /// The line of a series: its colour, of the common width.
    pub fn series(index: usize) -> Self {
        Self::solid(series(index), 2.0)
    }

    /// The same line, dashed.
    #[must_use]
    pub const fn dash(self, dash: Dash) -> Self {
        Self { dash, ..self }
    }

    /// A dotted line across a picture that marks a value.
    pub const fn asked() -> Self {
        Self::solid(SOFT, 1.4).dash(Dash::Dotted)
    }
}
