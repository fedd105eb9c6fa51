//! A tape as plain data.

use units::Style;

use crate::look::Look;

/// A mark of a strip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TapeMark {
    /// Distance, in halves of the unit: 41 is 20.5 yd.
    pub halves: u32,
    /// How far along the strip it lies, m, from any zero.
    pub travel: f64,
}

/// The marks of one arrow speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Strip {
    /// What it holds for, such as "282 ft/s".
    pub name: String,
    /// A second line, such as "1 % faster".
    pub note: String,
    /// Marks at every half unit, distance and travel both rising.
    pub marks: Vec<TapeMark>,
}

/// One strip, or a fan across arrow speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Tape {
    /// Title of the page.
    pub title: String,
    /// What to mind before any is used, each a short paragraph.
    pub care: Vec<String>,
    /// What the strips hold for, a sentence or two.
    pub about: String,
    /// One strip; or, for a fan, the marks of speeds evenly apart, rising, at
    /// the same distances.
    pub strips: Vec<Strip>,
    /// Yards or metres.
    pub style: Style,
    /// Two distances in halves of the unit whose marks check the strip or
    /// pick the place on the fan.
    pub between: Option<(u32, u32)>,
    /// What the user chose.
    pub look: Look,
}
