//! Group size against distance.

use study::{Answer, BuildAnswer, MarkAnswer};
use target::Estimate;
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD, ceiling, spaced};
use super::ink::{Dash, Pen, SOFT, series};
use super::paper::{Cell, Drawn, Entry, Paper, WIDTH, legend_height, sheet};
use crate::{ReportError, show};

const PLOT: f64 = 260.0;

/// Takes one estimate of a mark.
type Read = fn(&MarkAnswer) -> &Estimate;

/// Draws R50 of every build, with form and from a machine, and of form alone.
pub(super) fn draw(answer: &Answer, style: Style) -> Result<Plot, ReportError> {
    let role = Role::Impact;
    let base = &answer.builds[0];
    let marks = answer.builds.iter().flat_map(|build| &build.marks);
    let top = marks.map(|m| m.full.stats.r50.high.max(m.machine_band.1)).fold(0.0, f64::max);
    let entries = legend(answer);
    let height = HEAD + PLOT + FOOT + legend_height(entries.len());
    let far = base.marks.last().map_or(1.0, |mark| Role::Range.value(mark.distance.si(), style));
    let axes = Axes {
        cell: Cell { left: 52.0, top: HEAD, right: WIDTH - 16.0, bottom: HEAD + PLOT },
        x: ends(base, style),
        y: (0.0, ceiling(role.value(top, style))),
    };
    let caption = "Group size against distance. R50 is the radius that holds half of all arrows. \
        Shaded: the 95 % interval; for the machine, the band of the poorly known values.";
    let svg = sheet("groups.svg", caption, height, |paper| {
        let places: Vec<f64> =
            base.marks.iter().map(|mark| Role::Range.value(mark.distance.si(), style)).collect();
        let labels = spaced(&places, show::significant, 0.08 * far);
        let x_title = format!("distance, {}", Role::Range.symbol(style));
        let y_title = format!("R50, {}", role.symbol(style));
        axes.draw(paper, &labels, &x_title, &y_title)?;
        let form = points(base, style, |mark| mark.form.stats.r50.value);
        paper.line(&axes.all(&form), Pen::solid(SOFT, 2.0).dash(Dash::Dotted))?;
        for (at, build) in answer.builds.iter().enumerate() {
            lines(paper, &axes, build, at, style)?;
        }
        paper.legend(&entries, HEAD + PLOT + FOOT)
    })?;
    Ok(Plot { name: "groups.svg".to_owned(), caption: caption.to_owned(), svg })
}

fn lines(paper: &Paper, axes: &Axes, build: &BuildAnswer, at: usize, style: Style) -> Drawn {
    let colour = series(at);
    let band = |low: fn(&MarkAnswer) -> f64, high: fn(&MarkAnswer) -> f64| {
        let low = axes.all(&points(build, style, low));
        paper.band(&low, &axes.all(&points(build, style, high)), colour, 0.16)
    };
    band(|m| m.full.stats.r50.low, |m| m.full.stats.r50.high)?;
    band(|m| m.machine_band.0, |m| m.machine_band.1)?;
    let read: [(Read, Dash); 2] =
        [(|m| &m.full.stats.r50, Dash::Solid), (|m| &m.machine.stats.r50, Dash::Dashed)];
    for (estimate, dash) in read {
        let spots = axes.all(&points(build, style, |mark| estimate(mark).value));
        paper.line(&spots, Pen::solid(colour, 2.0).dash(dash))?;
        for spot in spots {
            paper.marker(at, spot, colour)?;
        }
    }
    Ok(())
}

/// Ends of the distance axis: a margin round the distances, not below zero.
fn ends(build: &BuildAnswer, style: Style) -> (f64, f64) {
    let place = |mark: &MarkAnswer| Role::Range.value(mark.distance.si(), style);
    let first = build.marks.first().map_or(0.0, place);
    let last = build.marks.last().map_or(1.0, place);
    let margin = if last > first { 0.08 * (last - first) } else { 0.5 * last };
    ((first - margin).max(0.0), last + margin)
}

fn points(build: &BuildAnswer, style: Style, read: impl Fn(&MarkAnswer) -> f64) -> Vec<(f64, f64)> {
    let one = |mark: &MarkAnswer| {
        let x = Role::Range.value(mark.distance.si(), style);
        (x, Role::Impact.value(read(mark), style))
    };
    build.marks.iter().map(one).collect()
}

fn legend(answer: &Answer) -> Vec<Entry> {
    let mut entries = Vec::new();
    for (what, dash) in [("archer and arrows", Dash::Solid), ("machine only", Dash::Dashed)] {
        for (at, build) in answer.builds.iter().enumerate() {
            entries.push(Entry {
                pen: Pen::solid(series(at), 2.0).dash(dash),
                marker: Some(at),
                text: show::titled(answer, &build.name, what),
            });
        }
    }
    entries.push(Entry {
        pen: Pen::solid(SOFT, 2.0).dash(Dash::Dotted),
        marker: None,
        text: "archer's form alone".to_owned(),
    });
    entries
}
