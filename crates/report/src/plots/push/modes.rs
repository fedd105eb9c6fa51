//! The shapes in which the free arrow swings.

use study::{ModeShape, PushStory};
use units::{Role, Style};

use super::super::Plot;
use super::super::axes::ticks;
use super::super::ink::{GRID, INK, Pen, SOFT, series};
use super::super::paper::{Drawn, Paper, TEXT, WIDTH, sheet};
use crate::{ReportError, show};

/// Modes drawn. Chosen: higher ones are gone within a few metres of flight.
const SHOWN: usize = 3;
/// Height of a panel, px.
const PANEL: f64 = 128.0;
/// Half height of a swing, px.
const SWING: f64 = 30.0;
const LEFT: f64 = 20.0;
const RIGHT: f64 = WIDTH - 24.0;

/// A node's station, to a tenth of an inch or a millimetre.
fn node(station: f64, style: Style) -> String {
    Role::Part.rounded(station, usize::from(style == Style::Archery), style)
}

/// Draws the first modes below each other, over one scale along the arrow.
pub(super) fn draw(story: &PushStory, style: Style) -> Result<Plot, ReportError> {
    let shown = &story.modes[..SHOWN.min(story.modes.len())];
    let tip = Role::Part.value(story.built.layout.tip.si(), style);
    let place = |station: f64| LEFT + Role::Part.value(station, style) / tip * (RIGHT - LEFT);
    let caption = "The lowest bending modes of the whole arrow, flying free: the two ends of each \
        swing, not to scale. Dots are nodes, the places of the shaft that stand still.";
    let foot = PANEL * shown.len() as f64;
    let svg = sheet("push-modes.svg", caption, foot + 50.0, |paper| {
        for (at, mode) in shown.iter().enumerate() {
            let base = PANEL * at as f64 + 74.0;
            let frequency = show::significant(mode.frequency.round());
            let title = format!("mode {}: {frequency} Hz", at + 1);
            paper.left(&title, (8.0, base - 54.0), TEXT, INK)?;
            let names: Vec<String> = mode.nodes.iter().map(|&x| node(x, style)).collect();
            let places = format!("nodes at {} {}", names.join(", "), Role::Part.symbol(style));
            if !names.is_empty() {
                paper.left(&places, (8.0, base + 44.0), TEXT, SOFT)?;
            }
            one(paper, mode, base, &place)?;
        }
        paper.line(&[(LEFT, foot), (RIGHT, foot)], Pen::solid(SOFT, 1.2))?;
        for (value, label) in ticks(0.0, tip, 6) {
            let x = LEFT + value / tip * (RIGHT - LEFT);
            paper.line(&[(x, foot), (x, foot + 5.0)], Pen::solid(SOFT, 1.0))?;
            paper.centre(&label, (x, foot + 15.0), TEXT, SOFT)?;
        }
        let title = format!("ahead of the nock groove, {}", Role::Part.symbol(style));
        paper.centre(&title, (f64::midpoint(LEFT, RIGHT), foot + 34.0), TEXT, INK)
    })?;
    Ok(Plot { name: "push-modes.svg".to_owned(), caption: caption.to_owned(), svg })
}

fn one(paper: &Paper, mode: &ModeShape, base: f64, place: &dyn Fn(f64) -> f64) -> Drawn {
    let line = |side: f64| -> Vec<(f64, f64)> {
        mode.shape.iter().map(|&(x, y)| (place(x), base - side * SWING * y)).collect()
    };
    paper.line(&[(LEFT, base), (RIGHT, base)], Pen::solid(GRID, 0.8))?;
    paper.line(&line(-1.0), Pen::solid(SOFT, 1.0))?;
    paper.line(&line(1.0), Pen::solid(series(0), 2.2))?;
    for &node in &mode.nodes {
        paper.dot((place(node), base), 3.8, series(1), 1.0)?;
    }
    Ok(())
}
