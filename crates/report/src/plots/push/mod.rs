//! The pictures of one push.

mod forces;
mod modes;
mod paths;
mod shapes;
mod stroke;

use study::PushStory;
use units::{Dimension, Style};

use super::Plot;
use super::axes::Axes;
use super::ink::Pen;
use super::paper::{Cell, Drawn, Paper, WIDTH};
use crate::ReportError;

/// Every picture of a push.
pub(crate) fn all(story: &PushStory, style: Style) -> Result<[Plot; 5], ReportError> {
    Ok([
        shapes::draw(story, style)?,
        paths::draw(story, style)?,
        forces::draw(story, style)?,
        stroke::draw(story, style)?,
        modes::draw(story, style)?,
    ])
}

/// A cell as wide as the sheet allows.
fn wide(top: f64, tall: f64) -> Cell {
    Cell { left: 64.0, top, right: WIDTH - 18.0, bottom: top + tall }
}

/// Ends of an axis that holds zero and all values, with some room; a width of
/// one where there is nothing to show.
fn ends(values: impl Iterator<Item = f64>) -> (f64, f64) {
    let (low, high) = values.fold((0.0_f64, 0.0_f64), |(l, h), v| (l.min(v), h.max(v)));
    if high > low {
        let room = 0.06 * (high - low);
        (if low < 0.0 { low - room } else { 0.0 }, if high > 0.0 { high + room } else { 0.0 })
    } else {
        (-0.5, 0.5)
    }
}

/// Time in the unit that a push asks for: value and symbol.
fn millis(seconds: f64) -> f64 {
    Dimension::Time.unit("ms").map_or(seconds, |unit| unit.of_si(seconds))
}

/// A line through numbers.
fn trace(paper: &Paper, axes: &Axes, points: &[(f64, f64)], pen: Pen) -> Drawn {
    paper.line(&axes.all(points), pen)
}
