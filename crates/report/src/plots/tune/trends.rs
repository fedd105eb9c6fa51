//! Trends as small multiples: a row a variable, all rows on one scale.

use study::{Trend, TrendShot, Tuned};
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::{Axes, ceiling, ticks};
use super::super::ink::{Dash, GRID, INK, Pen, SOFT, series};
use super::super::paper::{Cell, Drawn, Entry, Paper, TEXT, WIDTH, fit, legend_height, sheet};
use super::{SMALL, of};
use crate::tune::say::{self, name, unit};
use crate::{ReportError, show};

const TOP: f64 = 28.0;
const TITLE: f64 = 34.0;
const TALL: f64 = 104.0;
const FOOT: f64 = 26.0;
const LEFT: (f64, f64) = (44.0, 208.0);
const RIGHT: (f64, f64) = (270.0, 430.0);

/// What a curve shows of a shot, in the unit of its axis; none where there is
/// nothing.
type Read<'a> = &'a dyn Fn(&TrendShot) -> Option<f64>;

/// Draws the trends of one build.
pub(super) fn draw(tuned: &Tuned, at: usize, style: Style) -> Result<Plot, ReportError> {
    let build = &tuned.builds[at];
    let trends = &build.trends;
    let shots = || {
        trends.iter().flat_map(|trend| &trend.points).filter_map(|point| point.shot.as_ref().ok())
    };
    let apart = |mark: usize| {
        move |shot: &TrendShot| shot.apart[mark].map(|[l, u]| Role::Impact.value(l.hypot(u), style))
    };
    let rate = |plane: usize| {
        move |shot: &TrendShot| {
            let rate = [shot.departure.yaw_rate, shot.departure.pitch_rate][plane];
            Some(Role::Rate.value(rate, style))
        }
    };
    let marks = tuned.distances.len();
    let most = (0..marks).flat_map(|mark| shots().filter_map(apart(mark))).fold(0.0, f64::max);
    let rates = || [0, 1].into_iter().flat_map(|plane| shots().filter_map(rate(plane)));
    let (low, high) = rates().fold((0.0_f64, 0.0_f64), |(l, h), v| (l.min(v), h.max(v)));
    let room = 0.08 * (high - low).max(1e-9);
    let y = [(0.0, ceiling(most)), (low - room, high + room)];
    let block = TITLE + TALL + FOOT;
    let bottom = TOP + block * trends.len() as f64;
    let mut entries = entries(tuned, style);
    let ringed = build.neutral.and_then(|found| found.change).map(|_| entries.len());
    if ringed.is_some() {
        entries.push(Entry {
            pen: Pen::solid(INK, 0.0),
            marker: None,
            text: "the change that brings them nearest".to_owned(),
        });
    }
    let caption = format!(
        "One value{} changed at a time, all else as it is. Left: how far bare and fletched land \
         apart. Right: how fast the nose turns as the arrow leaves the string. Dotted upright: the \
         value as it is. All rows share their scales.",
        of(tuned, at)
    );
    let svg = sheet("tune-trends.svg", &caption, bottom + legend_height(entries.len()), |paper| {
        paper.left(&format!("apart, {}", Role::Impact.symbol(style)), (8.0, 14.0), TEXT, INK)?;
        let turning = format!("nose turning, {}", Role::Rate.symbol(style));
        paper.left(&turning, (RIGHT.0 - 36.0, 14.0), TEXT, INK)?;
        for (row, trend) in trends.iter().enumerate() {
            let top = TOP + block * row as f64 + TITLE;
            let unit = unit(trend).symbol;
            let comma = if unit.is_empty() { "" } else { ", " };
            let title = format!("{}{comma}{unit}", name(&trend.key));
            paper.left(&fit(&title, TEXT, WIDTH - 16.0), (8.0, top - 19.0), TEXT, INK)?;
            let panel = |edges: (f64, f64), y: (f64, f64)| Axes {
                cell: Cell { left: edges.0, top, right: edges.1, bottom: top + TALL },
                x: span(trend),
                y,
            };
            let (one, two) = (panel(LEFT, y[0]), panel(RIGHT, y[1]));
            for axes in [&one, &two] {
                grid(paper, axes, trend)?;
            }
            for mark in 0..marks {
                curve(paper, &one, trend, &apart(mark), (Pen::solid(series(mark), 1.8), mark))?;
            }
            curve(paper, &two, trend, &rate(0), (Pen::solid(INK, 1.8), 3))?;
            let up = Pen::solid(SOFT, 1.8).dash(Dash::Dashed);
            curve(paper, &two, trend, &rate(1), (up, 1))?;
            if let Some(change) =
                build.neutral.and_then(|found| found.change).filter(|change| change.trend == row)
            {
                let size = Role::Impact.value(change.left_over.size.value, style);
                let spot = one.at(say::unit(trend).of_si(change.value), size);
                paper.ring(spot, 7.0, &everywhere(), Pen::solid(INK, 1.6))?;
            }
        }
        paper.legend(&entries, bottom)?;
        if let Some(row) = ringed {
            let line = legend_height(row) - legend_height(0);
            let one = legend_height(1) - legend_height(0);
            let spot = (27.0, bottom + line + one / 2.0);
            paper.ring(spot, 7.0, &everywhere(), Pen::solid(INK, 1.6))?;
        }
        Ok(())
    })?;
    Ok(Plot { name: format!("tune-trends-{}.svg", at + 1), caption, svg })
}

fn everywhere() -> Cell {
    Cell { left: 0.0, top: 0.0, right: WIDTH, bottom: f64::MAX }
}

fn entries(tuned: &Tuned, style: Style) -> Vec<Entry> {
    let mut entries: Vec<Entry> = tuned
        .distances
        .iter()
        .enumerate()
        .rev()
        .map(|(mark, distance)| Entry {
            pen: Pen::solid(series(mark), 1.8),
            marker: Some(mark),
            text: format!("apart at {}", show::plain(Role::Range, distance.si(), style)),
        })
        .collect();
    entries.push(Entry {
        pen: Pen::solid(INK, 1.8),
        marker: Some(3),
        text: "nose turning left (right: negative)".to_owned(),
    });
    entries.push(Entry {
        pen: Pen::solid(SOFT, 1.8).dash(Dash::Dashed),
        marker: Some(1),
        text: "nose turning up (down: negative)".to_owned(),
    });
    entries
}

/// The values' ends with a little room, in the unit they are written in.
fn span(trend: &Trend) -> (f64, f64) {
    let values = trend.points.iter().map(|point| unit(trend).of_si(point.value));
    let (low, high) = values.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
    let room = if high > low { 0.05 * (high - low) } else { 0.5 };
    (low - room, high + room)
}

fn grid(paper: &Paper, axes: &Axes, trend: &Trend) -> Drawn {
    let c = &axes.cell;
    for (value, label) in ticks(axes.y.0, axes.y.1, 4) {
        let (_, y) = axes.at(axes.x.0, value);
        let pen = if value == 0.0 { Pen::solid(SOFT, 1.0) } else { Pen::solid(GRID, 0.8) };
        paper.line(&[(c.left, y), (c.right, y)], pen)?;
        paper.right(&label, (c.left - 4.0, y), SMALL, SOFT)?;
    }
    for (value, label) in ticks(axes.x.0, axes.x.1, 4) {
        let (x, _) = axes.at(value, 0.0);
        paper.line(&[(x, c.bottom), (x, c.bottom + 4.0)], Pen::solid(SOFT, 1.0))?;
        paper.centre(&label, (x, c.bottom + 13.0), SMALL, SOFT)?;
    }
    let (x, _) = axes.at(unit(trend).of_si(trend.own), 0.0);
    paper.line(&[(x, c.top), (x, c.bottom)], Pen::solid(SOFT, 1.2).dash(Dash::Dotted))
}

/// A line through the values that could be shot, broken where one could not.
fn curve(
    paper: &Paper,
    axes: &Axes,
    trend: &Trend,
    read: Read,
    (pen, marker): (Pen, usize),
) -> Drawn {
    let mut run = Vec::new();
    for point in &trend.points {
        let y = point.shot.as_ref().ok().and_then(read);
        match y {
            Some(y) => run.push(axes.at(unit(trend).of_si(point.value), y)),
            None => paper.line(&std::mem::take(&mut run), pen)?,
        }
    }
    paper.line(&run, pen)?;
    for point in &trend.points {
        if let Some(y) = point.shot.as_ref().ok().and_then(read) {
            let spot = axes.at(unit(trend).of_si(point.value), y);
            paper.marker(marker, spot, pen.colour)?;
        }
    }
    Ok(())
}
