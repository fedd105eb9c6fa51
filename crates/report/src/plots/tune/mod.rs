//! The pictures of a tuning answer.

mod impacts;
mod nock;
mod sheet;
mod trends;

use study::{Offset, Tuned};
use units::{Role, Style};

use super::Plot;
use super::axes::ceiling;
use super::ink::{INK, Pen};
use super::paper::{Cell, Drawn, Paper, Spot};
use crate::tune::{say, text};
use crate::{ReportError, show};

/// Room between the edge of the sheet and the drawing, px.
const EDGE: f64 = 8.0;
/// Size of small labels, px.
const SMALL: f64 = 12.0;

/// Every picture that the answer fills.
pub(crate) fn all(tuned: &Tuned, style: Style) -> Result<Vec<Plot>, ReportError> {
    let mut plots = vec![impacts::draw(tuned, style)?];
    for (at, build) in tuned.builds.iter().enumerate() {
        if build.trends.iter().any(|trend| trend.points.iter().any(|point| point.shot.is_ok())) {
            plots.push(trends::draw(tuned, at, style)?);
        }
        if !build.paper.is_empty() {
            plots.push(sheet::draw(tuned, at, style)?);
        }
        if let Some(far) = nock::farthest(build)
            && text::turns_show(build, style)
        {
            plots.push(nock::draw(tuned, at, far, style)?);
        }
    }
    Ok(plots)
}

/// The words for one build of several: " of "name"".
fn of(tuned: &Tuned, at: usize) -> String {
    if tuned.builds.len() > 1 {
        format!(" of \"{}\"", tuned.builds[at].name)
    } else {
        String::new()
    }
}

/// A frame that shows a piece of the plane across the shot.
struct View {
    cell: Cell,
    /// What lies in the middle of the frame, left and up, m.
    middle: [f64; 2],
    /// Pixels in a metre.
    scale: f64,
}

impl View {
    /// Where a place falls on the sheet; the archer's left is on the left.
    fn at(&self, [left, up]: [f64; 2]) -> Spot {
        let c = &self.cell;
        (
            f64::midpoint(c.left, c.right) - (left - self.middle[0]) * self.scale,
            f64::midpoint(c.top, c.bottom) - (up - self.middle[1]) * self.scale,
        )
    }

    fn frame(&self, paper: &Paper, pen: Pen) -> Drawn {
        let c = &self.cell;
        let corners = [
            (c.left, c.top),
            (c.right, c.top),
            (c.right, c.bottom),
            (c.left, c.bottom),
            (c.left, c.top),
        ];
        paper.line(&corners, pen)
    }

    /// The band of a place whose offset from `from` is banded.
    fn cross(&self, paper: &Paper, from: [f64; 2], offset: &Offset, pen: Pen) -> Drawn {
        let (left, up) = (offset.left, offset.up);
        let at = |l: f64, u: f64| self.at([from[0] + l, from[1] + u]);
        paper.line(&[at(left.low, up.value), at(left.high, up.value)], pen)?;
        paper.line(&[at(left.value, up.low), at(left.value, up.high)], pen)
    }
}

/// A bar of a round length about `wide` px long, its label beside it.
fn bar(paper: &Paper, at: Spot, scale: f64, wide: f64, style: Style) -> Drawn {
    let unit = Role::Impact.unit(style).0;
    let round = ceiling(unit.of_si(wide / scale));
    let long = unit.to_si(round) * scale;
    let (x, y) = at;
    let pen = Pen::solid(INK, 1.4);
    paper.line(&[(x, y), (x + long, y)], pen)?;
    for x in [x, x + long] {
        paper.line(&[(x, y - 4.0), (x, y + 4.0)], pen)?;
    }
    let text = format!("{} {}", show::significant(round), unit.symbol);
    paper.left(&text, (x + long + 6.0, y), SMALL, INK)
}

/// A place in words: "0.50 in right", or "the same place".
fn place(place: [f64; 2], style: Style) -> String {
    say::direction(place, style).unwrap_or_else(|| "the same place".to_owned())
}
