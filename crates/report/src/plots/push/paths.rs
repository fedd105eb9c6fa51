//! The way of nock and tip across the push, against the way along it.

use study::{Moment, PushStory};
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::{Axes, FOOT, HEAD, ticks};
use super::super::ink::{Dash, Pen, series};
use super::super::paper::{Entry, legend_height, sheet};
use super::{ends, trace, wide};
use crate::ReportError;

const PLOT: f64 = 170.0;

/// Draws left above up, on one scale.
pub(super) fn draw(story: &PushStory, style: Style) -> Result<Plot, ReportError> {
    let value = |si: f64| Role::Gauge.value(si, style);
    let all = story.moments.iter().flat_map(|m| m.nock.into_iter().chain(m.tip));
    let y = ends(all.map(value));
    let x = (0.0, Role::Part.value(story.stroke, style));
    let panel = |top: f64| Axes { cell: wide(top, PLOT), x, y };
    let panels = [panel(HEAD), panel(HEAD + PLOT + FOOT + HEAD)];
    let pens = [Pen::solid(series(0), 2.0), Pen::solid(series(1), 2.0).dash(Dash::Dashed)];
    let entries = [(pens[0], "nock groove"), (pens[1], "tip of the point")]
        .map(|(pen, text)| Entry { pen, marker: None, text: text.to_owned() });
    let bottom = panels[1].cell.bottom + FOOT;
    let caption = "How far nock groove and tip stray from the line of the push. Both pictures have \
        one scale.";
    let svg = sheet("push-paths.svg", caption, bottom + legend_height(entries.len()), |paper| {
        let labels = ticks(x.0, x.1, 6);
        let unit = Role::Gauge.symbol(style);
        let x_title = format!("way of the nock, {}", Role::Part.symbol(style));
        for (plane, axes) in panels.iter().enumerate() {
            let sense = ["to the left", "up"][plane];
            axes.draw(paper, &labels, &x_title, &format!("{sense}, {unit}"))?;
            let reads: [fn(&Moment) -> [f64; 2]; 2] = [|m| m.nock, |m| m.tip];
            for (read, pen) in reads.into_iter().zip(pens) {
                let points: Vec<(f64, f64)> = story
                    .moments
                    .iter()
                    .map(|m| (Role::Part.value(m.travel, style), value(read(m)[plane])))
                    .collect();
                trace(paper, axes, &points, pen)?;
            }
        }
        paper.legend(&entries, bottom)
    })?;
    Ok(Plot { name: "push-paths.svg".to_owned(), caption: caption.to_owned(), svg })
}
