//! The drop curve with its band, and the height over the line of sight.

use study::{Answer, BuildAnswer, MarkAnswer};
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD, ceiling, smooth, spaced};
use super::ink::{Pen, dash, series};
use super::paper::{Cell, Entry, WIDTH, legend_height, sheet};
use crate::{ReportError, show};

const UPPER: f64 = 220.0;
const LOWER: f64 = 170.0;

/// Draws every build's nominal arrow.
pub(crate) fn draw(answer: &Answer, style: Style) -> Result<Plot, ReportError> {
    let base = &answer.builds[0];
    let value = |si: f64| Role::Impact.value(si, style);
    let marks = || answer.builds.iter().flat_map(|build| &build.marks);
    let deep = marks().map(|m| value(m.nominal.drop_band.0.max(m.nominal.drop_band.1)));
    let deep = ceiling(deep.fold(0.0, f64::max));
    let heights = || marks().map(|m| value(m.nominal.above_sight));
    let high = heights().fold(0.0, f64::max);
    let low = heights().fold(0.0, f64::min);
    let margin = 0.06 * (high - low).max(1e-3);
    let far = base.marks.last().map_or(1.0, |mark| Role::Range.value(mark.distance.si(), style));
    let cell =
        |top: f64, tall: f64| Cell { left: 58.0, top, right: WIDTH - 16.0, bottom: top + tall };
    let second = HEAD + UPPER + FOOT + HEAD;
    let fall = Axes { cell: cell(HEAD, UPPER), x: (0.0, 1.03 * far), y: (deep, 0.0) };
    let sight =
        Axes { cell: cell(second, LOWER), x: (0.0, 1.03 * far), y: (low - margin, high + margin) };
    let entries: Vec<Entry> = answer
        .builds
        .iter()
        .enumerate()
        .map(|(at, build)| Entry {
            pen: Pen::solid(series(at), 2.0).dash(dash(at)),
            marker: Some(at),
            text: show::label(answer, build),
        })
        .collect();
    let bottom = second + LOWER + FOOT;
    let caption = "Above: fall below the line of departure, the line along which the arrow \
        leaves; shaded, the band of the poorly known values. Below: height over the line of \
        sight as zeroed. Marks are computed; the curves are drawn smoothly through them.";
    let svg = sheet("drop.svg", caption, bottom + legend_height(entries.len()), |paper| {
        let places: Vec<f64> =
            base.marks.iter().map(|mark| Role::Range.value(mark.distance.si(), style)).collect();
        let labels = spaced(&places, show::significant, 0.08 * far);
        let x_title = format!("distance, {}", Role::Range.symbol(style));
        let unit = Role::Impact.symbol(style);
        fall.draw(paper, &labels, &x_title, &format!("below line of departure, {unit}"))?;
        sight.draw(paper, &labels, &x_title, &format!("above line of sight, {unit}"))?;
        for (at, build) in answer.builds.iter().enumerate() {
            let curve = |start: bool, read: fn(&MarkAnswer) -> f64| {
                smooth(&points(build, start, style, read))
            };
            let edge = |read: fn(&MarkAnswer) -> f64| fall.all(&curve(true, read));
            let band = (edge(|m| m.nominal.drop_band.0), edge(|m| m.nominal.drop_band.1));
            paper.band(&band.0, &band.1, series(at), 0.2)?;
            let pen = Pen::solid(series(at), 2.0).dash(dash(at));
            for (axes, start, read) in [
                (&fall, true, (|m: &MarkAnswer| m.nominal.drop) as fn(&MarkAnswer) -> f64),
                (&sight, false, |m: &MarkAnswer| m.nominal.above_sight),
            ] {
                paper.line(&axes.all(&curve(start, read)), pen)?;
                for spot in axes.all(&points(build, false, style, read)) {
                    paper.marker(at, spot, series(at))?;
                }
            }
        }
        paper.legend(&entries, bottom)
    })?;
    Ok(Plot { name: "drop.svg".to_owned(), caption: caption.to_owned(), svg })
}

/// The marks of a build; with `start`, the bow too, where drop is zero.
fn points(
    build: &BuildAnswer,
    start: bool,
    style: Style,
    read: fn(&MarkAnswer) -> f64,
) -> Vec<(f64, f64)> {
    let mut points = Vec::new();
    if start {
        points.push((0.0, 0.0));
    }
    points.extend(build.marks.iter().map(|mark| {
        let x = Role::Range.value(mark.distance.si(), style);
        (x, Role::Impact.value(read(mark), style))
    }));
    points
}
