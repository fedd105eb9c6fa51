//! What stands in a panel or a frame, in its own numbers.

use crate::axes::Axes;
use crate::ink::{Colour, INK, Pen, SOFT, series};
use crate::key::Entry;
use crate::paper::{Cell, Drawn, Paper, SMALL, Spot};
use crate::shape::{DISC, Shape};

/// A pair of numbers: right and up on a panel, left and up in a frame.
pub type Point = (f64, f64);

/// Something drawn in a panel or a frame; later ones lie over earlier ones.
#[derive(Debug, Clone)]
pub enum Mark {
    /// A line with points and a band.
    Series(Series),
    /// A filled area, see-through by `alpha`.
    Area {
        /// Its edge.
        edge: Vec<Point>,
        /// Its colour.
        colour: Colour,
        /// From 0, not seen, to 1, nothing seen through it.
        alpha: f64,
    },
    /// The part inside the cell of an oval of these half-widths.
    Oval {
        /// Its centre.
        centre: Point,
        /// Half-widths across and up.
        half: [f64; 2],
        /// Its line.
        pen: Pen,
    },
    /// An upright line from edge to edge.
    Rule {
        /// Where it stands.
        x: f64,
        /// Its look.
        pen: Pen,
    },
    /// A level line from edge to edge.
    Level {
        /// How high it lies.
        y: f64,
        /// Its look.
        pen: Pen,
    },
    /// A shaded stretch of the x axis, its label above.
    Span {
        /// Where it begins.
        from: f64,
        /// Where it ends.
        to: f64,
        /// The words above it.
        label: String,
    },
    /// Words beside a point.
    Text(Text),
    /// Points numbered from one in discs that hide no other.
    Numbers(Vec<Point>),
}

/// A line with points and a band; any of the three may be empty.
#[derive(Debug, Clone)]
pub struct Series {
    /// Where the line runs.
    pub line: Vec<Point>,
    /// Its look, whose colour is that of points and band too.
    pub pen: Pen,
    /// Where points stand; those outside the cell are left out.
    pub spots: Vec<Point>,
    /// The look of a point.
    pub shape: Shape,
    /// Places of the band: x, low, high.
    pub band: Vec<(f64, f64, f64)>,
    /// How the key names it; empty: not in the key.
    pub name: String,
}

/// Words beside a point.
#[derive(Debug, Clone)]
pub struct Text {
    /// The point.
    pub at: Point,
    /// The words.
    pub words: String,
    /// Where they stand.
    pub side: Side,
    /// Their colour.
    pub colour: Colour,
}

/// On which side of a point words stand.
#[derive(Debug, Clone, Copy)]
pub enum Side {
    /// Beginning right of it.
    Right,
    /// Ending left of it.
    Left,
    /// Over it.
    Above,
    /// On it.
    Middle,
}

impl Series {
    /// A line.
    pub fn line(line: Vec<Point>, pen: Pen) -> Self {
        let shape = Shape::Series(0);
        Self { line, pen, spots: Vec::new(), shape, band: Vec::new(), name: String::new() }
    }

    /// Points without a line.
    pub fn spots(spots: Vec<Point>, shape: Shape, colour: Colour) -> Self {
        Self { spots, shape, ..Self::line(Vec::new(), Pen::solid(colour, 2.0)) }
    }

    /// The same with a point at every place of the line, by series.
    #[must_use]
    pub fn marked(self, series: usize) -> Self {
        Self { spots: self.line.clone(), shape: Shape::Series(series), ..self }
    }

    /// The same with points.
    #[must_use]
    pub fn with(self, spots: Vec<Point>, shape: Shape) -> Self {
        Self { spots, shape, ..self }
    }

    /// The same with a band: x, low, high.
    #[must_use]
    pub fn band(self, band: Vec<(f64, f64, f64)>) -> Self {
        Self { band, ..self }
    }

    /// The same, named in the key.
    #[must_use]
    pub fn named(self, name: impl Into<String>) -> Self {
        Self { name: name.into(), ..self }
    }

    fn entry(&self) -> Option<Entry> {
        let drawn = !(self.line.is_empty() && self.spots.is_empty());
        (drawn && !self.name.is_empty()).then(|| Entry {
            pen: (!self.line.is_empty()).then_some(self.pen),
            shape: (!self.spots.is_empty()).then_some((self.shape, self.pen.colour)),
            text: self.name.clone(),
        })
    }

    fn draw(&self, paper: &Paper, axes: &Axes) -> Drawn {
        let edge = |read: fn(&(f64, f64, f64)) -> Point| {
            self.band.iter().map(read).map(|(x, y)| axes.at(x, y))
        };
        let mut band: Vec<Spot> = edge(|b| (b.0, b.1)).collect();
        band.extend(edge(|b| (b.0, b.2)).rev());
        if !band.is_empty() {
            paper.area(&band, self.pen.colour, BAND)?;
        }
        paper.line(&axes.all(&self.line), self.pen)?;
        for at in axes.all(&self.spots) {
            if !axes.cell.misses(at, 0.5) {
                self.shape.draw(paper, at, self.pen.colour)?;
            }
        }
        Ok(())
    }
}

/// How far a band is seen through. Chosen: two over each other still show.
const BAND: f64 = 0.18;
impl From<Series> for Mark {
    fn from(series: Series) -> Self {
        Self::Series(series)
    }
}

impl Mark {
    /// A ring.
    pub fn ring(centre: Point, radius: f64, pen: Pen) -> Self {
        Self::Oval { centre, half: [radius; 2], pen }
    }

    /// The shade between two rings, such as the interval of a radius.
    pub fn annulus(centre: Point, (low, high): (f64, f64), colour: Colour) -> Self {
        let turn = |step: u32| f64::from(step) / 72.0 * std::f64::consts::TAU;
        let on = |radius: f64| {
            move |step| {
                let (sin, cos) = turn(step).sin_cos();
                (centre.0 + radius * cos, centre.1 + radius * sin)
            }
        };
        let edge = (0..=72).map(on(low)).chain((0..=72).rev().map(on(high))).collect();
        Self::Area { edge, colour, alpha: 0.28 }
    }

    /// How the key names it, if it does.
    pub(crate) fn entry(&self) -> Option<Entry> {
        if let Self::Series(series) = self { series.entry() } else { None }
    }

    /// The points that an axis must hold.
    pub(crate) fn points(&self) -> Vec<Point> {
        match self {
            Self::Series(series) => {
                let mut all = [series.line.as_slice(), &series.spots].concat();
                all.extend(series.band.iter().flat_map(|b| [(b.0, b.1), (b.0, b.2)]));
                all
            }
            Self::Numbers(points) => points.clone(),
            _ => Vec::new(),
        }
    }

    pub(crate) fn draw(&self, paper: &Paper, axes: &Axes) -> Drawn {
        let cell = &axes.cell;
        match self {
            Self::Series(series) => series.draw(paper, axes),
            Self::Area { edge, colour, alpha } => paper.area(&axes.all(edge), *colour, *alpha),
            Self::Oval { centre, half, pen } => {
                let scale = axes.scale();
                let half = [half[0] * scale.0, half[1] * scale.1];
                paper.oval(axes.at(centre.0, centre.1), half, cell, *pen)
            }
            Self::Rule { x, pen } => {
                let (x, _) = axes.at(*x, axes.y.0);
                paper.line(&[(x, cell.top), (x, cell.bottom)], *pen)
            }
            Self::Level { y, pen } => {
                let (_, y) = axes.at(axes.x.0, *y);
                paper.line(&[(cell.left, y), (cell.right, y)], *pen)
            }
            Self::Span { from, to, label } => {
                let [left, right] = [*from, *to].map(|x| axes.at(x, axes.y.0).0);
                paper.area(&Cell { left, right, ..*cell }.corners(), SOFT, BAND)?;
                let middle = f64::midpoint(left, right);
                let middle = middle.clamp(cell.left + 18.0, cell.right - 18.0);
                paper.centre(label, (middle, cell.top - 2.0), SMALL, INK)
            }
            Self::Text(text) => {
                let (x, y) = axes.at(text.at.0, text.at.1);
                match text.side {
                    Side::Right => paper.left(&text.words, (x + 7.0, y), SMALL, text.colour),
                    Side::Left => paper.right(&text.words, (x - 7.0, y), SMALL, text.colour),
                    Side::Above => paper.centre(&text.words, (x, y - 10.0), SMALL, text.colour),
                    Side::Middle => paper.centre(&text.words, (x, y), SMALL, text.colour),
                }
            }
            Self::Numbers(points) => {
                let mut taken: Vec<Spot> = Vec::new();
                for (number, at) in axes.all(points).into_iter().enumerate() {
                    let mut disc = at;
                    while taken.iter().any(|t| (t.0 - disc.0).hypot(t.1 - disc.1) < 2.0 * DISC) {
                        disc.0 += DISC;
                    }
                    paper.line(&[at, disc], Pen::solid(series(0), 1.0))?;
                    paper.dot(at, 2.5, series(0), 1.0)?;
                    Shape::Number(number + 1).draw(paper, disc, series(0))?;
                    taken.push(disc);
                }
                Ok(())
            }
        }
    }
}
