//! Bench steps: gain against minutes, and ranked gains.

use study::{Bench, WorthBuild};
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD, ceiling, ticks};
use super::ink::{GRID, INK, Pen, SOFT, series};
use super::paper::{Cell, Entry, Spot, TEXT, WIDTH, fit, legend_height, sheet};
use crate::worth::say;
use crate::{ReportError, show};

const PLOT: f64 = 270.0;
const LEFT: f64 = 192.0;
const BAR: f64 = 22.0;
/// Height of a line of the list of names, px.
const NAMED: f64 = 18.0;
/// Radius of a numbered disc, px.
const DISC: f64 = 8.0;

/// Every picture that the answer fills.
pub(crate) fn all(found: &Bench, style: Style) -> Result<Vec<Plot>, ReportError> {
    let mut plots = Vec::new();
    for at in 0..found.builds.len() {
        plots.push(minutes(found, at, style)?);
        plots.push(bars(found, at, style)?);
    }
    Ok(plots)
}

fn range(found: &Bench, style: Style) -> String {
    let far = found.distances.last().map_or(0.0, |distance| distance.si());
    show::plain(Role::Range, far, style)
}

/// Minutes and gain of what was tried.
fn spot(build: &WorthBuild, at: usize, style: Style) -> (f64, f64) {
    let done = &build.tried[at];
    (done.time / 60.0, Role::Impact.value(say::far(done).gain.value, style))
}

fn minutes(found: &Bench, at: usize, style: Style) -> Result<Plot, ReportError> {
    let build = &found.builds[at];
    let spots: Vec<(f64, f64)> = (0..build.tried.len()).map(|at| spot(build, at, style)).collect();
    let most = |read: fn(&(f64, f64)) -> f64| spots.iter().map(read).fold(0.0, f64::max);
    let low = spots.iter().map(|s| s.1).fold(0.0, f64::min);
    let (wide, high) = (ceiling(most(|s| s.0)), ceiling(most(|s| s.1)));
    let axes = Axes {
        cell: Cell { left: 56.0, top: HEAD, right: WIDTH - 16.0, bottom: HEAD + PLOT },
        x: (0.0, wide),
        y: (if low < 0.0 { -ceiling(-low) } else { 0.0 }, high),
    };
    let caption = format!(
        "Gain in R50 at {} against minutes a dozen. Numbers: each step alone, beside its place where discs would hide each other. Small dots: other \
         choices tried. Line: choices that no other beats.",
        range(found, style)
    );
    let names = say::ranked(found, build);
    let legend = HEAD + PLOT + FOOT;
    let entries = [Entry {
        pen: Pen::solid(series(1), 2.0),
        marker: Some(0),
        text: "choices that no other beats".to_owned(),
    }];
    let listed = legend + legend_height(entries.len());
    let height = listed + NAMED * names.len() as f64 + 8.0;
    let svg = sheet("worth.svg", &caption, height, |paper| {
        let title = format!("gain in R50, {}", Role::Impact.symbol(style));
        axes.draw(paper, &ticks(0.0, wide, 6), "minutes a dozen", &title)?;
        for (tried, spot) in spots.iter().enumerate() {
            if build.tried[tried].steps.len() > 1 {
                paper.dot(axes.at(spot.0, spot.1), 2.0, SOFT, 0.45)?;
            }
        }
        let mut line = vec![axes.at(0.0, 0.0)];
        line.extend(build.front.iter().map(|at| axes.at(spots[*at].0, spots[*at].1)));
        paper.line(&line, Pen::solid(series(1), 2.0))?;
        for spot in &line[1..] {
            paper.marker(0, *spot, series(1))?;
        }
        let mut taken: Vec<Spot> = Vec::new();
        for (place, tried) in names.iter().enumerate() {
            let at = axes.at(spots[*tried].0, spots[*tried].1);
            let disc = free(at, &taken);
            paper.line(&[at, disc], Pen::solid(series(0), 1.0))?;
            paper.dot(at, 2.5, series(0), 1.0)?;
            paper.dot(disc, DISC, series(0), 1.0)?;
            paper.dot(disc, DISC - 1.5, GRID, 1.0)?;
            paper.centre(&(place + 1).to_string(), disc, 12.0, INK)?;
            taken.push(disc);
        }
        paper.legend(&entries, legend)?;
        for (place, tried) in names.iter().enumerate() {
            let y = listed + NAMED * (place as f64 + 0.5);
            let step = &found.steps[build.tried[*tried].steps[0]].name;
            paper.right(&format!("{}", place + 1), (44.0, y), TEXT, SOFT)?;
            paper.left(&fit(step, TEXT, WIDTH - 70.0), (54.0, y), TEXT, INK)?;
        }
        Ok(())
    })?;
    Ok(Plot { name: format!("worth-{}.svg", at + 1), caption, svg })
}

/// A spot for a disc that covers no other: moved to the right until it is free.
fn free((x, y): Spot, taken: &[Spot]) -> Spot {
    let mut at = (x, y);
    while taken.iter().any(|t| (t.0 - at.0).hypot(t.1 - at.1) < 2.0 * DISC) {
        at.0 += DISC;
    }
    at
}

fn bars(found: &Bench, at: usize, style: Style) -> Result<Plot, ReportError> {
    let build = &found.builds[at];
    let mut order: Vec<usize> = (1..=found.steps.len()).collect();
    let gain = |at: usize| say::far(&build.tried[at]).gain;
    order.sort_by(|a, b| gain(*b).value.total_cmp(&gain(*a).value));
    let value = |si: f64| Role::Impact.value(si, style);
    let top = order.iter().map(|at| value(gain(*at).high)).fold(0.0, f64::max);
    let least = order.iter().map(|at| value(gain(*at).low)).fold(0.0, f64::min);
    let (low, high) = (if least < 0.0 { -ceiling(-least) } else { 0.0 }, ceiling(top));
    let wide = WIDTH - LEFT - 24.0;
    let x = |value: f64| LEFT + (value - low) / (high - low) * wide;
    let bottom = 14.0 + BAR * order.len() as f64;
    let caption = format!(
        "Gain in R50 at {} from each step alone. Whiskers: 95 % interval; one that crosses zero \
         shows no gain.",
        range(found, style)
    );
    let svg = sheet("gains.svg", &caption, bottom + 52.0, |paper| {
        for (tick, label) in ticks(low, high, 5) {
            paper.line(&[(x(tick), 8.0), (x(tick), bottom)], Pen::solid(GRID, 0.8))?;
            paper.centre(&label, (x(tick), bottom + 13.0), TEXT, SOFT)?;
        }
        paper.line(&[(x(0.0), 8.0), (x(0.0), bottom)], Pen::solid(SOFT, 1.2))?;
        let title = format!("gain in R50, {}", Role::Impact.symbol(style));
        paper.centre(&title, (LEFT + wide / 2.0, bottom + 34.0), TEXT, INK)?;
        for (row, at) in order.iter().enumerate() {
            let y = 14.0 + BAR * (row as f64 + 0.5);
            let name = &found.steps[build.tried[*at].steps[0]].name;
            paper.right(&fit(name, TEXT, LEFT - 12.0), (LEFT - 8.0, y), TEXT, INK)?;
            let gain = gain(*at);
            let (from, to, half) = (x(0.0), x(value(gain.value)), 0.3 * BAR);
            let edge = [(from, y - half), (to, y - half), (to, y + half), (from, y + half)];
            paper.area(&edge, series(0), 0.6)?;
            let (low, high) = (x(value(gain.low)), x(value(gain.high)));
            paper.line(&[(low, y), (high, y)], Pen::solid(INK, 1.2))?;
            for end in [low, high] {
                paper.line(&[(end, y - 3.0), (end, y + 3.0)], Pen::solid(INK, 1.2))?;
            }
        }
        Ok(())
    })?;
    Ok(Plot { name: format!("gains-{}.svg", at + 1), caption, svg })
}
