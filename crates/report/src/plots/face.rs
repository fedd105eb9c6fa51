//! One face: the groups of all builds at one distance, over each other.

use study::{Answer, TargetChoice};
use units::{Role, Style};

use super::Plot;
use super::axes::round_below;
use super::faces::{faint, place, reach, rings};
use super::ink::{Dash, GRID, INK, Pen, dash, series};
use super::paper::{Cell, Drawn, Entry, Paper, TEXT, WIDTH, legend_height, sheet};
use crate::{ReportError, show};

/// Arrows drawn of each build; chosen: the shape shows and the page stays
/// small.
const DRAWN: usize = 200;
const EDGE: f64 = 8.0;
/// Height over width of the frame; chosen: sentence and face fit one screen.
const TALL: f64 = 0.72;

/// Draws the groups at the first distance of the answer. The interval of R50 is a shaded ring
/// round its own.
pub(crate) fn draw(answer: &Answer, style: Style) -> Result<Plot, ReportError> {
    let marks = || answer.builds.iter().map(|build| &build.marks[0]);
    let range = show::plain(Role::Range, answer.builds[0].marks[0].distance.si(), style);
    let cell = Cell {
        left: EDGE,
        top: 6.0,
        right: WIDTH - EDGE,
        bottom: 6.0 + TALL * (WIDTH - 2.0 * EDGE),
    };
    let groups = marks().map(|mark| reach(&mark.full)).fold(1e-3, f64::max);
    let zone = match answer.target {
        TargetChoice::Zone { diameter } => 0.53 * diameter.si(),
        TargetChoice::Ellipse { width, height } => 0.53 * width.si().max(height.si()),
        TargetChoice::Face { .. } => 0.0,
    };
    let half = groups.max(zone.min(1.6 * groups));
    let scale = (cell.bottom - cell.top) / (2.0 * half);
    let entries: Vec<Entry> = answer
        .builds
        .iter()
        .enumerate()
        .map(|(index, build)| Entry {
            pen: Pen::solid(series(index), 2.0).dash(dash(index)),
            marker: Some(index),
            text: show::label(answer, build),
        })
        .collect();
    let caption = format!(
        "Where the arrows land at {range}, seen from the archer. Solid ring: half land inside \
         (R50), its shade the 95 % interval. Outer ring: nine in ten (R90)."
    );
    let foot = cell.bottom + 24.0;
    let svg = sheet("face.svg", &caption, foot + legend_height(entries.len()), |paper| {
        frame(paper, &cell)?;
        let aim = place(&cell, 0.0, 0.0, scale);
        for radius in rings(answer.target) {
            paper.oval(aim, radius.map(|half| half * scale), &cell, faint(answer.target))?;
        }
        for (index, mark) in marks().enumerate() {
            let colour = series(index);
            for impact in mark.full.sample.iter().take(DRAWN) {
                let spot = place(&cell, impact.left, impact.up, scale);
                if cell.holds(spot) {
                    paper.dot(spot, 1.6, colour, 0.5)?;
                }
            }
        }
        for (index, mark) in marks().enumerate() {
            let (stats, colour) = (&mark.full.stats, series(index));
            let centre = place(&cell, stats.centre.left, stats.centre.up, scale);
            let edge = |radius: f64| -> Vec<(f64, f64)> {
                let turn = |step: u32| f64::from(step) / 72.0 * std::f64::consts::TAU;
                let at =
                    |turn: f64| (centre.0 + radius * turn.cos(), centre.1 + radius * turn.sin());
                (0..=72).map(|step| at(turn(step))).collect()
            };
            paper.band(
                &edge(stats.r50.low * scale),
                &edge(stats.r50.high * scale),
                colour,
                0.28,
            )?;
            // An earlier build stays to be seen under a later one.
            let over = (answer.builds.len() - 1 - index) as f64;
            let solid =
                Pen::solid(if over > 0.0 || index > 0 { colour } else { INK }, 1.6 + 2.0 * over);
            paper.ring(centre, stats.r50.value * scale, &cell, solid)?;
            let outer = solid.dash(Dash::Dashed);
            paper.ring(centre, stats.r90.value * scale, &cell, outer)?;
        }
        bar(paper, cell.bottom + 14.0, scale, style)?;
        paper.legend(&entries, foot)
    })?;
    Ok(Plot { name: "face.svg".to_owned(), caption, svg })
}

fn frame(paper: &Paper, cell: &Cell) -> Drawn {
    let corners = [
        (cell.left, cell.top),
        (cell.right, cell.top),
        (cell.right, cell.bottom),
        (cell.left, cell.bottom),
        (cell.left, cell.top),
    ];
    paper.line(&corners, Pen::solid(GRID, 1.0))
}

/// The scale bar.
fn bar(paper: &Paper, y: f64, scale: f64, style: Style) -> Drawn {
    let unit = Role::Impact.unit(style).0;
    let round = round_below(unit.of_si(100.0 / scale));
    let long = unit.to_si(round) * scale;
    paper.line(&[(EDGE, y), (EDGE + long, y)], Pen::solid(INK, 1.4))?;
    for x in [EDGE, EDGE + long] {
        paper.line(&[(x, y - 4.0), (x, y + 4.0)], Pen::solid(INK, 1.4))?;
    }
    let text = format!("{} {}", show::significant(round), unit.symbol);
    paper.left(&text, (EDGE + long + 8.0, y), TEXT, INK)
}
