//! Lines and points on axes, in one or more panels.

use super::axes::{Axes, around, from_zero, hold_zero, ticks};
use super::ink::{INK, SOFT};
use super::mark::{Entry, Mark, key, key_height};
use super::paper::{Cell, Drawn, Paper, SMALL, TEXT, WIDTH, fit, text_width};

/// Panels with axes and one key below them.
#[derive(Debug, Clone, Default)]
pub(crate) struct Lines {
    /// The panels, row by row.
    pub(crate) panels: Vec<Panel>,
    /// Panels side by side: one or two; nought counts as one.
    pub(crate) columns: usize,
    /// What the key holds beside the named series.
    pub(crate) key: Vec<Entry>,
}

/// One panel.
#[derive(Debug, Clone)]
pub(crate) struct Panel {
    /// A line over the panel: its heading, and a remark at the right.
    pub(crate) head: (String, String),
    /// The axis along the bottom.
    pub(crate) x: Axis,
    /// The axis up the left side.
    pub(crate) y: Axis,
    /// Height between the axes, px.
    pub(crate) tall: f64,
    /// Whether a unit is as long across as up; x is then widened to fit.
    pub(crate) even: bool,
    /// What stands in it.
    pub(crate) marks: Vec<Mark>,
}

/// An axis.
#[derive(Debug, Clone)]
pub(crate) struct Axis {
    /// What it shows, and its unit after a comma; may be empty.
    pub(crate) title: String,
    /// Where it begins and ends.
    pub(crate) ends: Ends,
    /// Whether it runs down, or from right to left.
    pub(crate) back: bool,
    /// Where it has labels.
    pub(crate) ticks: Ticks,
}

/// Where an axis begins and ends, in its unit.
#[derive(Debug, Clone, Copy)]
pub(crate) enum Ends {
    /// Here.
    At(f64, f64),
    /// From zero to half a round step above all that is drawn.
    FromZero,
    /// Zero and all that is drawn, with some room.
    HoldsZero,
    /// All that is drawn, with some room.
    Around,
}

/// Where an axis has labels.
#[derive(Debug, Clone)]
pub(crate) enum Ticks {
    /// At round numbers.
    Round,
    /// At these values, those left out that would touch.
    At(Vec<(f64, String)>),
    /// Nowhere; an y axis without labels leaves the grid to x.
    None,
}

impl Axis {
    /// An axis with round labels.
    pub(crate) fn new(title: impl Into<String>, ends: Ends) -> Self {
        Self { title: title.into(), ends, back: false, ticks: Ticks::Round }
    }

    /// The same with labels at these values.
    pub(crate) fn at(self, labels: Vec<(f64, String)>) -> Self {
        Self { ticks: Ticks::At(labels), ..self }
    }

    /// The same without labels.
    pub(crate) fn bare(self) -> Self {
        Self { ticks: Ticks::None, ..self }
    }

    /// The same, running down or from right to left.
    pub(crate) fn back(self) -> Self {
        Self { back: true, ..self }
    }

    fn ends(&self, values: impl Fn() -> Vec<f64>) -> (f64, f64) {
        let (low, high) = match self.ends {
            Ends::At(low, high) => (low, high),
            Ends::FromZero => from_zero(values()),
            Ends::HoldsZero => hold_zero(values()),
            Ends::Around => around(&values()),
        };
        if self.back { (high, low) } else { (low, high) }
    }

    /// The labels; none where there is no scale.
    fn labels(&self, (from, to): (f64, f64), most: u32) -> Option<Vec<(f64, String)>> {
        match &self.ticks {
            Ticks::Round => Some(ticks(from.min(to), from.max(to), most)),
            Ticks::At(labels) => Some(labels.clone()),
            Ticks::None => None,
        }
    }
}

impl Panel {
    /// A panel of the common height.
    pub(crate) fn new(x: Axis, y: Axis, marks: Vec<Mark>) -> Self {
        let head = (String::new(), String::new());
        Self { head, x, y, tall: 240.0, even: false, marks }
    }

    /// The same of this height, px.
    pub(crate) fn tall(self, tall: f64) -> Self {
        Self { tall, ..self }
    }

    /// The same with a heading and a remark at the right.
    pub(crate) fn head(self, head: impl Into<String>, remark: impl Into<String>) -> Self {
        Self { head: (head.into(), remark.into()), ..self }
    }

    /// Room above: heading, title of y, a little air.
    fn above(&self) -> (f64, f64) {
        let head = if self.head.0.is_empty() { 0.0 } else { 22.0 };
        (head, head + if self.y.title.is_empty() { 10.0 } else { 32.0 })
    }

    /// Room below: labels, title of x.
    fn below(&self) -> f64 {
        let labels = if matches!(self.x.ticks, Ticks::None) { 6.0 } else { 26.0 };
        labels + if self.x.title.is_empty() { 0.0 } else { 22.0 }
    }
}

/// A panel in its place.
struct Placed<'a> {
    panel: &'a Panel,
    axes: Axes,
    x: Vec<(f64, String)>,
    y: Option<Vec<(f64, String)>>,
}

impl Lines {
    /// One panel.
    pub(crate) fn one(panel: Panel) -> Self {
        Self { panels: vec![panel], ..Self::default() }
    }

    fn columns(&self) -> usize {
        self.columns.max(1)
    }

    /// Size of the labels, px.
    fn size(&self) -> f64 {
        if self.columns() > 1 { SMALL } else { TEXT }
    }

    /// Heights of the rows: above, between and below the axes.
    fn rows(&self) -> impl Iterator<Item = [f64; 3]> {
        let most =
            |row: &[Panel], read: fn(&Panel) -> f64| row.iter().map(read).fold(0.0, f64::max);
        self.panels.chunks(self.columns()).map(move |row| {
            [most(row, |p| p.above().1), most(row, |p| p.tall), most(row, Panel::below)]
        })
    }

    fn entries(&self) -> Vec<Entry> {
        let named = self.panels.iter().flat_map(|panel| &panel.marks).filter_map(Mark::entry);
        named.chain(self.key.iter().cloned()).collect()
    }

    pub(super) fn height(&self) -> f64 {
        let rows: f64 = self.rows().flatten().sum();
        rows + key_height(self.entries().len())
    }

    pub(super) fn draw(&self, paper: &Paper, top: f64) -> Drawn {
        for placed in self.place(top) {
            placed.draw(paper, self.size())?;
        }
        let entries = self.entries();
        key(paper, &entries, top + self.height() - key_height(entries.len()))
    }

    /// Panels below each other share their left edge.
    fn place(&self, top: f64) -> Vec<Placed> {
        let columns = self.columns();
        let wide = WIDTH / columns as f64;
        let mut out: Vec<Placed> = self.panels.iter().map(|panel| panel.measure(columns)).collect();
        for column in 0..columns {
            let labels = out.iter().skip(column).step_by(columns).filter_map(|p| p.y.as_ref());
            let widest = labels.flatten().map(|(_, label)| text_width(label, self.size()));
            let left = column as f64 * wide + 14.0 + widest.fold(16.0, f64::max);
            let right = (column + 1) as f64 * wide - if columns > 1 { 12.0 } else { 18.0 };
            let mut y = top;
            for (placed, [above, tall, below]) in
                out.iter_mut().skip(column).step_by(columns).zip(self.rows())
            {
                let cell = Cell { left, top: y + above, right, bottom: y + above + tall };
                placed.settle(cell, columns, self.size());
                y += above + tall + below;
            }
        }
        out
    }
}

impl Panel {
    /// Ends and labels, before there is a place.
    fn measure(&self, columns: usize) -> Placed<'_> {
        let points: Vec<(f64, f64)> = self.marks.iter().flat_map(Mark::points).collect();
        let x = self.x.ends(|| points.iter().map(|p| p.0).collect());
        let y = self.y.ends(|| points.iter().map(|p| p.1).collect());
        let most = if columns > 1 { 4 } else { 5 };
        let labels = self.y.labels(y, most);
        let cell = Cell::about((0.0, 0.0), 1.0, 1.0);
        Placed { panel: self, axes: Axes { cell, x, y }, x: Vec::new(), y: labels }
    }
}

impl Placed<'_> {
    fn settle(&mut self, cell: Cell, columns: usize, size: f64) {
        self.axes.cell = cell;
        if self.panel.even {
            let middle = f64::midpoint(self.axes.x.0, self.axes.x.1);
            let half = (cell.right - cell.left) / 2.0 / self.axes.scale().1;
            let half = if self.panel.x.back { -half } else { half };
            self.axes.x = (middle - half, middle + half);
        }
        let most = if columns > 1 { 4 } else { 6 };
        let labels = self.panel.x.labels(self.axes.x, most).unwrap_or_default();
        let mut free = f64::NEG_INFINITY;
        for (value, label) in labels {
            let (x, half) = (self.axes.at(value, 0.0).0, text_width(&label, size) / 2.0);
            if x - half >= free {
                free = x + half + 4.0;
                self.x.push((value, label));
            }
        }
    }

    fn draw(&self, paper: &Paper, size: f64) -> Drawn {
        let (panel, c) = (self.panel, &self.axes.cell);
        let (head, above) = panel.above();
        let y = c.top - above;
        let start = if size < TEXT { c.left - 28.0 } else { 8.0 };
        paper.left(&fit(&panel.head.0, TEXT, WIDTH - 8.0 - start), (start, y + 14.0), TEXT, INK)?;
        paper.right(&panel.head.1, (c.right, y + 14.0), TEXT, SOFT)?;
        paper.left(&panel.y.title, (start, y + head + 16.0), TEXT, INK)?;
        self.axes.draw(paper, &self.x, self.y.as_deref(), size)?;
        let below = c.bottom + if matches!(panel.x.ticks, Ticks::None) { 15.0 } else { 35.0 };
        let middle = f64::midpoint(c.left, c.right);
        let half = (middle - 4.0).min(WIDTH - 4.0 - middle);
        paper.centre(&fit(&panel.x.title, TEXT, 2.0 * half), (middle, below), TEXT, INK)?;
        panel.marks.iter().try_for_each(|mark| mark.draw(paper, &self.axes))
    }
}
