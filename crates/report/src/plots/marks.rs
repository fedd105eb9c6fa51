//! Sight marks over distance, and arcs over the line of sight.

use study::SightMarks;
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD, spaced};
use super::ink::{INK, Pen, dash, series};
use super::paper::{Cell, Entry, WIDTH, legend_height, sheet};
use crate::{ReportError, show};

const TALL: f64 = 230.0;

/// Both pictures.
pub(crate) fn all(marks: &SightMarks, style: Style) -> Result<[Plot; 2], ReportError> {
    Ok([travel(marks, style)?, arcs(marks, style)?])
}

fn cell() -> Cell {
    Cell { left: 58.0, top: HEAD, right: WIDTH - 16.0, bottom: HEAD + TALL }
}

/// Ends of an axis that holds all values, with some room.
fn ends(values: impl Iterator<Item = f64> + Clone) -> (f64, f64) {
    let low = values.clone().fold(0.0, f64::min);
    let high = values.fold(0.0, f64::max);
    let room = 0.06 * (high - low).max(1e-3);
    (low - room, high + room)
}

fn labels(places: &[f64], far: f64) -> Vec<(f64, String)> {
    spaced(places, show::significant, 0.09 * far)
}

fn travel(marks: &SightMarks, style: Style) -> Result<Plot, ReportError> {
    let mm = |si: f64| 1e3 * si;
    let places: Vec<f64> =
        marks.rows.iter().map(|row| Role::Range.value(row.distance, style)).collect();
    let all = marks.rows.iter().flat_map(|row| [row.travel.low, row.travel.high]).map(mm);
    let (high, low) = ends(all);
    let far = places.last().copied().unwrap_or(1.0);
    let axes = Axes { cell: cell(), x: (0.0, 1.03 * far), y: (low, high) };
    let caption = "The pin below its place at the zero, on the sight itself; shaded, the band of \
        the poorly known values once the sight is set at the zero.";
    let svg = sheet("marks.svg", caption, HEAD + TALL + FOOT, |paper| {
        let title = format!("distance, {}", Role::Range.symbol(style));
        axes.draw(paper, &labels(&places, far), &title, "mark below that of the zero, mm")?;
        let curve = |read: fn(&study::Banded) -> f64| {
            let points: Vec<(f64, f64)> = marks
                .rows
                .iter()
                .zip(&places)
                .map(|(row, place)| (*place, mm(read(&row.travel))))
                .collect();
            axes.all(&super::axes::smooth(&points))
        };
        paper.band(&curve(|t| t.low), &curve(|t| t.high), series(0), 0.25)?;
        paper.line(&curve(|t| t.value), Pen::solid(series(0), 2.0))?;
        for (row, place) in marks.rows.iter().zip(&places) {
            paper.marker(0, axes.at(*place, mm(row.travel.value)), series(0))?;
        }
        Ok(())
    })?;
    Ok(Plot { name: "marks.svg".to_owned(), caption: caption.to_owned(), svg })
}

fn arcs(marks: &SightMarks, style: Style) -> Result<Plot, ReportError> {
    let point = |&(at, above): &(f64, f64)| {
        (Role::Range.value(at, style), Role::Impact.value(above, style))
    };
    let heights = marks.arcs.iter().flat_map(|arc| &arc.points).map(|p| point(p).1);
    let twigs = marks.twigs.iter().map(|t| Role::Impact.value(t.twig.height.si(), style));
    let all: Vec<f64> = heights.chain(twigs).collect();
    let (low, high) = ends(all.iter().copied());
    let targets: Vec<f64> =
        marks.arcs.iter().map(|arc| Role::Range.value(arc.distance, style)).collect();
    let far = targets.last().copied().unwrap_or(1.0);
    let axes = Axes { cell: cell(), x: (0.0, 1.03 * far), y: (low, high) };
    let mut entries: Vec<Entry> = marks
        .arcs
        .iter()
        .enumerate()
        .map(|(at, arc)| Entry {
            pen: Pen::solid(series(at), 2.0).dash(dash(at)),
            marker: None,
            text: format!("shot at {}", show::plain(Role::Range, arc.distance, style)),
        })
        .collect();
    if !marks.twigs.is_empty() {
        entries.push(Entry {
            pen: Pen::solid(INK, 0.0),
            marker: Some(3),
            text: "twig or edge".to_owned(),
        });
    }
    let bottom = HEAD + TALL + FOOT;
    let caption = "The arc of each shot over its own line of sight, which is the line at zero; \
        each begins 2 m from the bow and ends at its target. Heights are drawn far larger than \
        distances.";
    let svg = sheet("arcs.svg", caption, bottom + legend_height(entries.len()), |paper| {
        let title = format!("distance, {}", Role::Range.symbol(style));
        let unit = Role::Impact.symbol(style);
        let over = format!("above line of sight, {unit}");
        axes.draw(paper, &labels(&targets, far), &title, &over)?;
        for (at, arc) in marks.arcs.iter().enumerate() {
            let points: Vec<(f64, f64)> = arc.points.iter().map(point).collect();
            paper.line(&axes.all(&points), Pen::solid(series(at), 2.0).dash(dash(at)))?;
        }
        for answer in &marks.twigs {
            let (at, height) = point(&(answer.twig.distance.si(), answer.twig.height.si()));
            if at <= axes.x.1 {
                paper.marker(3, axes.at(at, height), INK)?;
            }
        }
        paper.legend(&entries, bottom)
    })?;
    Ok(Plot { name: "arcs.svg".to_owned(), caption: caption.to_owned(), svg })
}
