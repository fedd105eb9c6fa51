//! Lines and points on axes, in one or more panels.

use crate::axes::{Axes, around, from_zero, hold_zero, ticks};
use crate::ink::{INK, SOFT};
use crate::key::{Entry, key, key_height};
use crate::mark::Mark;
use crate::paper::{Cell, Drawn, Paper, SMALL, TEXT, WIDTH, fit, text_width};

/// Panels with axes and one key below them.
#[derive(Debug, Clone, Default)]
pub struct Lines {
    /// The panels, row by row.
    pub panels: Vec<Panel>,
    /// Panels side by side: one or two; nought counts as one.
    pub columns: usize,
    /// What the key holds beside the named series.
    pub key: Vec<Entry>,
}

/// One panel.
#[derive(Debug, Clone)]
pub struct Panel {
    /// A line over the panel: its heading, and a remark at the right.
    pub head: (String, String),
    /// The axis along the bottom.
    pub x: Axis,
    /// The axis up the left side.
    pub y: Axis,
    /// Height between the axes, px, unless `stretch` gives it.
    pub tall: f64,
    /// How many times as long a unit is up as across, where that matters.
    pub stretch: Option<f64>,
    /// What stands in it.
    pub marks: Vec<Mark>,
}

/// An axis.
#[derive(Debug, Clone)]
pub struct Axis {
    /// What it shows, and its unit after a comma; may be empty.
    pub title: String,
    /// Where it begins and ends.
    pub ends: Ends,
    /// Whether it runs down, or from right to left.
    pub back: bool,
    /// Where it has labels.
    pub ticks: Ticks,
}

/// Where an axis begins and ends, in its unit.
#[derive(Debug, Clone, Copy)]
pub enum Ends {
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
pub enum Ticks {
    /// At round numbers.
    Round,
    /// At these values, those left out that would touch.
    At(Vec<(f64, String)>),
    /// Nowhere; an y axis without labels leaves the grid to x.
    None,
}

impl Axis {
    /// An axis with round labels.
    pub fn new(title: impl Into<String>, ends: Ends) -> Self {
        Self { title: title.into(), ends, back: false, ticks: Ticks::Round }
    }

    /// The same with labels at these values.
    #[must_use]
    pub fn at(self, labels: Vec<(f64, String)>) -> Self {
        Self { ticks: Ticks::At(labels), ..self }
    }

    /// The same without labels.
    #[must_use]
    pub fn bare(self) -> Self {
        Self { ticks: Ticks::None, ..self }
    }

    /// The same, running down or from right to left.
    #[must_use]
    pub fn back(self) -> Self {
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
    pub fn new(x: Axis, y: Axis, marks: Vec<Mark>) -> Self {
        let head = (String::new(), String::new());
        Self { head, x, y, tall: 240.0, stretch: None, marks }
    }

    /// The same of this height, px.
    #[must_use]
    pub fn tall(self, tall: f64) -> Self {
        Self { tall, ..self }
    }

    /// The same with a heading and a remark at the right.
    #[must_use]
    pub fn head(self, head: impl Into<String>, remark: impl Into<String>) -> Self {
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
    pub fn one(panel: Panel) -> Self {
        Self { panels: vec![panel], ..Self::default() }
    }

    fn columns(&self) -> usize {
        self.columns.max(1)
    }

    /// Size of the labels, px.
    fn size(&self) -> f64 {
        if self.columns() > 1 { SMALL } else { TEXT }
    }

    fn entries(&self) -> Vec<Entry> {
        let named = self.panels.iter().flat_map(|panel| &panel.marks).filter_map(Mark::entry);
        named.chain(self.key.iter().cloned()).collect()
    }

    pub(crate) fn height(&self) -> f64 {
        self.place(0.0).1 + key_height(self.entries().len())
    }

    pub(crate) fn draw(&self, paper: &Paper, top: f64) -> Drawn {
        let (panels, bottom) = self.place(top);
        for placed in panels {
            placed.draw(paper, self.size())?;
        }
        key(paper, &self.entries(), bottom)
    }

    /// Every panel in its place, and where they end. Panels below each other
    /// share their left edge.
    fn place(&self, top: f64) -> (Vec<Placed<'_>>, f64) {
        let columns = self.columns();
        let wide = WIDTH / columns as f64;
        let mut out: Vec<Placed> = self.panels.iter().map(|panel| panel.measure(columns)).collect();
        for column in 0..columns {
            let labels = out.iter().skip(column).step_by(columns).filter_map(|p| p.y.as_ref());
            let widest = labels.flatten().map(|(_, label)| text_width(label, self.size()));
            let left = column as f64 * wide + 14.0 + widest.fold(16.0, f64::max);
            let right = (column + 1) as f64 * wide - if columns > 1 { 12.0 } else { 18.0 };
            for placed in out.iter_mut().skip(column).step_by(columns) {
                placed.settle((left, right), columns, self.size());
            }
        }
        let mut y = top;
        for row in out.chunks_mut(columns) {
            let most = |read: fn(&Placed) -> f64| row.iter().map(read).fold(0.0, f64::max);
            let (above, below) = (most(|p| p.panel.above().1), most(|p| p.panel.below()));
            let tall = most(|p| p.axes.cell.bottom);
            for placed in row {
                (placed.axes.cell.top, placed.axes.cell.bottom) = (y + above, y + above + tall);
            }
            y += above + tall + below;
        }
        (out, y)
    }
}

impl Panel {
    /// Ends and labels, before there is a place.
    fn measure(&self, columns: usize) -> Placed<'_> {
        let points: Vec<(f64, f64)> = self.marks.iter().flat_map(Mark::points).collect();
        let x = self.x.ends(|| points.iter().map(|p| p.0).collect());
        let y = self.y.ends(|| points.iter().map(|p| p.1).collect());
        let labels = self.y.labels(y, if columns > 1 { 4 } else { 5 });
        let cell = Cell { left: 0.0, top: 0.0, right: 0.0, bottom: 0.0 };
        Placed { panel: self, axes: Axes { cell, x, y }, x: Vec::new(), y: labels }
    }
}

impl Placed<'_> {
    /// Takes its sides, which give the labels of x and the height.
    fn settle(&mut self, (left, right): (f64, f64), columns: usize, size: f64) {
        let Axes { x, y, .. } = self.axes;
        let up = (right - left) * ((y.1 - y.0) / (x.1 - x.0)).abs();
        let tall = self.panel.stretch.map_or(self.panel.tall, |stretch| stretch * up);
        self.axes.cell = Cell { left, top: 0.0, right, bottom: tall };
        let most = if columns > 1 { 4 } else { 6 };
        let labels = self.panel.x.labels(x, most).unwrap_or_default();
        let mut taken = f64::INFINITY;
        for (value, label) in labels {
            let (at, half) = (self.axes.at(value, 0.0).0, text_width(&label, size) / 2.0);
            // Labels of an axis that runs back come from the right.
            if (at - taken).abs() >= half {
                taken = if x.1 > x.0 { at + half + 4.0 } else { at - half - 4.0 };
                self.x.push((value, label));
            }
        }
    }

    fn draw(&self, paper: &Paper, size: f64) -> Drawn {
        let (panel, c) = (self.panel, &self.axes.cell);
        let (head, above) = panel.above();
        let y = c.top - above;
        let start = if size < TEXT { c.left - 30.0 } else { 8.0 };
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
