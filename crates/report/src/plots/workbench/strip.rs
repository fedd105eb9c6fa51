//! A batch: where its arrows hit, and how far each lies from the first set's
//! centre.

use study::workbench::{Foreseen, Sorting};
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::{Axes, FOOT, HEAD, ceiling, ticks};
use super::super::ink::{Dash, GRID, INK, Pen, SOFT, series};
use super::super::paper::{Cell, Drawn, Entry, Paper, TEXT, WIDTH, legend_height, sheet};
use crate::{ReportError, show};

const FRAME: f64 = 300.0;
const STRIP: f64 = 110.0;
const GAP: f64 = 66.0;
/// Arrows are named in the picture up to so many. Chosen: more names would
/// cover each other.
const NAMED: usize = 30;

/// Draws the batch at the last distance.
pub(crate) fn draw(found: &Sorting, style: Style) -> Result<Plot, ReportError> {
    let at = found.distances.len() - 1;
    let range = show::plain(Role::Range, found.distances[at].si(), style);
    let value = |si: f64| Role::Impact.value(si, style);
    let reach = found
        .arrows
        .iter()
        .map(|a| a.places[at])
        .flat_map(|p| [p.left - found.whole.centre[0], p.up - found.whole.centre[1]].map(f64::abs))
        .fold(1e-4, f64::max);
    let reach = 1.2 * value(reach);
    let centre = found.whole.centre.map(value);
    let side = WIDTH - 78.0;
    let frame = Axes {
        cell: Cell { left: 60.0, top: HEAD, right: 60.0 + side, bottom: HEAD + FRAME },
        // Left of the target is left on the sheet.
        x: (centre[0] + reach * side / FRAME, centre[0] - reach * side / FRAME),
        y: (centre[1] - reach, centre[1] + reach),
    };
    let away = |arrow: &Foreseen| {
        let (p, c) = (arrow.places[at], found.sets.first().map_or([0.0; 2], |s| s.set.centre));
        value((p.left - c[0]).hypot(p.up - c[1]).hypot(p.blur))
    };
    let most = ceiling(found.arrows.iter().map(away).fold(0.0, f64::max));
    let top = frame.cell.bottom + GAP;
    let strip = Axes {
        cell: Cell { left: 60.0, top, right: WIDTH - 18.0, bottom: top + STRIP },
        x: (0.0, most),
        y: (0.0, found.arrows.len() as f64 + 1.0),
    };
    let entries = legend(found);
    let foot = strip.cell.bottom + FOOT;
    let caption = format!(
        "The batch at {range}, shot by a machine, seen from the archer. Above: where each arrow \
         hits; a faint ring shows how far a fault without a noted clock position may carry it. \
         Below: how far each lies from the centre of the first set, nearest at the bottom."
    );
    let svg = sheet("batch.svg", &caption, foot + legend_height(entries.len()), |paper| {
        let unit = Role::Impact.symbol(style);
        let labels = ticks(frame.x.1, frame.x.0, 6);
        frame.draw(paper, &labels, &format!("left, {unit}"), &format!("up, {unit}"))?;
        for set in &found.sets {
            let spot = frame.at(value(set.set.centre[0]), value(set.set.centre[1]));
            let radius = value(set.set.spread) / (frame.y.1 - frame.y.0) * FRAME;
            paper.ring(spot, radius, &frame.cell, Pen::solid(SOFT, 1.1).dash(Dash::Dashed))?;
        }
        for arrow in &found.arrows {
            let p = &arrow.places[at];
            let spot = frame.at(value(p.left), value(p.up));
            let blur = value(p.blur) / (frame.y.1 - frame.y.0) * FRAME;
            if blur > 2.0 {
                paper.ring(spot, blur, &frame.cell, Pen::solid(GRID, 1.0))?;
            }
            mark(paper, arrow, spot)?;
            if found.arrows.len() <= NAMED {
                // By turns on both sides, so that neighbours keep apart.
                let above = |other: &&Foreseen| other.places[at].up > p.up;
                let name = &arrow.measured.name;
                if found.arrows.iter().filter(above).count() % 2 == 0 {
                    paper.left(name, (spot.0 + 7.0, spot.1), TEXT - 3.0, SOFT)?;
                } else {
                    paper.right(name, (spot.0 - 7.0, spot.1), TEXT - 3.0, SOFT)?;
                }
            }
        }
        draw_strip(paper, &strip, found, &away, unit)?;
        paper.legend(&entries, foot)
    })?;
    Ok(Plot { name: "batch.svg".to_owned(), caption, svg })
}

fn mark(paper: &Paper, arrow: &Foreseen, spot: (f64, f64)) -> Drawn {
    match arrow.set {
        Some(set) => paper.marker(set, spot, series(set)),
        None => paper.dot(spot, 2.6, SOFT, 0.8),
    }
}

fn draw_strip(
    paper: &Paper,
    axes: &Axes,
    found: &Sorting,
    away: &dyn Fn(&Foreseen) -> f64,
    unit: &str,
) -> Drawn {
    let c = &axes.cell;
    let mut order: Vec<&Foreseen> = found.arrows.iter().collect();
    order.sort_by(|a, b| away(a).total_cmp(&away(b)));
    for (value, label) in ticks(0.0, axes.x.1, 6) {
        let (x, _) = axes.at(value, 0.0);
        paper.line(&[(x, c.top), (x, c.bottom)], Pen::solid(GRID, 0.8))?;
        paper.centre(&label, (x, c.bottom + 15.0), TEXT, SOFT)?;
    }
    paper.line(&[(c.left, c.bottom), (c.right, c.bottom)], Pen::solid(SOFT, 1.0))?;
    let middle = f64::midpoint(c.left, c.right);
    paper.centre(
        &format!("away from the first set's centre, {unit}"),
        (middle, c.bottom + 35.0),
        TEXT,
        INK,
    )?;
    for (row, arrow) in order.into_iter().enumerate() {
        mark(paper, arrow, axes.at(away(arrow), row as f64 + 1.0))?;
    }
    Ok(())
}

fn legend(found: &Sorting) -> Vec<Entry> {
    let mut entries: Vec<Entry> = found
        .sets
        .iter()
        .enumerate()
        .map(|(at, set)| Entry {
            pen: Pen::solid(series(at), 0.01),
            marker: Some(at),
            text: set.name.clone(),
        })
        .collect();
    if !found.left_over.is_empty() {
        entries.push(Entry {
            pen: Pen::solid(SOFT, 2.0).dash(Dash::Dotted),
            marker: None,
            text: "in no set (small grey dots)".to_owned(),
        });
    }
    entries.push(Entry {
        pen: Pen::solid(SOFT, 1.1).dash(Dash::Dashed),
        marker: None,
        text: "a set's spread about its centre".to_owned(),
    });
    entries
}
