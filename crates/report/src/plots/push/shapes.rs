//! The shaft at ten instants, in both planes.

use study::{PushStory, ShaftShape};
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::{Axes, ticks};
use super::super::ink::{Dash, GRID, INK, Pen, SOFT, series};
use super::super::paper::{Cell, Drawn, Paper, TEXT, WIDTH, sheet};
use super::millis;
use crate::{ReportError, show};

/// Height of one instant's row, px.
const ROW: f64 = 27.0;
/// Room above a panel for its two lines of heading, px.
const TITLE: f64 = 52.0;
/// Room below a panel for the scale along the push, px.
const SCALE: f64 = 50.0;
/// Largest displacement drawn, px. Chosen: shapes then hardly cross.
const REACH: f64 = 0.9 * ROW;

/// Draws the left-right plane and below it the up-down plane.
pub(super) fn draw(story: &PushStory, style: Style) -> Result<Plot, ReportError> {
    let far = story.stroke + story.built.layout.tip.si();
    let tall = ROW * (story.shapes.len() as f64 + 0.3);
    let panel = |top: f64| Axes {
        cell: Cell { left: 66.0, top, right: WIDTH - 12.0, bottom: top + tall },
        x: (0.0, Role::Part.value(1.02 * far, style)),
        y: (0.0, 1.0),
    };
    let panels = [panel(TITLE), panel(TITLE + tall + SCALE + TITLE)];
    let metre = (WIDTH - 78.0) / (1.02 * far);
    let times = times(story, metre);
    let size = if story.sideways {
        format!(
            "Sideways the shaft is drawn {} times as large as along the push.",
            show::significant(times)
        )
    } else {
        "Nothing works on this arrow sideways, so it stays straight.".to_owned()
    };
    let caption = format!(
        "The shaft at {} instants from release (top) to departure (bottom), as it moves to the \
         right. {size} Thin lines: the line of the push. Dot: rear end of the shaft. Upright \
         line: where the rest stands, unbroken as long as it can touch the shaft.",
        story.shapes.len()
    );
    let height = panels[1].cell.bottom + SCALE;
    let svg = sheet("push-shapes.svg", &caption, height, |paper| {
        let words = [
            ("seen from above", "left is up the sheet"),
            ("seen from the right", "up is up the sheet"),
        ];
        for (plane, axes) in panels.iter().enumerate() {
            let (view, sense) = words[plane];
            paper.left(view, (8.0, axes.cell.top - 38.0), TEXT, INK)?;
            let scale = format!("{sense}, \u{D7}{}", show::significant(times));
            paper.right(&scale, (WIDTH - 12.0, axes.cell.top - 38.0), TEXT, SOFT)?;
            paper.left("after, ms", (8.0, axes.cell.top - 15.0), TEXT, SOFT)?;
            rest(paper, axes, story, plane, style)?;
            for (at, shape) in story.shapes.iter().enumerate() {
                let base = axes.cell.top + ROW * (at as f64 + 0.5);
                row(paper, axes, (shape, plane), (base, metre * times), style)?;
            }
            foot(paper, axes, style)?;
        }
        Ok(())
    })?;
    Ok(Plot { name: "push-shapes.svg".to_owned(), caption, svg })
}

/// How many times larger the sheet shows what lies across: a round number.
fn times(story: &PushStory, metre: f64) -> f64 {
    let off = story.shapes.iter().flat_map(|shape| &shape.places).flat_map(|place| place.off);
    let most = off.map(f64::abs).fold(0.0, f64::max);
    if most <= 0.0 {
        return 1.0;
    }
    let most_times = REACH / (most * metre);
    let power = 10_f64.powf(most_times.log10().floor());
    let round = [5.0, 3.0, 2.0, 1.0].into_iter().find(|r| r * power <= most_times).unwrap_or(1.0);
    (round * power).max(1.0)
}

fn row(
    paper: &Paper,
    axes: &Axes,
    (shape, plane): (&ShaftShape, usize),
    (base, scale): (f64, f64),
    style: Style,
) -> Drawn {
    let x = |along: f64| axes.at(Role::Part.value(shape.travel + along, style), 0.0).0;
    let cell = &axes.cell;
    let time = format!("{:.1}", millis(shape.time));
    paper.right(&time, (cell.left - 10.0, base), TEXT, SOFT)?;
    paper.line(&[(cell.left, base), (cell.right, base)], Pen::solid(GRID, 0.8))?;
    let spots: Vec<_> = shape
        .places
        .iter()
        .map(|place| (x(place.station), base - scale * place.off[plane]))
        .collect();
    paper.line(&spots, Pen::solid(series(plane), 2.2))?;
    match spots.first() {
        Some(&rear) => paper.dot(rear, 2.8, series(plane), 1.0),
        None => Ok(()),
    }
}

/// The rest: unbroken as long as it works in this plane.
fn rest(paper: &Paper, axes: &Axes, story: &PushStory, plane: usize, style: Style) -> Drawn {
    let (x, _) = axes.at(Role::Part.value(story.rest_place, style), 0.0);
    let touching = story.rest[plane]
        .map_or(0, |touch| story.shapes.iter().filter(|shape| shape.time < touch.until).count());
    let (top, bottom) = (axes.cell.top, axes.cell.bottom);
    let end = top + ROW * touching as f64;
    paper.centre("rest", (x, top - 15.0), TEXT, SOFT)?;
    paper.line(&[(x, top - 6.0), (x, end)], Pen::solid(SOFT, 1.6))?;
    paper.line(&[(x, end), (x, bottom)], Pen::solid(SOFT, 0.9).dash(Dash::Dotted))
}

fn foot(paper: &Paper, axes: &Axes, style: Style) -> Drawn {
    let cell = &axes.cell;
    paper.line(&[(cell.left, cell.bottom), (cell.right, cell.bottom)], Pen::solid(SOFT, 1.2))?;
    for (value, label) in ticks(axes.x.0, axes.x.1, 6) {
        let (x, _) = axes.at(value, 0.0);
        paper.line(&[(x, cell.bottom), (x, cell.bottom + 5.0)], Pen::solid(SOFT, 1.0))?;
        paper.centre(&label, (x, cell.bottom + 15.0), TEXT, SOFT)?;
    }
    let title = format!("ahead of the nock at full draw, {}", Role::Part.symbol(style));
    paper.centre(&title, (f64::midpoint(cell.left, cell.right), cell.bottom + 34.0), TEXT, INK)
}
