//! Shares of the spread: ranked bars by cause, and owners by distance.

use study::{MarkShares, Matters, Owner, SharesOf, Spread};
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD, ceiling, spaced, ticks};
use super::ink::{GRID, INK, Pen, SOFT, dash, series};
use super::paper::{Cell, Entry, TEXT, WIDTH, fit, legend_height, sheet};
use crate::matters::say;
use crate::{ReportError, show, words};

const LEFT: f64 = 150.0;
const BAR: f64 = 22.0;
const PLOT: f64 = 230.0;
/// Owners drawn: as many as there are colours.
const COLOURS: usize = 6;

/// The file of a picture: of a build's group, or from a machine.
pub(crate) fn file(what: &str, build: usize, kind: usize) -> String {
    let group = if kind == 1 { "machine-" } else { "" };
    format!("{what}-{group}{}.svg", build + 1)
}

/// Every picture that the answer fills.
pub(crate) fn all(found: &Matters, style: Style) -> Result<Vec<Plot>, ReportError> {
    let mut plots = Vec::new();
    for (at, build) in found.builds.iter().enumerate() {
        for (kind, spread) in build.spreads().enumerate() {
            let named = |what| (file(what, at, kind), say::group(kind == 1));
            if let Some((mark, shares)) = say::far(spread) {
                let range = show::plain(Role::Range, mark.distance.si(), style);
                plots.push(bars(spread, shares, &range, named("shares"))?);
                plots.push(owners(spread, shares, named("owners"), style)?);
            }
        }
    }
    Ok(plots)
}

/// Which of three kinds an owner is: archer, arrow, or bow and weather.
fn kind(owner: Owner) -> usize {
    match owner {
        Owner::Archer => 0,
        Owner::Bow | Owner::Weather => 5,
        _ => 2,
    }
}

/// The kinds as a legend names them.
const KINDS: [(usize, &str); 3] = [(0, "archer"), (2, "arrow"), (5, "bow and weather")];

fn bars(
    spread: &Spread,
    shares: &SharesOf,
    range: &str,
    (name, group): (String, &str),
) -> Result<Plot, ReportError> {
    let order = say::ranked(&shares.causes);
    let top = shares.causes.iter().map(|s| s.alone.high.max(s.total.value)).fold(0.0, f64::max);
    let end = ceiling(100.0 * top);
    let wide = WIDTH - LEFT - 24.0;
    let x = |share: f64| LEFT + (100.0 * share).clamp(0.0, end) / end * wide;
    let bottom = 14.0 + BAR * order.len() as f64;
    let foot = bottom + 52.0;
    let caption = format!(
        "What makes the group at {range}, {group}: each cause's share of the variance. Bars and whiskers: \
         alone, with the 95 % interval. Diamonds: in all, with what it does together with others."
    );
    let there = |of: usize| spread.owners.iter().any(|owner| kind(*owner) == of);
    let entries: Vec<Entry> = KINDS
        .into_iter()
        .filter(|(of, _)| there(*of))
        .map(|(of, text)| Entry {
            pen: Pen::solid(series(of), 7.0),
            marker: None,
            text: text.to_owned(),
        })
        .collect();
    let svg = sheet("shares.svg", &caption, foot + legend_height(entries.len()), |paper| {
        for (tick, label) in ticks(0.0, end, 5) {
            let at = LEFT + tick / end * wide;
            paper.line(&[(at, 8.0), (at, bottom)], Pen::solid(GRID, 0.8))?;
            paper.centre(&label, (at, bottom + 13.0), TEXT, SOFT)?;
        }
        paper.line(&[(LEFT, 8.0), (LEFT, bottom)], Pen::solid(SOFT, 1.2))?;
        let title = "share of the group's variance, %";
        paper.centre(title, (f64::midpoint(LEFT, WIDTH), bottom + 34.0), TEXT, INK)?;
        for (row, at) in order.iter().enumerate() {
            let y = 14.0 + BAR * (row as f64 + 0.5);
            let cause = &spread.causes[*at];
            let share = &shares.causes[*at];
            let name = fit(&say::cause(&cause.name), TEXT, LEFT - 12.0);
            paper.right(&name, (LEFT - 8.0, y), TEXT, INK)?;
            let (from, to, half) = (x(0.0), x(share.alone.value), 0.3 * BAR);
            let edge = [(from, y - half), (to, y - half), (to, y + half), (from, y + half)];
            paper.area(&edge, series(kind(cause.owner)), 0.6)?;
            let whisker = Pen::solid(INK, 1.2);
            let (low, high) = (x(share.alone.low), x(share.alone.high));
            paper.line(&[(low, y), (high, y)], whisker)?;
            for end in [low, high] {
                paper.line(&[(end, y - 3.0), (end, y + 3.0)], whisker)?;
            }
            paper.marker(3, (x(share.total.value), y), INK)?;
        }
        paper.legend(&entries, foot)
    })?;
    Ok(Plot { name, caption, svg })
}

fn owners(
    spread: &Spread,
    far: &SharesOf,
    (name, group): (String, &str),
    style: Style,
) -> Result<Plot, ReportError> {
    let place = |mark: &MarkShares| Role::Range.value(mark.distance.si(), style);
    let first = spread.marks.first().map_or(0.0, place);
    let last = spread.marks.last().map_or(1.0, place);
    let shown: Vec<usize> = say::ranked(&far.owners).into_iter().take(COLOURS).collect();
    let margin = if last > first { 0.08 * (last - first) } else { 0.5 * last };
    let all = spread.marks.iter().flat_map(|mark| mark.axes[0].iter().flat_map(|s| &s.owners));
    let top = all.map(|share| share.alone.high.min(1.0)).fold(0.0, f64::max);
    let axes = Axes {
        cell: Cell { left: 52.0, top: HEAD, right: WIDTH - 16.0, bottom: HEAD + PLOT },
        x: ((first - margin).max(0.0), last + margin),
        y: (0.0, ceiling(100.0 * top)),
    };
    let entries: Vec<Entry> = shown
        .iter()
        .enumerate()
        .map(|(hue, at)| Entry {
            pen: Pen::solid(series(hue), 2.0).dash(dash(hue)),
            marker: Some(hue),
            text: words::owner(spread.owners[*at]).to_owned(),
        })
        .collect();
    let left = spread.owners.len() - shown.len();
    let least = if left > 0 { " The smallest are left out." } else { "" };
    let caption = format!(
        "Each owner's share of the group's variance, {group}, alone, against distance. Shaded: \
         the 95 % interval.{least}"
    );
    let height = HEAD + PLOT + FOOT + legend_height(entries.len());
    let svg = sheet("owners.svg", &caption, height, |paper| {
        let places: Vec<f64> = spread.marks.iter().map(place).collect();
        let labels = spaced(&places, show::significant, 0.08 * last);
        let x_title = format!("distance, {}", Role::Range.symbol(style));
        axes.draw(paper, &labels, &x_title, "share of the group's variance, %")?;
        for (hue, at) in shown.iter().enumerate() {
            let line = |read: fn(&target::Estimate) -> f64| -> Vec<(f64, f64)> {
                let marks = spread.marks.iter();
                let one = |mark: &MarkShares| {
                    let share = mark.axes[0].as_ref()?.owners[*at].alone;
                    Some((place(mark), 100.0 * read(&share).clamp(0.0, 1.0)))
                };
                axes.all(&marks.filter_map(one).collect::<Vec<_>>())
            };
            paper.band(&line(|e| e.low), &line(|e| e.high), series(hue), 0.16)?;
            let spots = line(|e| e.value);
            paper.line(&spots, Pen::solid(series(hue), 2.0).dash(dash(hue)))?;
            for spot in spots {
                paper.marker(hue, spot, series(hue))?;
            }
        }
        paper.legend(&entries, HEAD + PLOT + FOOT)
    })?;
    Ok(Plot { name, caption, svg })
}
