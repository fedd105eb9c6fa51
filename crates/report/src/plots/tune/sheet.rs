//! The paper as it is torn: hole, tear and vanes, to one scale.

use study::{Tear, Tuned, TunedBuild};
use units::{Role, Style};

use super::super::Plot;
use super::super::ink::{GRID, INK, Pen, series};
use super::super::paper::{Cell, Drawn, Paper, TEXT, WIDTH, sheet};
use super::{EDGE, SMALL, View, bar, of};
use crate::tune::say::direction;
use crate::{ReportError, show};

const GAP: f64 = 8.0;
const TITLE: f64 = 24.0;
/// Room beneath a sheet for two lines, px.
const UNDER: f64 = 40.0;
/// Sheets side by side at most.
const ACROSS: usize = 3;

/// One frame for each sheet.
pub(super) fn draw(tuned: &Tuned, at: usize, style: Style) -> Result<Plot, ReportError> {
    let build = &tuned.builds[at];
    let columns = build.paper.len().min(ACROSS);
    let wide = (WIDTH - 2.0 * EDGE - GAP * (columns - 1) as f64) / columns as f64;
    let wide = wide.min(200.0);
    let rows = build.paper.len().div_ceil(columns);
    let block = TITLE + wide + UNDER;
    let foot = rows as f64 * block;
    let half = build.paper.iter().map(|tear| reach(build, tear)).fold(0.0, f64::max);
    let scale = wide / (2.0 * half);
    let caption = format!(
        "The paper{}, seen from the bow, all to one scale. The arrow's tip makes the hole; the \
         tear runs to where the nock passes, with a slit for each vane.",
        of(tuned, at)
    );
    let svg = sheet("tune-paper.svg", &caption, foot + 34.0, |paper| {
        for (index, tear) in build.paper.iter().enumerate() {
            let left = EDGE + (index % columns) as f64 * (wide + GAP);
            let top = (index / columns) as f64 * block + TITLE;
            let cell = Cell { left, top, right: left + wide, bottom: top + wide };
            let nock = [tear.nock.left.value, tear.nock.up.value];
            let view = View { cell, middle: nock.map(|part| part / 2.0), scale };
            let range = show::plain(Role::Range, tear.distance.si(), style);
            paper.left(&format!("at {range}"), (left, top - 12.0), TEXT, INK)?;
            torn(paper, build, tear, &view)?;
            let words = direction(nock, style).map_or_else(
                || vec!["nock in the hole".to_owned()],
                |words| words.split(" and ").map(|part| format!("nock {part}")).collect(),
            );
            for (line, text) in words.iter().enumerate() {
                let y = cell.bottom + 12.0 + 15.0 * line as f64;
                paper.left(text, (left, y), SMALL, INK)?;
            }
        }
        let y = foot + 16.0;
        bar(paper, (EDGE, y), scale, 50.0, style)?;
        paper.dot((190.0, y), 3.0, series(1), 1.0)?;
        paper.left("tip", (200.0, y), TEXT, INK)?;
        let all = Cell { left: 0.0, top: 0.0, right: WIDTH, bottom: f64::MAX };
        paper.ring((270.0, y), 5.0, &all, Pen::solid(series(0), 2.0))?;
        paper.left("nock", (282.0, y), TEXT, INK)
    })?;
    Ok(Plot { name: format!("tune-paper-{}.svg", at + 1), caption, svg })
}

/// How far from the middle of a tear its sheet must reach, m.
fn reach(build: &TunedBuild, tear: &Tear) -> f64 {
    let half = tear.nock.left.value.abs().max(tear.nock.up.value.abs()) / 2.0;
    1.15 * (half + build.vane_radius)
}

fn torn(paper: &Paper, build: &TunedBuild, tear: &Tear, view: &View) -> Drawn {
    view.frame(paper, Pen::solid(GRID, 1.2))?;
    let nock = [tear.nock.left.value, tear.nock.up.value];
    let (from, to) = (view.at([0.0; 2]), view.at(nock));
    let radius = build.shaft_radius * view.scale;
    // The outline of a shaft drawn along the tear.
    let along = (to.1 - from.1).atan2(to.0 - from.0);
    let half_turn = |centre: (f64, f64), start: f64| {
        (0..=24).map(move |step| {
            let turn = start + std::f64::consts::PI * f64::from(step) / 24.0;
            (centre.0 + radius * turn.cos(), centre.1 + radius * turn.sin())
        })
    };
    let quarter = std::f64::consts::FRAC_PI_2;
    let mut edge: Vec<(f64, f64)> = half_turn(to, along - quarter).collect();
    edge.extend(half_turn(from, along + quarter));
    paper.area(&edge, INK, 0.16)?;
    edge.extend(edge.first().copied());
    for clock in &tear.vanes {
        let (sin, cos) = clock.sin_cos();
        let slit = |reach: f64| view.at([nock[0] - reach * sin, nock[1] + reach * cos]);
        paper.line(&[slit(build.shaft_radius), slit(build.vane_radius)], Pen::solid(INK, 1.6))?;
    }
    paper.line(&edge, Pen::solid(INK, 1.2))?;
    paper.ring(to, radius.max(3.0), &view.cell, Pen::solid(series(0), 2.0))?;
    paper.dot(from, 2.6, series(1), 1.0)
}
