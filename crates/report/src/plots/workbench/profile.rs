//! The axis of a shaft as it lies on its supports, and of the piece cut from
//! it, with the cuts.

use body::Across;
use study::workbench::CutShaft;
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::{Axes, FOOT, HEAD, ticks};
use super::super::ink::{Dash, INK, Pen, SOFT, series};
use super::super::paper::{Cell, Drawn, Entry, Paper, TEXT, WIDTH, legend_height, sheet};
use crate::ReportError;

const PANEL: f64 = 150.0;
const GAP: f64 = 62.0;
/// Places along an axis. Chosen: finer than any station is read.
const PLACES: u32 = 160;

/// Draws one shaft; `at` is its number from zero.
pub(crate) fn draw((at, shaft): (usize, &CutShaft), style: Style) -> Result<Plot, ReportError> {
    let (axis, cut) = (&shaft.axis, &shaft.plan.best);
    let (stock, length) = (axis.stock(), axis.stock() - cut.rear - cut.front);
    let whole = line(0.0, stock, |x| axis.at(x));
    // The piece lies on its own span.
    let middle = cut.rear + length / 2.0;
    let half = cut.straight.span / 2.0;
    let (a, b) = (middle - half, middle + half);
    let (ya, yb) = (axis.at(a), axis.at(b));
    let lying = |x: f64| {
        let share = (x - a) / (b - a);
        axis.at(x) - ya * (1.0 - share) - yb * share
    };
    let piece = line(cut.rear, cut.rear + length, lying);
    // The plane in which the shaft lies farthest off, and the one across it.
    let far = whole.iter().fold(
        Across::ZERO,
        |far, (_, off)| {
            if off.size() > far.size() { *off } else { far }
        },
    );
    let unit = Across::polar(1.0, far.clock());
    let top = whole.iter().chain(&piece).map(|(_, off)| off.size()).fold(0.0, f64::max);
    let top = 1.15 * Role::Gauge.value(top.max(1e-6), style);
    let panel = |top_edge: f64| Axes {
        cell: Cell { left: 66.0, top: top_edge, right: WIDTH - 18.0, bottom: top_edge + PANEL },
        x: (0.0, Role::Part.value(stock, style)),
        y: (-top, top),
    };
    let (before, after) = (panel(HEAD + 10.0), panel(HEAD + 10.0 + PANEL + GAP));
    let entries = || {
        let pen = Pen::solid(series(0), 2.0);
        vec![
            Entry { pen, marker: None, text: "in the plane of its largest offset".to_owned() },
            Entry {
                pen: Pen::solid(series(1), 2.0).dash(Dash::Dashed),
                marker: None,
                text: "across that plane".to_owned(),
            },
            Entry { pen: Pen::solid(INK, 1.4), marker: None, text: "cut".to_owned() },
            Entry {
                pen: Pen::solid(SOFT, 1.4).dash(Dash::Dotted),
                marker: None,
                text: "ends of the span".to_owned(),
            },
        ]
    };
    let foot = after.cell.bottom + FOOT;
    let caption = format!(
        "Shaft {}: how far its axis lies off the straight line through its supports, before; and \
         off the line through its own span, after. Dots: stations. Grey: what comes off.",
        shaft.name
    );
    let svg = sheet("shaft.svg", &caption, foot + legend_height(4), |paper| {
        let unit_y = Role::Gauge.symbol(style);
        for (axes, title) in [(&before, "before"), (&after, "after")] {
            let x_title = format!("from the nock end, {}", Role::Part.symbol(style));
            let x_ticks = ticks(0.0, axes.x.1, 6);
            axes.draw(paper, &x_ticks, &x_title, &format!("{title}: off axis, {unit_y}"))?;
        }
        for (from, to) in [(0.0, cut.rear), (stock - cut.front, stock)] {
            if to > from {
                waste(paper, &before, from, to, style)?;
            }
        }
        for (axes, places) in [(&before, &whole), (&after, &piece)] {
            sides(paper, axes, places, unit, style)?;
        }
        for x in axis.stations() {
            let off = Role::Gauge.value(along(axis.at(x), unit), style);
            paper.dot(before.at(Role::Part.value(x, style), off), 2.4, series(0), 1.0)?;
        }
        for x in [a, b] {
            upright(paper, &after, x, Pen::solid(SOFT, 1.4).dash(Dash::Dotted), style)?;
        }
        for x in [cut.rear, cut.rear + length] {
            upright(paper, &before, x, Pen::solid(INK, 1.4), style)?;
        }
        paper.legend(&entries(), foot)
    })?;
    Ok(Plot { name: format!("shaft-{}.svg", at + 1), caption, svg })
}

fn line(from: f64, to: f64, at: impl Fn(f64) -> Across) -> Vec<(f64, Across)> {
    let place = |k| from + (to - from) * f64::from(k) / f64::from(PLACES);
    (0..=PLACES).map(|k| (place(k), at(place(k)))).collect()
}

fn along(off: Across, unit: Across) -> f64 {
    off.at0 * unit.at0 + off.at90 * unit.at90
}

fn sides(
    paper: &Paper,
    axes: &Axes,
    places: &[(f64, Across)],
    unit: Across,
    style: Style,
) -> Drawn {
    let across = Across { at0: -unit.at90, at90: unit.at0 };
    for (side, pen) in [
        (across, Pen::solid(series(1), 2.0).dash(Dash::Dashed)),
        (unit, Pen::solid(series(0), 2.0)),
    ] {
        let point = |(x, off): &(f64, Across)| {
            (Role::Part.value(*x, style), Role::Gauge.value(along(*off, side), style))
        };
        let points: Vec<(f64, f64)> = places.iter().map(point).collect();
        paper.line(&axes.all(&points), pen)?;
    }
    Ok(())
}

fn upright(paper: &Paper, axes: &Axes, x: f64, pen: Pen, style: Style) -> Drawn {
    let (at, _) = axes.at(Role::Part.value(x, style), 0.0);
    paper.line(&[(at, axes.cell.top), (at, axes.cell.bottom)], pen)
}

fn waste(paper: &Paper, axes: &Axes, from: f64, to: f64, style: Style) -> Drawn {
    let [left, right] = [from, to].map(|x| axes.at(Role::Part.value(x, style), 0.0).0);
    let (top, bottom) = (axes.cell.top, axes.cell.bottom);
    paper.area(&[(left, top), (right, top), (right, bottom), (left, bottom)], SOFT, 0.18)?;
    let text = Role::Part.number(to - from, style);
    let middle = f64::midpoint(left, right).clamp(axes.cell.left + 18.0, axes.cell.right - 18.0);
    paper.centre(&text, (middle, top - 2.0), TEXT - 2.0, INK)
}
