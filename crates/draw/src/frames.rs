//! Frames that look at a piece of a plane: targets, torn paper, dials.

use crate::axes::{Axes, places, round_below};
use crate::ink::{GRID, INK, Pen, SOFT, series};
use crate::key::{Entry, key, key_height};
use crate::mark::Mark;
use crate::paper::{Cell, Drawn, Paper, SMALL, TEXT, WIDTH, fit, text_width};
use crate::shape::Shape;

/// Rows of frames. In a frame numbers run left and up, as the archer sees it.
#[derive(Debug, Clone)]
pub struct Frames {
    /// The rows.
    pub rows: Vec<FrameRow>,
    /// Whether all frames share one scale; else each fills its place.
    pub one_scale: bool,
    /// Largest side of a frame, px.
    pub most: f64,
    /// Unit of the scale bar; empty: no bar.
    pub unit: String,
    /// What the key holds.
    pub key: Vec<Entry>,
}

/// Frames side by side.
#[derive(Debug, Clone)]
pub struct FrameRow {
    /// Marker and name of the row, if it has one.
    pub title: Option<(usize, String)>,
    /// The frames.
    pub frames: Vec<Frame>,
}

/// One frame.
#[derive(Debug, Clone)]
pub struct Frame {
    /// Words above it; may be empty.
    pub head: String,
    /// What lies in its middle, left and up.
    pub middle: (f64, f64),
    /// Half of what it must show, across and up.
    pub half: (f64, f64),
    /// Whether its edge is drawn.
    pub edge: bool,
    /// What stands in it.
    pub marks: Vec<Mark>,
    /// Lines of words below it.
    pub under: Vec<String>,
}

/// Room at the sides of the sheet, px.
const EDGE: f64 = 8.0;
/// Height of a line of words over frames, under them, and of a scale bar, px.
const HEAD: f64 = 24.0;
const UNDER: f64 = 17.0;
const BAR: f64 = 26.0;

/// Where all stands.
struct Layout<'a> {
    /// Title of each row and its height on the sheet.
    titles: Vec<(&'a (usize, String), f64)>,
    frames: Vec<Placed<'a>>,
    bottom: f64,
}

/// A frame in its place, with the heights of the words over and under it.
struct Placed<'a> {
    frame: &'a Frame,
    axes: Axes,
    head: f64,
    under: f64,
}

impl Frames {
    /// Rows on one scale, as wide as the sheet.
    pub fn on_one_scale(rows: Vec<FrameRow>, unit: impl Into<String>) -> Self {
        Self { rows, one_scale: true, most: WIDTH, unit: unit.into(), key: Vec::new() }
    }

    /// Rows of so many frames without titles.
    pub fn rows(mut frames: Vec<Frame>, across: usize) -> Vec<FrameRow> {
        let mut rows = Vec::new();
        while !frames.is_empty() {
            let rest = frames.split_off(across.clamp(1, frames.len()));
            rows.push(FrameRow { title: None, frames });
            frames = rest;
        }
        rows
    }

    fn gap(&self) -> f64 {
        if self.columns() > 3 { 5.0 } else { 12.0 }
    }

    fn columns(&self) -> usize {
        self.rows.iter().map(|row| row.frames.len()).max().unwrap_or(1).max(1)
    }

    /// Room for frames in a row of so many.
    fn room(&self, frames: usize) -> f64 {
        WIDTH - 2.0 * EDGE - self.gap() * (frames.max(1) - 1) as f64
    }

    /// Pixels of a unit where all frames share it.
    fn scale(&self) -> f64 {
        let row = |row: &FrameRow| {
            let wide: f64 = row.frames.iter().map(|frame| 2.0 * frame.half.0).sum();
            self.room(row.frames.len()) / wide
        };
        let frames = self.rows.iter().flat_map(|row| &row.frames);
        let most = frames.map(|frame| self.most / (2.0 * frame.half.0));
        self.rows.iter().map(row).chain(most).fold(f64::INFINITY, f64::min)
    }

    /// Width and height of a frame, px, and its scale.
    fn size(&self, frame: &Frame, shared: f64) -> (f64, f64, f64) {
        let (wide, tall) = (2.0 * frame.half.0, 2.0 * frame.half.1);
        if self.one_scale {
            return (wide * shared, tall * shared, shared);
        }
        let across = self.room(self.columns()) / self.columns() as f64;
        let up = across.min(self.most);
        (across, up, (across / wide).min(up / tall))
    }

    /// Whether each frame has a bar of its own.
    fn bars(&self) -> bool {
        !self.one_scale && !self.unit.is_empty()
    }

    fn place(&self, top: f64) -> Layout<'_> {
        let shared = self.scale();
        let mut y = top;
        let mut out = Layout { titles: Vec::new(), frames: Vec::new(), bottom: top };
        for row in &self.rows {
            let head = y + HEAD / 2.0;
            if row.frames.iter().any(|frame| !frame.head.is_empty()) {
                y += HEAD;
            }
            if let Some(title) = &row.title {
                out.titles.push((title, y + HEAD / 2.0));
                y += HEAD;
            }
            y += 2.0;
            let sizes = || row.frames.iter().map(|frame| self.size(frame, shared));
            let tall = sizes().map(|size| size.1).fold(0.0, f64::max);
            let mut left = EDGE;
            for (frame, (wide, high, scale)) in row.frames.iter().zip(sizes()) {
                let cell = Cell::about((left + wide / 2.0, y + tall / 2.0), wide / 2.0, high / 2.0);
                let half = (wide / 2.0 / scale, high / 2.0 / scale);
                let m = frame.middle;
                // The archer's left is on the left.
                let (x, up) = ((m.0 + half.0, m.0 - half.0), (m.1 - half.1, m.1 + half.1));
                out.frames.push(Placed {
                    frame,
                    axes: Axes { cell, x, y: up },
                    head,
                    under: y + tall,
                });
                left += wide + self.gap();
            }
            let under = row.frames.iter().map(|frame| frame.under.len()).max().unwrap_or(0);
            y += tall + UNDER * under as f64 + if self.bars() { BAR } else { 4.0 };
        }
        out.bottom = y;
        out
    }

    fn shared_bar(&self) -> f64 {
        if self.one_scale && !self.unit.is_empty() { BAR + 8.0 } else { 4.0 }
    }

    pub(crate) fn height(&self) -> f64 {
        self.place(0.0).bottom + self.shared_bar() + key_height(self.key.len())
    }

    pub(crate) fn draw(&self, paper: &Paper, top: f64) -> Drawn {
        let layout = self.place(top);
        for ((marker, name), y) in &layout.titles {
            Shape::Series(*marker).draw(paper, (EDGE + 6.0, *y), series(*marker))?;
            let name = fit(name, TEXT, WIDTH - 2.0 * EDGE - 20.0);
            paper.left(&name, (EDGE + 18.0, *y), TEXT, INK)?;
        }
        let wide = |placed: &Placed| {
            let room = placed.axes.cell.right - placed.axes.cell.left;
            placed.frame.under.iter().any(|line| text_width(line, TEXT) > room)
        };
        let size = if layout.frames.iter().any(wide) { SMALL } else { TEXT };
        for placed in &layout.frames {
            placed.draw(paper, size)?;
            if self.bars() && placed.frame.edge {
                let y = placed.under + UNDER * placed.frame.under.len() as f64 + 14.0;
                self.bar(paper, (placed.axes.cell.left + 2.0, y), placed.axes.scale().0)?;
            }
        }
        if self.one_scale && !self.unit.is_empty() {
            self.bar(paper, (EDGE, layout.bottom + 18.0), self.scale())?;
        }
        key(paper, &self.key, layout.bottom + self.shared_bar())
    }

    /// A bar of a round length that fills about a fifth of the sheet or of a
    /// frame.
    fn bar(&self, paper: &Paper, (x, y): (f64, f64), scale: f64) -> Drawn {
        let share = if self.one_scale { 0.24 } else { 0.35 / self.columns() as f64 };
        let aim = share * self.room(self.columns());
        let round = round_below(aim / scale);
        let end = x + round * scale;
        paper.line(&[(x, y), (end, y)], Pen::solid(INK, 1.4))?;
        for x in [x, end] {
            paper.line(&[(x, y - 4.0), (x, y + 4.0)], Pen::solid(INK, 1.4))?;
        }
        let text = format!("{round:.places$} {}", self.unit, places = places(round));
        paper.left(&text, (end + 8.0, y), if self.one_scale { TEXT } else { SMALL }, INK)
    }
}

impl Frame {
    /// A frame with an edge about the middle of the plane.
    pub fn new(half: (f64, f64), marks: Vec<Mark>) -> Self {
        let head = String::new();
        Self { head, middle: (0.0, 0.0), half, edge: true, marks, under: Vec::new() }
    }
}

impl Placed<'_> {
    fn draw(&self, paper: &Paper, size: f64) -> Drawn {
        let (frame, c) = (self.frame, &self.axes.cell);
        let (middle, room) = (f64::midpoint(c.left, c.right), c.right - c.left);
        paper.centre(&fit(&frame.head, TEXT, room + 4.0), (middle, self.head), TEXT, INK)?;
        if frame.edge {
            paper.line(&c.corners(), Pen::solid(GRID, 1.0))?;
        }
        frame.marks.iter().try_for_each(|mark| mark.draw(paper, &self.axes))?;
        for (line, words) in frame.under.iter().enumerate() {
            let y = self.under + UNDER * (line as f64 + 0.5) + 3.0;
            paper.centre(&fit(words, size, room + 4.0), (middle, y), size, SOFT)?;
        }
        Ok(())
    }
}
