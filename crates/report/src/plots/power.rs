//! The chance of seeing a difference, by the shots spent on it.

use study::{Answer, SidePair, Sides};
use target::Telling;
use units::{Role, Style};

use super::Plot;
use super::axes::{Axes, FOOT, HEAD};
use super::ink::{Dash, Pen, SOFT, series};
use super::paper::{Cell, Drawn, Entry, Paper, WIDTH, legend_height, sheet};
use crate::{ReportError, show};

const PLOT: f64 = 240.0;
/// Fewest and most shots shown, and those with a label. Chosen: what people
/// fire, and beyond.
const FEWEST: u32 = 2;
const MOST: u32 = 1000;
const LABELS: [u32; 7] = [3, 6, 12, 36, 100, 300, 1000];
/// Places along a line, evenly spaced in the logarithm. Chosen: smooth.
const PLACES: u32 = 90;

/// Draws a line for archer and machine of each build against the first, at the
/// middle distance.
pub(super) fn draw(
    answer: &Answer,
    sides: &Sides,
    style: Style,
) -> Result<Option<Plot>, ReportError> {
    let pairs: Vec<&SidePair> = sides.pairs.iter().filter(|pair| pair.one == 0).collect();
    if pairs.is_empty() {
        return Ok(None);
    }
    let at = show::middle(&answer.builds[0]);
    let telling = &sides.stated.telling;
    let range = show::plain(Role::Range, pairs[0].marks[at].distance.si(), style);
    let caption = format!(
        "How likely two groups at {range} show that the builds differ, by the shots with each \
         (confidence {}). Dotted across: the power asked for.",
        show::share(telling.confidence()),
    );
    let entries = legend(answer, &pairs);
    let height = HEAD + PLOT + FOOT + legend_height(entries.len());
    let axes = Axes {
        cell: Cell { left: 52.0, top: HEAD, right: WIDTH - 20.0, bottom: HEAD + PLOT },
        x: (place(FEWEST), place(MOST)),
        y: (0.0, 100.0),
    };
    let svg = sheet("power.svg", &caption, height, |paper| {
        let labels = LABELS.map(|shots| (place(shots), shots.to_string()));
        axes.draw(paper, &labels, "shots with each build", "chance to see it, %")?;
        let asked = 100.0 * telling.power();
        let across = axes.all(&[(axes.x.0, asked), (axes.x.1, asked)]);
        paper.line(&across, Pen::solid(SOFT, 1.4).dash(Dash::Dotted))?;
        for pair in &pairs {
            let mark = &pair.marks[at];
            for (told, dash) in [(&mark.archer, Dash::Solid), (&mark.machine, Dash::Dashed)] {
                let ratio = told.ratio.map_or(f64::INFINITY, |ratio| ratio.value);
                line(paper, &axes, telling, ratio, Pen::solid(series(pair.other), 2.0).dash(dash))?;
            }
        }
        paper.legend(&entries, HEAD + PLOT + FOOT)
    })?;
    Ok(Some(Plot { name: "power.svg".to_owned(), caption, svg }))
}

/// Where a number of shots stands on the axis.
fn place(shots: u32) -> f64 {
    f64::from(shots).ln()
}

fn line(paper: &Paper, axes: &Axes, telling: &Telling, ratio: f64, pen: Pen) -> Drawn {
    let mut before = 0;
    let mut points = Vec::new();
    for step in 0..=PLACES {
        let part = f64::from(step) / f64::from(PLACES);
        let shots = whole((place(FEWEST) + part * (place(MOST) - place(FEWEST))).exp());
        if shots > before {
            points.push((place(shots), 100.0 * telling.chance_to_tell(ratio, shots)));
        }
        before = shots;
    }
    paper.line(&axes.all(&points), pen)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "2 to 1000")]
fn whole(shots: f64) -> u32 {
    shots.round() as u32
}

fn legend(answer: &Answer, pairs: &[&SidePair]) -> Vec<Entry> {
    let mut entries = Vec::new();
    for (who, dash) in [("archer", Dash::Solid), ("machine", Dash::Dashed)] {
        for pair in pairs {
            let name = &answer.builds[pair.other].name;
            let text = if pairs.len() > 1 { format!("{name}, {who}") } else { who.to_owned() };
            entries.push(Entry {
                pen: Pen::solid(series(pair.other), 2.0).dash(dash),
                marker: None,
                text,
            });
        }
    }
    entries
}
