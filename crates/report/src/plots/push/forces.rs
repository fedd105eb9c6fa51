//! Forces against time: the push on its own scale, the string's sideways pull,
//! the rest.

use study::{Moment, PushStory};
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::{Axes, FOOT, HEAD, ceiling, ticks};
use super::super::ink::{Dash, INK, Pen, series};
use super::super::paper::{Entry, legend_height, sheet};
use super::{ends, millis, trace, wide};
use crate::ReportError;

const PLOT: f64 = 130.0;

/// Draws three panels over one time axis.
pub(super) fn draw(story: &PushStory, style: Style) -> Result<Plot, ReportError> {
    let value = |si: f64| Role::Force.value(si, style);
    let end = story.moments.last().map_or(1.0, |m| millis(m.time));
    let all = |read: fn(&Moment) -> [f64; 2]| ends(story.moments.iter().flat_map(read).map(value));
    let most = story.moments.iter().map(|m| value(m.push)).fold(0.0, f64::max);
    let rows = [(0.0, ceiling(most)), all(|m| m.string), all(|m| m.rest)];
    let panels: Vec<Axes> = rows
        .into_iter()
        .enumerate()
        .map(|(at, y)| {
            let top = HEAD + at as f64 * (HEAD + PLOT + FOOT);
            Axes { cell: wide(top, PLOT), x: (0.0, end), y }
        })
        .collect();
    let pens = [
        Pen::solid(INK, 2.0),
        Pen::solid(series(0), 2.0),
        Pen::solid(series(1), 2.0).dash(Dash::Dashed),
    ];
    let words = ["along the push", "to the left", "up"];
    let entries =
        [0, 1, 2].map(|at| Entry { pen: pens[at], marker: None, text: words[at].to_owned() });
    let bottom = HEAD + 3.0 * (HEAD + PLOT + FOOT) - HEAD;
    let caption = "Forces on the arrow from release to departure. Each picture has its own scale: \
        the push is many times larger than what holds the arrow sideways.";
    let svg = sheet("push-forces.svg", caption, bottom + legend_height(entries.len()), |paper| {
        let labels = ticks(0.0, end, 6);
        let unit = Role::Force.symbol(style);
        let titles = ["push on the nock", "string across the push", "rest on the shaft"];
        for (axes, title) in panels.iter().zip(titles) {
            axes.draw(paper, &labels, "time since release, ms", &format!("{title}, {unit}"))?;
        }
        let line = |read: &dyn Fn(&Moment) -> f64| -> Vec<(f64, f64)> {
            story.moments.iter().map(|m| (millis(m.time), value(read(m)))).collect()
        };
        trace(paper, &panels[0], &line(&|m| m.push), pens[0])?;
        for plane in 0..2 {
            trace(paper, &panels[1], &line(&|m| m.string[plane]), pens[1 + plane])?;
            trace(paper, &panels[2], &line(&|m| m.rest[plane]), pens[1 + plane])?;
        }
        paper.legend(&entries, bottom)
    })?;
    Ok(Plot { name: "push-forces.svg".to_owned(), caption: caption.to_owned(), svg })
}
