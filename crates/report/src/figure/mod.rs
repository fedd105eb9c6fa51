//! Pictures as plain data, and the one place that draws them.
//!
//! An answer fills a [`Figure`]; nothing outside this room knows pixels. Every
//! number in it stands in the unit that the axis names. A picture that holds a
//! number that is not finite is refused where it is drawn.

mod axes;
mod bars;
mod frames;
mod ink;
mod lines;
mod mark;
mod paper;

use crate::ReportError;

pub(crate) use axes::{around, from_zero, hold_zero, smooth};
pub(crate) use bars::{Bar, BarRow, Bars, Shares};
pub(crate) use frames::{Frame, FrameRow, Frames};
pub(crate) use ink::{Dash, GRID, INK, Pen, SOFT, dash, series};
pub(crate) use lines::{Axis, Ends, Lines, Panel};
pub(crate) use mark::{Entry, Mark, Series, Shape, Side, Text};

/// A picture: what it is called, what it shows and what stands in it.
#[derive(Debug, Clone)]
pub struct Figure {
    /// Name of its file, without the ending.
    pub(crate) name: String,
    /// What it shows, for those who cannot see it and for the caption.
    pub(crate) caption: String,
    /// What stands in it, from the top down; most pictures hold one part.
    pub(crate) parts: Vec<Kind>,
}

/// A part of a picture.
#[derive(Debug, Clone)]
pub(crate) enum Kind {
    /// Lines and points on axes, one or more panels.
    Lines(Lines),
    /// Bars with whiskers, a name each.
    Bars(Bars),
    /// One bar cut into the parts of a whole.
    Shares(Shares),
    /// Frames that look at a piece of a plane, such as targets.
    Frames(Frames),
    /// A sheet drawn elsewhere at true scale, as its SVG.
    Ready(String),
}

impl Figure {
    /// A picture of one part.
    pub(crate) fn new(
        name: impl Into<String>,
        caption: impl Into<String>,
        part: impl Into<Kind>,
    ) -> Self {
        Self { name: name.into(), caption: caption.into(), parts: vec![part.into()] }
    }

    /// A picture that is drawn already.
    pub(crate) fn ready(name: &str, caption: &str, svg: String) -> Self {
        Self::new(name, caption, Kind::Ready(svg))
    }

    /// The drawing.
    ///
    /// # Errors
    /// [`ReportError::NotFinite`] where a number is infinite or not a number;
    /// [`ReportError::Plot`] where the library cannot draw.
    pub(crate) fn svg(&self) -> Result<String, ReportError> {
        if let [Kind::Ready(svg)] = &self.parts[..] {
            return Ok(svg.clone());
        }
        let tall = self.parts.iter().map(Kind::height).sum();
        paper::sheet(&self.name, &self.caption, tall, |paper| {
            let mut top = 0.0;
            for part in &self.parts {
                match part {
                    Kind::Lines(lines) => lines.draw(paper, top)?,
                    Kind::Bars(bars) => bars.draw(paper, top)?,
                    Kind::Shares(shares) => shares.draw(paper, top)?,
                    Kind::Frames(frames) => frames.draw(paper, top)?,
                    Kind::Ready(_) => {}
                }
                top += part.height();
            }
            Ok(())
        })
    }
}

impl Kind {
    /// Its height on the sheet, px.
    fn height(&self) -> f64 {
        match self {
            Self::Lines(lines) => lines.height(),
            Self::Bars(bars) => bars.height(),
            Self::Shares(shares) => shares.height(),
            Self::Frames(frames) => frames.height(),
            Self::Ready(_) => 0.0,
        }
    }
}

impl From<Lines> for Kind {
    fn from(lines: Lines) -> Self {
        Self::Lines(lines)
    }
}

impl From<Bars> for Kind {
    fn from(bars: Bars) -> Self {
        Self::Bars(bars)
    }
}

impl From<Frames> for Kind {
    fn from(frames: Frames) -> Self {
        Self::Frames(frames)
    }
}

#[cfg(test)]
mod tests {
    use super::{Axis, Ends, Figure, Frame, Frames, INK, Lines, Mark, Panel, Pen, Series, Shape};
    use crate::ReportError;

    fn refused(figure: &Figure) -> bool {
        matches!(figure.svg(), Err(ReportError::NotFinite { .. }))
    }

    #[test]
    fn law_a_picture_of_a_number_that_is_not_finite_is_refused() {
        for bad in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY] {
            for series in [
                Series::line(vec![(0.0, 1.0), (1.0, bad)], Pen::series(0)),
                Series::line(vec![(0.0, 1.0), (bad, 2.0)], Pen::series(0)).marked(0),
                Series::line(vec![(0.0, 0.0)], Pen::series(0)).band(vec![(0.0, 0.0, bad)]),
            ] {
                let axis = || Axis::new("", Ends::FromZero);
                let panel = Panel::new(axis(), axis(), vec![series.into()]);
                assert!(refused(&Figure::new("lines", "", Lines::one(panel))), "{bad}");
            }
            for mark in [
                Mark::ring((0.0, bad), 0.5, Pen::series(0)),
                Mark::ring((0.0, 0.0), bad, Pen::series(0)),
            ] {
                let frames = Frames::on_one_scale(
                    Frames::rows(vec![Frame::new((1.0, 1.0), vec![mark])], 1),
                    "in",
                );
                assert!(refused(&Figure::new("frames", "", frames)), "{bad}");
            }
        }
        let spots = Series::spots(vec![(f64::NAN, 0.0)], Shape::Dot(1.0, 1.0), INK).into();
        let frames = Frames::rows(vec![Frame::new((1.0, 1.0), vec![spots])], 1);
        assert!(refused(&Figure::new("spots", "", Frames::on_one_scale(frames, ""))));
    }
}
