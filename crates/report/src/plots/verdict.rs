//! Two groups side by side on one scale.

use super::ink::{GRID, INK, Pen, SOFT, series};
use super::paper::{Cell, TEXT, WIDTH, fit, sheet};
use crate::ReportError;

const EDGE: f64 = 8.0;
const GAP: f64 = 12.0;
const TITLE: f64 = 28.0;
const UNDER: f64 = 26.0;
/// Room of a frame over the farthest shot, or over the mean radius where no
/// shot is known.
const ROOM: f64 = 1.12;

/// A group: its name, mean radius and shots, left and up, m.
pub(crate) struct Disc {
    pub(crate) name: String,
    pub(crate) radius: f64,
    pub(crate) label: String,
    pub(crate) shots: Vec<(f64, f64)>,
}

/// Draws two groups.
pub(crate) fn discs(caption: &str, groups: [&Disc; 2]) -> Result<String, ReportError> {
    let wide = (WIDTH - 2.0 * EDGE - GAP) / 2.0;
    let far = |group: &Disc| {
        let shots = group.shots.iter().map(|(left, up)| left.abs().max(up.abs()));
        ROOM * shots.fold(group.radius, f64::max)
    };
    let half = far(groups[0]).max(far(groups[1]));
    let scale = wide / (2.0 * half);
    sheet("verdict.svg", caption, TITLE + wide + UNDER, |paper| {
        for (at, group) in groups.into_iter().enumerate() {
            let left = EDGE + at as f64 * (wide + GAP);
            let cell = Cell { left, top: TITLE, right: left + wide, bottom: TITLE + wide };
            let middle = (left + wide / 2.0, TITLE + wide / 2.0);
            paper.marker(at, (left + 6.0, 14.0), series(at))?;
            let title = fit(&group.name, TEXT, wide - 18.0);
            paper.left(&title, (left + 18.0, 14.0), TEXT, INK)?;
            let corners = [
                (cell.left, cell.top),
                (cell.right, cell.top),
                (cell.right, cell.bottom),
                (cell.left, cell.bottom),
                (cell.left, cell.top),
            ];
            paper.line(&corners, Pen::solid(GRID, 1.0))?;
            for (left, up) in &group.shots {
                let spot = (middle.0 - left * scale, middle.1 - up * scale);
                paper.dot(spot, 3.0, series(at), 0.8)?;
            }
            paper.ring(middle, group.radius * scale, &cell, Pen::solid(INK, 1.3))?;
            let under = (middle.0, TITLE + wide + 13.0);
            paper.centre(&group.label, under, TEXT, SOFT)?;
        }
        Ok(())
    })
}
