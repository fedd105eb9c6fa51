//! Share of hits against distance.

use study::{Answer, ReachMark, Sides};
use target::Estimate;
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD, ticks};
use super::ink::{Dash, Pen, SOFT, series};
use super::paper::{Cell, Drawn, Entry, Paper, WIDTH, legend_height, sheet};
use crate::sides::hits;
use crate::{ReportError, show};

const PLOT: f64 = 250.0;

/// Draws the share of hits of every build, and the same when aim is
/// misjudged; none where no share was stated or one distance asked.
pub(super) fn draw(
    answer: &Answer,
    sides: &Sides,
    style: Style,
) -> Result<Option<Plot>, ReportError> {
    let Some(share) = sides.stated.hit_share else { return Ok(None) };
    let curves: Vec<&[ReachMark]> = sides
        .builds
        .iter()
        .filter_map(|side| Some(side.reach.as_ref()?.curve.as_slice()))
        .collect();
    let Some([first, .., last]) = curves.first() else { return Ok(None) };
    let ends = [first, last].map(|mark| Role::Range.value(mark.distance.si(), style));
    let misjudged = first.misjudged.is_some();
    let name = hits(answer);
    let dashed = if misjudged { " Dashed: distance and wind misjudged the worst way." } else { "" };
    let caption = format!(
        "Share of {name} against distance, between the nearest and the farthest asked; shaded: the \
         95 % interval.{dashed} Dotted across: the share asked for. No licence to shoot: a target \
         that keeps still is assumed."
    );
    let entries = legend(answer, misjudged);
    let height = HEAD + PLOT + FOOT + legend_height(entries.len());
    let axes = Axes {
        cell: Cell { left: 52.0, top: HEAD, right: WIDTH - 20.0, bottom: HEAD + PLOT },
        x: (ends[0], ends[1]),
        y: (0.0, 100.0),
    };
    let svg = sheet("hits.svg", &caption, height, |paper| {
        let labels = ticks(ends[0], ends[1], 6);
        let x_title = format!("distance, {}", Role::Range.symbol(style));
        axes.draw(paper, &labels, &x_title, &format!("{name}, %"))?;
        let asked = 100.0 * share.si();
        let across = axes.all(&[(ends[0], asked), (ends[1], asked)]);
        paper.line(&across, Pen::solid(SOFT, 1.4).dash(Dash::Dotted))?;
        for (at, curve) in curves.iter().enumerate() {
            line(paper, &axes, curve, style, at, Dash::Solid, |mark| Some(mark.hit))?;
            line(paper, &axes, curve, style, at, Dash::Dashed, |mark| mark.misjudged)?;
        }
        paper.legend(&entries, HEAD + PLOT + FOOT)
    })?;
    Ok(Some(Plot { name: "hits.svg".to_owned(), caption, svg }))
}

fn line(
    paper: &Paper,
    axes: &Axes,
    curve: &[ReachMark],
    style: Style,
    at: usize,
    dash: Dash,
    read: impl Fn(&ReachMark) -> Option<Estimate>,
) -> Drawn {
    let points = |part: fn(&Estimate) -> f64| -> Vec<(f64, f64)> {
        let one = |mark: &ReachMark| {
            let x = Role::Range.value(mark.distance.si(), style);
            Some((x, 100.0 * part(&read(mark)?)))
        };
        curve.iter().filter_map(one).collect()
    };
    let middle = points(|e| e.value);
    if middle.is_empty() {
        return Ok(());
    }
    if dash == Dash::Solid {
        let (low, high) = (axes.all(&points(|e| e.low)), axes.all(&points(|e| e.high)));
        paper.band(&low, &high, series(at), 0.16)?;
    }
    paper.line(&axes.all(&middle), Pen::solid(series(at), 2.0).dash(dash))
}

fn legend(answer: &Answer, misjudged: bool) -> Vec<Entry> {
    let mut kinds = vec![("well judged", Dash::Solid)];
    if misjudged {
        kinds.push(("misjudged", Dash::Dashed));
    }
    let mut entries = Vec::new();
    for (what, dash) in kinds {
        for (at, build) in answer.builds.iter().enumerate() {
            entries.push(Entry {
                pen: Pen::solid(series(at), 2.0).dash(dash),
                marker: None,
                text: show::titled(answer, &build.name, what),
            });
        }
    }
    entries
}
