//! One swept value against group size and drop, a line a distance.

use study::{Answer, MarkAnswer, SweepAnswer, SweepPoint};
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD, ceiling, spaced, ticks};
use super::ink::{Pen, series};
use super::paper::{Cell, Entry, WIDTH, legend_height, sheet};
use crate::{ReportError, show, words};

const PLOT: f64 = 250.0;

/// Draws group size and drop, two pictures.
pub(super) fn draw(answer: &Answer, at: usize, style: Style) -> Result<[Plot; 2], ReportError> {
    let sweep = &answer.sweeps[at];
    let number = at + 1;
    let (of, name) = (show::of(answer, &sweep.build), words::value(&sweep.key));
    let groups = View {
        name: "sweep-groups.svg",
        file: format!("sweep-{number}-groups.svg"),
        title: format!("R50, {}", Role::Impact.symbol(style)),
        caption: format!(
            "Group size{of} against the {name}. R50 is the radius that holds half of all arrows. \
             Shaded: the 95 % interval."
        ),
        read: |mark| mark.full.stats.r50.value,
        band: |mark| (mark.full.stats.r50.low, mark.full.stats.r50.high),
    };
    let drop = View {
        name: "sweep-drop.svg",
        file: format!("sweep-{number}-drop.svg"),
        title: format!("drop, {}", Role::Impact.symbol(style)),
        caption: format!(
            "Drop{of} below the line of departure against the {name}. Shaded: the band of the \
             poorly known values."
        ),
        read: |mark| mark.nominal.drop,
        band: |mark| mark.nominal.drop_band,
    };
    Ok([groups.draw(sweep, style)?, drop.draw(sweep, style)?])
}

/// One of the two pictures.
struct View {
    name: &'static str,
    file: String,
    title: String,
    caption: String,
    read: fn(&MarkAnswer) -> f64,
    band: fn(&MarkAnswer) -> (f64, f64),
}

impl View {
    fn draw(self, sweep: &SweepAnswer, style: Style) -> Result<Plot, ReportError> {
        let places = places(sweep);
        let (low, high) =
            places.0.iter().fold((f64::MAX, f64::MIN), |(l, h), &p| (l.min(p), h.max(p)));
        // One value alone still needs an axis with a width.
        let margin = if high > low { 0.04 * (high - low) } else { 0.5 };
        let marks = || sweep.points.iter().flat_map(|point| &point.build.marks);
        let top = marks().map(|mark| (self.band)(mark).1.max((self.read)(mark)));
        let top = ceiling(Role::Impact.value(top.fold(0.0, f64::max), style));
        let axes = Axes {
            cell: Cell { left: 58.0, top: HEAD, right: WIDTH - 20.0, bottom: HEAD + PLOT },
            x: (low - margin, high + margin),
            y: (0.0, top),
        };
        let distances = &sweep.points[0].build.marks;
        // The farthest first, as the lines lie on the plot.
        let entries: Vec<Entry> = (0..distances.len())
            .rev()
            .map(|at| Entry {
                pen: Pen::solid(series(at), 2.0),
                marker: Some(at),
                text: format!(
                    "at {}",
                    show::plain(Role::Range, distances[at].distance.si(), style)
                ),
            })
            .collect();
        let height = HEAD + PLOT + FOOT + legend_height(entries.len());
        let unit = if places.1.is_empty() { String::new() } else { format!(", {}", places.1) };
        let svg = sheet(self.name, &self.caption, height, |paper| {
            let steps: Vec<f64> = ticks(low, high, 6).into_iter().map(|(value, _)| value).collect();
            let labels = if sweep.points.len() <= 6 {
                spaced(&places.0, show::significant, 0.1 * (high - low))
            } else {
                spaced(&steps, show::significant, 0.1 * (high - low))
            };
            axes.draw(paper, &labels, &format!("{}{unit}", words::value(&sweep.key)), &self.title)?;
            for at in 0..distances.len() {
                let line = |read: &dyn Fn(&MarkAnswer) -> f64| {
                    let y = |point: &SweepPoint| {
                        Role::Impact.value(read(&point.build.marks[at]), style)
                    };
                    let pairs: Vec<(f64, f64)> =
                        places.0.iter().copied().zip(sweep.points.iter().map(y)).collect();
                    axes.all(&pairs)
                };
                let edges = (line(&|mark| (self.band)(mark).0), line(&|mark| (self.band)(mark).1));
                paper.band(&edges.0, &edges.1, series(at), 0.16)?;
                let spots = line(&|mark| (self.read)(mark));
                paper.line(&spots, Pen::solid(series(at), 2.0))?;
                for spot in spots {
                    paper.marker(at, spot, series(at))?;
                }
            }
            paper.legend(&entries, HEAD + PLOT + FOOT)
        })?;
        Ok(Plot { name: self.file, caption: self.caption, svg })
    }
}

/// The swept values in the unit they were written in, and that unit.
fn places(sweep: &SweepAnswer) -> (Vec<f64>, &'static str) {
    let written = sweep.points.first().map_or("", |point| point.label.as_str());
    let symbol = written.trim_start_matches(|c: char| c.is_ascii_digit() || "+-.".contains(c));
    let unit = sweep.dimension.unit(symbol.trim()).unwrap_or(&sweep.dimension.units()[0]);
    (sweep.points.iter().map(|point| unit.of_si(point.value)).collect(), unit.symbol)
}
