//! Force-draw curve and push along the stroke, and where the energy goes.

use study::{PushStory, StrokePoint};
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::{Axes, FOOT, HEAD, ceiling, ticks};
use super::super::ink::{Dash, INK, Pen, series};
use super::super::paper::{Drawn, Entry, Paper, TEXT, WIDTH, legend_height, sheet};
use super::{trace, wide};
use crate::{ReportError, show};

const PLOT: f64 = 190.0;
/// Height of the bar of energy, px.
const BAR: f64 = 26.0;

/// Draws the two forces and below them the bar.
pub(super) fn draw(story: &PushStory, style: Style) -> Result<Plot, ReportError> {
    let value = |si: f64| Role::Force.value(si, style);
    let most = story.forces.iter().map(|p| value(p.draw.max(p.push))).fold(0.0, f64::max);
    let end = Role::Part.value(story.stroke, style);
    let axes = Axes { cell: wide(HEAD, PLOT), x: (0.0, end), y: (0.0, ceiling(most)) };
    let pens = [Pen::solid(INK, 2.0).dash(Dash::Dashed), Pen::solid(series(0), 2.2)];
    let words = ["draw force of the bow", "push on the arrow"];
    let lines = [0, 1].map(|at| Entry { pen: pens[at], marker: None, text: words[at].to_owned() });
    let bar = HEAD + PLOT + FOOT + legend_height(2) + 34.0;
    let parts = parts(story, style);
    let height = bar + BAR + 8.0 + legend_height(parts.len());
    let caption = "Force along the stroke, from full draw on the left to brace on the right. The \
        area under the draw force is the stored energy, the area under the push what the arrow \
        gets. The bar shows where the stored energy goes.";
    let svg = sheet("push-stroke.svg", caption, height, |paper| {
        let unit = Role::Force.symbol(style);
        let x_title = format!("way of the nock, {}", Role::Part.symbol(style));
        axes.draw(paper, &ticks(0.0, end, 6), &x_title, &format!("force, {unit}"))?;
        let line = |read: fn(&StrokePoint) -> f64| -> Vec<(f64, f64)> {
            let at = |p: &StrokePoint| (Role::Part.value(p.travel, style), value(read(p)));
            story.forces.iter().map(at).collect()
        };
        let push = line(|p| p.push);
        let base: Vec<(f64, f64)> = push.iter().map(|p| (p.0, 0.0)).collect();
        paper.band(&axes.all(&base), &axes.all(&push), series(0), 0.16)?;
        trace(paper, &axes, &line(|p| p.draw), pens[0])?;
        trace(paper, &axes, &push, pens[1])?;
        paper.legend(&lines, HEAD + PLOT + FOOT)?;
        energy(paper, story, &parts, bar, style)
    })?;
    Ok(Plot { name: "push-stroke.svg".to_owned(), caption: caption.to_owned(), svg })
}

/// Shares of the energy and how the legend names them.
fn parts(story: &PushStory, style: Style) -> Vec<(f64, Entry)> {
    let budget = &story.budget;
    let shares = [
        (0, budget.arrow, "to the arrow"),
        (2, budget.string + budget.limbs, "to the moving parts"),
        (1, budget.lost, "not returned"),
    ];
    let part = |(at, energy, name): (usize, f64, &str)| {
        let share = show::share(energy / budget.stored);
        let text = format!("{name}: {}, {share}", Role::Energy.text(energy, style));
        (energy, Entry { pen: Pen::solid(series(at), 9.0), marker: None, text })
    };
    shares.into_iter().filter(|(_, energy, _)| *energy > 0.0).map(part).collect()
}

fn energy(
    paper: &Paper,
    story: &PushStory,
    parts: &[(f64, Entry)],
    top: f64,
    style: Style,
) -> Drawn {
    let (left, right) = (10.0, WIDTH - 18.0);
    let all: f64 = parts.iter().map(|(energy, _)| energy).sum();
    let full = all.max(story.budget.stored);
    let wide = |energy: f64| energy / full * (right - left);
    let stored = format!("stored: {}", Role::Energy.text(story.budget.stored, style));
    paper.left(&stored, (left, top - 16.0), TEXT, INK)?;
    let mut from = left;
    for (energy, entry) in parts {
        let to = from + wide(*energy);
        let edge = [(from, top), (to, top), (to, top + BAR), (from, top + BAR)];
        paper.area(&edge, entry.pen.colour, 0.75)?;
        from = to;
    }
    let end = left + wide(story.budget.stored);
    let frame = [(left, top), (end, top), (end, top + BAR), (left, top + BAR), (left, top)];
    paper.line(&frame, Pen::solid(INK, 1.4))?;
    for (at, (_, entry)) in parts.iter().enumerate() {
        let entry = [Entry { pen: entry.pen, marker: None, text: entry.text.clone() }];
        paper.legend(&entry, top + BAR + 8.0 + (legend_height(1) - 6.0) * at as f64)?;
    }
    Ok(())
}
