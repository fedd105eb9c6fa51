//! Colours and line styles.
//!
//! Build colours are from the colour-blind safe set of Okabe and Ito
//! [okabe-ito]; marker shapes and dashes say the same again. The page's style
//! sheet finds these colours by their hexadecimal text and changes them for a
//! dark screen, so both must change together (a test holds that).

use plotters::style::RGBColor;

/// The sheet behind a plot; chosen: a warm off-white like drawing paper.
pub(super) const PAPER: RGBColor = RGBColor(0xFB, 0xF7, 0xEE);
/// Text and main lines; chosen: near black, brown.
pub(super) const INK: RGBColor = RGBColor(0x2A, 0x24, 0x1D);
/// Second-rank text and lines; chosen: 6.8:1 on the paper.
pub(super) const SOFT: RGBColor = RGBColor(0x5E, 0x55, 0x4A);
/// Grid lines and frames; chosen: just seen.
pub(super) const GRID: RGBColor = RGBColor(0xD8, 0xCD, 0xBB);

/// Series colours: blue, vermilion, bluish green, black (here the ink),
/// reddish purple, orange [okabe-ito].
const SERIES: [RGBColor; 6] = [
    RGBColor(0x00, 0x72, 0xB2),
    RGBColor(0xD5, 0x5E, 0x00),
    RGBColor(0x00, 0x9E, 0x73),
    INK,
    RGBColor(0xCC, 0x79, 0xA7),
    RGBColor(0xE6, 0x9F, 0x00),
];

/// Colour of a series; it repeats after six.
pub(super) fn series(index: usize) -> RGBColor {
    SERIES[index % SERIES.len()]
}

/// Dash pattern, px drawn and px left out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Dash {
    /// Unbroken.
    Solid,
    /// Long dashes.
    Dashed,
    /// Short dots.
    Dotted,
}

impl Dash {
    /// Lengths drawn and left out, px; none for an unbroken line.
    pub(super) fn pattern(self) -> Option<(f64, f64)> {
        match self {
            Self::Solid => None,
            Self::Dashed => Some((7.0, 4.0)),
            Self::Dotted => Some((1.6, 3.4)),
        }
    }
}

/// Dashes that tell lines apart which may lie on each other; repeats after
/// three.
pub(super) fn dash(index: usize) -> Dash {
    [Dash::Solid, Dash::Dashed, Dash::Dotted][index % 3]
}

/// A line's look.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pen {
    /// Colour.
    pub(super) colour: RGBColor,
    /// Width, px.
    pub(super) width: f64,
    /// Dashes.
    pub(super) dash: Dash,
}

impl Pen {
    /// An unbroken line.
    pub(super) const fn solid(colour: RGBColor, width: f64) -> Self {
        Self { colour, width, dash: Dash::Solid }
    }

    /// The same line, dashed.
    pub(super) const fn dash(self, dash: Dash) -> Self {
        Self { dash, ..self }
    }
}
