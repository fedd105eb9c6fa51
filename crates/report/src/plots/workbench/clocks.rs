//! A clock for every arrow: the positions its nock may take, and the one to
//! use.

use study::workbench::{Indexing, Verdict};

use super::super::Plot;
use super::super::ink::{GRID, INK, Pen, SOFT, series};
use super::super::paper::{Drawn, Paper, TEXT, WIDTH, fit, sheet};
use crate::ReportError;

const COLUMNS: usize = 5;
const RADIUS: f64 = 27.0;
const ROW: f64 = 92.0;
/// Most clocks in a picture. Chosen: a gross, twelve dozen.
const MOST: usize = 144;

/// One clock.
struct Dial<'a> {
    name: &'a str,
    choice: usize,
    /// Whether it is known or foreseen that a turn pays.
    sure: bool,
}

/// Draws the arrows that were shot, or else all that were measured.
pub(crate) fn draw(found: &Indexing) -> Result<Plot, ReportError> {
    let dials: Vec<Dial> = if found.arrows.is_empty() {
        let one = |fit: &'_ study::workbench::IndexFit| (fit.choice, fit.verdict == Verdict::Turn);
        found
            .fits
            .iter()
            .map(|fit| Dial { name: &fit.name, choice: one(fit).0, sure: one(fit).1 })
            .collect()
    } else {
        found
            .arrows
            .iter()
            .map(|arrow| Dial { name: &arrow.name, choice: arrow.choice, sure: true })
            .collect()
    };
    let dials = &dials[..dials.len().min(MOST)];
    let rows = dials.len().div_ceil(COLUMNS);
    let caption = "A clock for each arrow, seen from behind, zero at the top: dots are the \
        positions its nock may take, the hand the one to turn it to. An arrow without a hand stays \
        as it is; a thin hand is not sure yet.";
    let wide = (WIDTH - 20.0) / COLUMNS as f64;
    let svg = sheet("clocks.svg", caption, rows as f64 * ROW + 12.0, |paper| {
        for (at, dial) in dials.iter().enumerate() {
            let x = 10.0 + wide * ((at % COLUMNS) as f64 + 0.5);
            let y = 8.0 + ROW * (at / COLUMNS) as f64 + RADIUS + 6.0;
            clock(paper, found, dial, (x, y))?;
            paper.centre(&fit(dial.name, TEXT, wide), (x, y + RADIUS + 16.0), TEXT, INK)?;
        }
        Ok(())
    })?;
    Ok(Plot { name: "clocks.svg".to_owned(), caption: caption.to_owned(), svg })
}

fn clock(paper: &Paper, found: &Indexing, dial: &Dial, (x, y): (f64, f64)) -> Drawn {
    let around: Vec<(f64, f64)> = (0..=60)
        .map(|k| {
            let a = std::f64::consts::TAU * f64::from(k) / 60.0;
            (x + RADIUS * a.sin(), y - RADIUS * a.cos())
        })
        .collect();
    paper.line(&around, Pen::solid(GRID, 1.4))?;
    let place = |turn: f64, out: f64| (x + out * turn.sin(), y - out * turn.cos());
    for turn in &found.turns {
        paper.dot(place(turn.si(), RADIUS), 2.2, SOFT, 1.0)?;
    }
    if dial.choice == 0 {
        return paper.dot((x, y), 2.2, SOFT, 1.0);
    }
    let end = place(found.turns[dial.choice].si(), RADIUS);
    let width = if dial.sure { 3.0 } else { 1.2 };
    paper.line(&[(x, y), end], Pen::solid(series(0), width))?;
    paper.dot(end, 4.0, series(0), 1.0)
}
