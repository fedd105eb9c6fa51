//! Bars with whiskers, and one bar cut into the parts of a whole.

use crate::axes::{Axes, from_zero, ticks};
use crate::ink::{Colour, GRID, INK, Pen, SOFT};
use crate::key::{Entry, key, key_height};
use crate::mark::Mark;
use crate::paper::{Cell, Drawn, Paper, TEXT, WIDTH, fit, text_width};
use crate::shape::Shape;

/// Rows of bars, each row with a name, on one axis from zero.
#[derive(Debug, Clone, Default)]
pub struct Bars {
    /// What the axis shows, and its unit after a comma.
    pub title: String,
    /// The rows, the first on top.
    pub rows: Vec<BarRow>,
    /// What the key holds.
    pub key: Vec<Entry>,
}

/// Bars that share a name.
#[derive(Debug, Clone)]
pub struct BarRow {
    /// The name.
    pub name: String,
    /// Its bars, the first on top.
    pub bars: Vec<Bar>,
}

/// A bar with its whisker.
#[derive(Debug, Clone, Copy)]
pub struct Bar {
    /// Low end of the whisker, end of the bar, high end of the whisker.
    pub reach: [f64; 3],
    /// Colour of the bar.
    pub colour: Colour,
    /// A second value marked over it.
    pub mark: Option<(f64, Shape, Colour)>,
}

/// One bar cut into the parts of a whole, which it frames.
#[derive(Debug, Clone)]
pub struct Shares {
    /// What the whole is.
    pub title: String,
    /// The whole.
    pub whole: f64,
    /// Its parts from the left, with colour and name.
    pub parts: Vec<(f64, Colour, String)>,
}

/// Height of a bar, and room between rows, px.
const BAR: f64 = 15.0;
const GAP: f64 = 9.0;
/// Air above the first row, px.
const TOP: f64 = 14.0;
/// Room below for labels and title, px.
const FOOT: f64 = 52.0;
/// Least and most room for names, px.
const NAMES: (f64, f64) = (60.0, 180.0);
/// Height of the bar of a whole, and room above it for its name, px.
const WHOLE: (f64, f64) = (26.0, 34.0);

fn tall(row: &BarRow) -> f64 {
    row.bars.len() as f64 * BAR + GAP
}

impl Bars {
    fn rows_height(&self) -> f64 {
        TOP + self.rows.iter().map(tall).sum::<f64>()
    }

    pub(crate) fn height(&self) -> f64 {
        self.rows_height() + FOOT + key_height(self.key.len())
    }

    pub(crate) fn draw(&self, paper: &Paper, top: f64) -> Drawn {
        let bars = self.rows.iter().flat_map(|row| &row.bars);
        let ends = from_zero(
            bars.flat_map(|bar| bar.reach.into_iter().chain(bar.mark.map(|(value, ..)| value))),
        );
        let names = self.rows.iter().map(|row| text_width(&row.name, TEXT));
        let left = 12.0 + names.fold(NAMES.0, f64::max).min(NAMES.1);
        let bottom = top + self.rows_height();
        let cell = Cell { left, top: top + 8.0, right: WIDTH - 24.0, bottom };
        let axes = Axes { cell, x: ends, y: (0.0, 1.0) };
        for (tick, label) in ticks(ends.0, ends.1, 5) {
            let (at, _) = axes.at(tick, 0.0);
            paper.line(&[(at, cell.top), (at, bottom)], Pen::solid(GRID, 0.8))?;
            paper.centre(&label, (at, bottom + 13.0), TEXT, SOFT)?;
        }
        Mark::Rule { x: 0.0, pen: Pen::solid(SOFT, 1.2) }.draw(paper, &axes)?;
        let room = 2.0 * (WIDTH - 8.0 - f64::midpoint(left, WIDTH));
        let title = (f64::midpoint(left, WIDTH), bottom + 34.0);
        paper.centre(&fit(&self.title, TEXT, room), title, TEXT, INK)?;
        let mut y = top + TOP;
        for row in &self.rows {
            let middle = y + (tall(row) - GAP) / 2.0;
            paper.right(&fit(&row.name, TEXT, left - 12.0), (left - 8.0, middle), TEXT, INK)?;
            for bar in &row.bars {
                bar.draw(paper, &axes, y + BAR / 2.0)?;
                y += BAR;
            }
            y += GAP;
        }
        key(paper, &self.key, bottom + FOOT)
    }
}

impl Bar {
    /// A bar from zero.
    pub fn new(reach: [f64; 3], colour: Colour) -> Self {
        Self { reach, colour, mark: None }
    }

    /// The same with a second value.
    #[must_use]
    pub fn marked(self, value: f64, shape: Shape, colour: Colour) -> Self {
        Self { mark: Some((value, shape, colour)), ..self }
    }

    fn draw(&self, paper: &Paper, axes: &Axes, y: f64) -> Drawn {
        let x = |value: f64| axes.at(value, 0.0).0;
        let [low, end, high] = self.reach.map(x);
        let half = 0.38 * BAR;
        let edge = Cell { left: x(0.0), top: y - half, right: end, bottom: y + half };
        paper.area(&edge.corners(), self.colour, 0.55)?;
        paper.line(&[(low, y), (high, y)], Pen::solid(INK, 1.2))?;
        for end in [low, high] {
            paper.line(&[(end, y - 3.0), (end, y + 3.0)], Pen::solid(INK, 1.2))?;
        }
        match self.mark {
            Some((value, shape, colour)) => shape.draw(paper, (x(value), y), colour),
            None => Ok(()),
        }
    }
}

impl Shares {
    fn key(&self) -> Vec<Entry> {
        let part =
            |(_, colour, name): &(f64, Colour, String)| Entry::line(Pen::solid(*colour, 9.0), name);
        self.parts.iter().map(part).collect()
    }

    pub(crate) fn height(&self) -> f64 {
        WHOLE.1 + WHOLE.0 + 8.0 + key_height(self.parts.len())
    }

    pub(crate) fn draw(&self, paper: &Paper, top: f64) -> Drawn {
        let all: f64 = self.parts.iter().map(|part| part.0).sum();
        let top = top + WHOLE.1;
        let full = Cell { left: 10.0, top, right: WIDTH - 18.0, bottom: top + WHOLE.0 };
        let axes = Axes { cell: full, x: (0.0, all.max(self.whole)), y: (0.0, 1.0) };
        let piece = |from: f64, to: f64| {
            let [left, right] = [from, to].map(|value| axes.at(value, 0.0).0);
            Cell { left, right, ..full }.corners()
        };
        paper.left(&self.title, (full.left, top - 16.0), TEXT, INK)?;
        let mut from = 0.0;
        for (part, colour, _) in &self.parts {
            paper.area(&piece(from, from + part), *colour, 0.75)?;
            from += part;
        }
        paper.line(&piece(0.0, self.whole), Pen::solid(INK, 1.4))?;
        key(paper, &self.key(), full.bottom + 8.0)
    }
}
