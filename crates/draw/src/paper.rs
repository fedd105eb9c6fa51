//! A sheet to draw on: lines, dashes, rings, marks and text in pixels with
//! fractions.

use plotters::backend::SVGBackend;
use plotters::coord::Shift;
use plotters::drawing::{DrawingArea, DrawingAreaErrorKind, IntoDrawingArea};
use plotters::element::{Circle, PathElement, Polygon, Text};
use plotters::style::text_anchor::{HPos, Pos, VPos};
use plotters::style::{Color, IntoFont, RGBColor, ShapeStyle, TextStyle};

use crate::error::DrawError;
use crate::escape::{escape, visible};
use crate::ink::{Colour, Dash, PAPER, Pen};

/// What goes wrong in a drawing.
pub(crate) enum Fault {
    /// The plotting library failed.
    Library(DrawingAreaErrorKind<std::io::Error>),
    /// A number is infinite or not a number.
    NotFinite(f64),
}

impl From<DrawingAreaErrorKind<std::io::Error>> for Fault {
    fn from(source: DrawingAreaErrorKind<std::io::Error>) -> Self {
        Self::Library(source)
    }
}

/// A step of a drawing.
pub(crate) type Drawn = Result<(), Fault>;
/// A place on the sheet, px right and down.
pub(crate) type Spot = (f64, f64);

/// The library's backend keeps whole pixels only, so the sheet is drawn this
/// many times larger and shown smaller. Chosen: a tenth of a pixel is finer
/// than eye and screen.
const FINE: f64 = 10.0;
/// The library writes a font's size divided by this.
const FONT_SCALE: f64 = 1.24;
/// Width of every sheet, px. Chosen: shown on a 360 px phone, 14 px text stays
/// above 10 px.
pub(crate) const WIDTH: f64 = 440.0;
/// Size of labels, px; chosen with `WIDTH`.
pub(crate) const TEXT: f64 = 14.0;
/// Size of labels in crowded places, px.
pub(crate) const SMALL: f64 = 12.0;
/// Mean width of a letter over its size, for sans-serif text; chosen a little
/// above common faces.
const LETTER: f64 = 0.56;

/// The sheet.
pub(crate) struct Paper<'a> {
    area: DrawingArea<SVGBackend<'a>, Shift>,
}

/// A rectangle on the sheet.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Cell {
    /// Left edge.
    pub(crate) left: f64,
    /// Top edge.
    pub(crate) top: f64,
    /// Right edge.
    pub(crate) right: f64,
    /// Bottom edge.
    pub(crate) bottom: f64,
}

impl Cell {
    /// The rectangle of these half-widths about a spot.
    pub(crate) fn about(at: Spot, wide: f64, tall: f64) -> Self {
        Self { left: at.0 - wide, top: at.1 - tall, right: at.0 + wide, bottom: at.1 + tall }
    }

    /// Its corners, the first once more at the end.
    pub(crate) fn corners(&self) -> [Spot; 5] {
        let (l, t, r, b) = (self.left, self.top, self.right, self.bottom);
        [(l, t), (r, t), (r, b), (l, b), (l, t)]
    }

    /// Whether a spot lies outside, by more than so much; one that is not a
    /// number does not, so that it is drawn and found.
    pub(crate) fn misses(&self, (x, y): Spot, by: f64) -> bool {
        x < self.left - by || x > self.right + by || y < self.top - by || y > self.bottom + by
    }
}

/// Draws a sheet of this height and returns its SVG.
pub(crate) fn sheet(
    name: &str,
    title: &str,
    height: f64,
    work: impl FnOnce(&Paper) -> Drawn,
) -> Result<String, DrawError> {
    let failed = |fault| match fault {
        Fault::Library(source) => DrawError::Plot { picture: name.to_owned(), source },
        Fault::NotFinite(value) => DrawError::NotFinite { picture: name.to_owned(), value },
    };
    if !height.is_finite() {
        return Err(failed(Fault::NotFinite(height)));
    }
    let mut text = String::new();
    let size = (whole(WIDTH).unsigned_abs(), whole(height).unsigned_abs());
    {
        let area = SVGBackend::with_string(&mut text, size).into_drawing_area();
        area.fill(&rgb(PAPER)).map_err(|source| failed(source.into()))?;
        let paper = Paper { area };
        work(&paper).map_err(failed)?;
        paper.area.present().map_err(|source| failed(source.into()))?;
    }
    let shown = format!(
        "<svg role=\"img\" aria-label=\"{}\" width=\"{WIDTH}\" height=\"{height}\"",
        escape(title)
    );
    let bare = format!("<svg width=\"{}\" height=\"{}\"", size.0, size.1);
    Ok(visible(&text.replacen(&bare, &shown, 1)).into_owned())
}

/// Width of a text at a size, px, by the mean letter.
pub(crate) fn text_width(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * LETTER * size
}

/// A text cut to a width, with an ellipsis where it was cut.
pub(crate) fn fit(text: &str, size: f64, width: f64) -> String {
    if text_width(text, size) <= width {
        return text.to_owned();
    }
    let mut kept = String::new();
    for letter in text.chars() {
        if text_width(&kept, size) + 2.0 * LETTER * size > width {
            break;
        }
        kept.push(letter);
    }
    format!("{}\u{2026}", kept.trim_end())
}

#[expect(clippy::cast_possible_truncation, reason = "a float cast saturates, and sheets are small")]
fn whole(px: f64) -> i32 {
    (px * FINE).round() as i32
}

/// Where the library draws a spot. Everything drawn comes through here.
fn spot(at: &Spot) -> Result<(i32, i32), Fault> {
    match [at.0, at.1].into_iter().find(|px| !px.is_finite()) {
        Some(value) => Err(Fault::NotFinite(value)),
        None => Ok((whole(at.0), whole(at.1))),
    }
}

fn path(spots: &[Spot]) -> Result<Vec<(i32, i32)>, Fault> {
    spots.iter().map(spot).collect()
}

fn rgb(colour: Colour) -> RGBColor {
    RGBColor(colour.0, colour.1, colour.2)
}

impl Paper<'_> {
    /// A line through spots.
    pub(crate) fn line(&self, spots: &[Spot], pen: Pen) -> Drawn {
        let style = ShapeStyle {
            color: rgb(pen.colour).to_rgba(),
            filled: false,
            stroke_width: whole(pen.width).unsigned_abs(),
        };
        path(spots)?;
        let pieces = match pen.dash.pattern() {
            None => vec![spots.to_vec()],
            Some((on, off)) => dashes(spots, on, off),
        };
        for piece in pieces {
            self.area.draw(&PathElement::new(path(&piece)?, style))?;
        }
        Ok(())
    }

    /// A filled area, see-through by `alpha`.
    pub(crate) fn area(&self, spots: &[Spot], colour: Colour, alpha: f64) -> Drawn {
        let style = rgb(colour).mix(alpha).filled();
        Ok(self.area.draw(&Polygon::new(path(spots)?, style))?)
    }

    /// A small disc.
    pub(crate) fn dot(&self, at: Spot, radius: f64, colour: Colour, alpha: f64) -> Drawn {
        let style = rgb(colour).mix(alpha).filled();
        Ok(self.area.draw(&Circle::new(spot(&at)?, whole(radius).unsigned_abs(), style))?)
    }

    /// The part of an oval of these half-widths across and up that lies inside
    /// a cell.
    pub(crate) fn oval(&self, centre: Spot, half: [f64; 2], inside: &Cell, pen: Pen) -> Drawn {
        path(&[centre, (half[0], half[1])])?;
        let radius = half[0].min(half[1]);
        let steps = 144;
        // A small ring would hold but two or three long dashes.
        let small = pen.dash == Dash::Dashed && radius < 14.0;
        let pen = if small { pen.dash(Dash::Dotted) } else { pen };
        let mut run: Vec<Spot> = Vec::new();
        for step in 0..=steps {
            let turn = f64::from(step) / f64::from(steps) * std::f64::consts::TAU;
            let at = (centre.0 + half[0] * turn.cos(), centre.1 + half[1] * turn.sin());
            if !inside.misses(at, 0.0) {
                run.push(at);
            } else if !run.is_empty() {
                self.line(&std::mem::take(&mut run), pen)?;
            }
        }
        if run.len() > 1 { self.line(&run, pen) } else { Ok(()) }
    }

    /// Text beginning at a spot, centred on its height.
    pub(crate) fn left(&self, text: &str, at: Spot, size: f64, colour: Colour) -> Drawn {
        self.text(text, at, size, colour, HPos::Left)
    }

    /// Text ending at a spot.
    pub(crate) fn right(&self, text: &str, at: Spot, size: f64, colour: Colour) -> Drawn {
        self.text(text, at, size, colour, HPos::Right)
    }

    /// Text centred on a spot.
    pub(crate) fn centre(&self, text: &str, at: Spot, size: f64, colour: Colour) -> Drawn {
        self.text(text, at, size, colour, HPos::Center)
    }

    fn text(&self, text: &str, at: Spot, size: f64, colour: Colour, hold: HPos) -> Drawn {
        if text.is_empty() {
            return Ok(());
        }
        let font = ("sans-serif", size * FINE * FONT_SCALE).into_font();
        let colour = rgb(colour);
        let style = TextStyle::from(font).color(&colour).pos(Pos::new(hold, VPos::Center));
        Ok(self.area.draw(&Text::new(text.to_owned(), spot(&at)?, style))?)
    }
}

/// Cuts a line through spots into dashes.
fn dashes(spots: &[Spot], on: f64, off: f64) -> Vec<Vec<Spot>> {
    let mut out = Vec::new();
    let mut piece: Vec<Spot> = spots.first().copied().into_iter().collect();
    let mut drawing = true;
    let mut left = on;
    for pair in spots.windows(2) {
        let (mut from, to) = (pair[0], pair[1]);
        loop {
            let length = (to.0 - from.0).hypot(to.1 - from.1);
            if length <= left {
                left -= length;
                if drawing {
                    piece.push(to);
                }
                break;
            }
            let part = left / length;
            from = (from.0 + part * (to.0 - from.0), from.1 + part * (to.1 - from.1));
            if drawing {
                piece.push(from);
                out.push(std::mem::take(&mut piece));
            } else {
                piece = vec![from];
            }
            drawing = !drawing;
            left = if drawing { on } else { off };
        }
    }
    if drawing && piece.len() > 1 {
        out.push(piece);
    }
    out
}
