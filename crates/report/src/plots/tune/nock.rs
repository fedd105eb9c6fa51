//! Turning the nock: a dial of its places and where each one's arrow lands.

use study::{Tuned, TunedBuild};
use units::{Role, Style};

use super::super::Plot;
use super::super::ink::{GRID, INK, Pen, SOFT, series};
use super::super::paper::{Cell, TEXT, WIDTH, sheet};
use super::{EDGE, SMALL, View, bar, of, place};
use crate::tune::say::degrees;
use crate::{ReportError, show};

const TOP: f64 = 30.0;
const TALL: f64 = 210.0;
/// Middle and radius of the dial, px.
const DIAL: ((f64, f64), f64) = ((104.0, TOP + TALL / 2.0), 58.0);
const LINE: f64 = 22.0;
/// Least half-width of the frame, m. Chosen: less shows nowhere.
const LEAST: f64 = 1e-3;

/// The farthest distance that every step reaches.
pub(super) fn farthest(build: &TunedBuild) -> Option<usize> {
    let steps = &build.turns.steps;
    let count = steps.first()?.moved.len();
    (0..count).rev().find(|&at| steps.iter().all(|turn| turn.moved[at].is_some()))
}

/// Draws the steps at one distance.
pub(super) fn draw(
    tuned: &Tuned,
    at: usize,
    far: usize,
    style: Style,
) -> Result<Plot, ReportError> {
    let build = &tuned.builds[at];
    let range = show::plain(Role::Range, tuned.distances[far].si(), style);
    let caption = format!(
        "The nock{} turned clockwise in the shaft, seen from behind, and where the arrow lands at \
         {range} with each turn. Crosses: the band over the poorly known values.",
        of(tuned, at)
    );
    let moved: Vec<_> =
        build.turns.steps.iter().map(|turn| (turn.angle, turn.moved[far].as_ref())).collect();
    let foot = TOP + TALL + 30.0;
    let height = foot + LINE * moved.len() as f64 + 6.0;
    let cell = Cell { left: 208.0, top: TOP, right: WIDTH - EDGE, bottom: TOP + TALL };
    let view = view(&moved, cell);
    let svg = sheet("tune-nock.svg", &caption, height, |paper| {
        paper.left("nock, from behind", (EDGE, 14.0), TEXT, INK)?;
        paper.left(&format!("impact at {range}"), (cell.left, 14.0), TEXT, INK)?;
        let all = Cell { left: 0.0, top: 0.0, right: WIDTH, bottom: height };
        let (middle, radius) = DIAL;
        paper.ring(middle, radius, &all, Pen::solid(SOFT, 1.2))?;
        paper.line(
            &[(middle.0, middle.1 - 14.0), (middle.0, middle.1 + 14.0)],
            Pen::solid(INK, 4.0),
        )?;
        let (x, y) = view.at([0.0; 2]);
        paper.line(&[(x, cell.top), (x, cell.bottom)], Pen::solid(GRID, 0.8))?;
        paper.line(&[(cell.left, y), (cell.right, y)], Pen::solid(GRID, 0.8))?;
        view.frame(paper, Pen::solid(GRID, 1.2))?;
        for (step, (angle, offset)) in moved.iter().enumerate() {
            let (sin, cos) = angle.sin_cos();
            let on = |r: f64| (middle.0 + r * sin, middle.1 - r * cos);
            paper.marker(step, on(radius), series(step))?;
            paper.centre(&format!("{} deg", degrees(*angle)), on(radius + 26.0), SMALL, INK)?;
            let Some(offset) = offset else { continue };
            view.cross(paper, [0.0; 2], offset, Pen::solid(SOFT, 1.1))?;
        }
        for (step, (angle, offset)) in moved.iter().enumerate() {
            let Some(offset) = offset else { continue };
            let spot = [offset.left.value, offset.up.value];
            paper.marker(step, view.at(spot), series(step))?;
            let row = foot + LINE * step as f64 + 11.0;
            paper.marker(step, (18.0, row), series(step))?;
            let words = if step == 0 {
                "as it is".to_owned()
            } else {
                format!("turned {} deg: {}", degrees(*angle), place(spot, style))
            };
            paper.left(&words, (36.0, row), TEXT, INK)?;
        }
        bar(paper, (cell.left + 2.0, cell.bottom + 14.0), view.scale, 50.0, style)
    })?;
    Ok(Plot { name: format!("tune-nock-{}.svg", at + 1), caption, svg })
}

fn view(moved: &[(f64, Option<&study::Offset>)], cell: Cell) -> View {
    let (mut low, mut high) = ([-LEAST; 2], [LEAST; 2]);
    for offset in moved.iter().filter_map(|(_, offset)| *offset) {
        for (plane, part) in [offset.left, offset.up].into_iter().enumerate() {
            low[plane] = low[plane].min(part.low);
            high[plane] = high[plane].max(part.high);
        }
    }
    let span = |plane: usize| 1.2 * (high[plane] - low[plane]);
    let scale = ((cell.right - cell.left) / span(0)).min((cell.bottom - cell.top) / span(1));
    View { cell, middle: [0, 1].map(|plane| f64::midpoint(low[plane], high[plane])), scale }
}
