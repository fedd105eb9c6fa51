//! The look of a point.

use crate::ink::{Colour, GRID, INK, Pen};
use crate::paper::{Cell, Drawn, Paper, SMALL, Spot, WIDTH};

/// The look of a point.
#[derive(Debug, Clone, Copy)]
pub enum Shape {
    /// The marker of a series: disc, square, triangle, diamond, triangle on
    /// its point, then again.
    Series(usize),
    /// A disc of this radius, px, see-through by the second.
    Dot(f64, f64),
    /// A ring of this radius, px.
    Ring(f64),
    /// A small dot in a ring, for a bare shaft.
    Bare,
    /// A number in a disc.
    Number(usize),
}

/// Radius of a numbered disc, px.
pub(crate) const DISC: f64 = 8.0;
/// The whole sheet, for what need not be cut.
const ALL: Cell = Cell { left: 0.0, top: 0.0, right: WIDTH, bottom: f64::MAX };

impl Shape {
    pub(crate) fn draw(self, paper: &Paper, at: Spot, colour: Colour) -> Drawn {
        let (x, y) = at;
        let area = |edge: &[Spot]| paper.area(edge, colour, 1.0);
        match self {
            Self::Series(series) => match series % 5 {
                0 => paper.dot(at, 3.6, colour, 1.0),
                1 => {
                    let half = 3.3;
                    area(&Cell::about(at, half, half).corners()[..4])
                }
                2 => area(&[(x, y - 4.6), (x + 4.3, y + 3.2), (x - 4.3, y + 3.2)]),
                3 => area(&[(x, y - 4.8), (x + 4.8, y), (x, y + 4.8), (x - 4.8, y)]),
                _ => area(&[(x, y + 4.6), (x + 4.3, y - 3.2), (x - 4.3, y - 3.2)]),
            },
            Self::Dot(radius, alpha) => paper.dot(at, radius, colour, alpha),
            Self::Ring(radius) => paper.oval(at, [radius; 2], &ALL, Pen::solid(colour, 1.8)),
            Self::Bare => {
                paper.oval(at, [6.0; 2], &ALL, Pen::solid(colour, 2.0))?;
                paper.dot(at, 1.6, colour, 1.0)
            }
            Self::Number(number) => {
                paper.dot(at, DISC, colour, 1.0)?;
                paper.dot(at, DISC - 1.5, GRID, 1.0)?;
                paper.centre(&number.to_string(), at, SMALL, INK)
            }
        }
    }
}
