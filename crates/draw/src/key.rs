//! The key below a part.

use crate::ink::{Colour, INK, Pen};
use crate::paper::{Drawn, Paper, TEXT, WIDTH, fit};
use crate::shape::Shape;

/// One line of a key below a part.
#[derive(Debug, Clone)]
pub struct Entry {
    /// Its line, if it has one.
    pub pen: Option<Pen>,
    /// Its point, if it has one.
    pub shape: Option<(Shape, Colour)>,
    /// What it is.
    pub text: String,
}

impl Entry {
    /// A line and what it is.
    pub fn line(pen: Pen, text: impl Into<String>) -> Self {
        Self { pen: Some(pen), shape: None, text: text.into() }
    }

    /// A point and what it is.
    pub fn shape(shape: Shape, colour: Colour, text: impl Into<String>) -> Self {
        Self { pen: None, shape: Some((shape, colour)), text: text.into() }
    }
}

/// Height of one line of a key, px.
const KEY_LINE: f64 = 21.0;

/// Height of a key, px.
pub(crate) fn key_height(entries: usize) -> f64 {
    KEY_LINE * entries as f64 + 6.0
}

/// Draws a key, one entry a line, its sample first.
pub(crate) fn key(paper: &Paper, entries: &[Entry], top: f64) -> Drawn {
    for (at, entry) in entries.iter().enumerate() {
        let y = top + KEY_LINE * (at as f64 + 0.5);
        if let Some(pen) = entry.pen {
            paper.line(&[(10.0, y), (44.0, y)], pen)?;
        }
        if let Some((shape, colour)) = entry.shape {
            shape.draw(paper, (27.0, y), colour)?;
        }
        paper.left(&fit(&entry.text, TEXT, WIDTH - 60.0), (54.0, y), TEXT, INK)?;
    }
    Ok(())
}
