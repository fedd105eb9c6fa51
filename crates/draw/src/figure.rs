use crate::bars::{Bars, Shares};
use crate::error::DrawError;
use crate::frames::Frames;
use crate::lines::Lines;
use crate::paper;

/// A picture: what it is called, what it shows and what stands in it.
#[derive(Debug, Clone)]
pub struct Figure {
    /// Name of its file, without the ending.
    pub name: String,
    /// What it shows, for those who cannot see it and for the caption.
    pub caption: String,
    /// What stands in it, from the top down; most pictures hold one part.
    pub parts: Vec<Kind>,
}

/// A part of a picture.
#[derive(Debug, Clone)]
pub enum Kind {
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
    pub fn new(name: impl Into<String>, caption: impl Into<String>, part: impl Into<Kind>) -> Self {
        Self { name: name.into(), caption: caption.into(), parts: vec![part.into()] }
    }

    /// A picture that is drawn already.
    pub fn ready(name: &str, caption: &str, svg: String) -> Self {
        Self::new(name, caption, Kind::Ready(svg))
    }

    /// The drawing.
    ///
    /// # Errors
    /// [`DrawError::NotFinite`] where a number is infinite or not a number;
    /// [`DrawError::Plot`] where the library cannot draw.
    pub fn svg(&self) -> Result<String, DrawError> {
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

impl From<Shares> for Kind {
    fn from(shares: Shares) -> Self {
        Self::Shares(shares)
    }
}

impl From<Frames> for Kind {
    fn from(frames: Frames) -> Self {
        Self::Frames(frames)
    }
}

#[cfg(test)]
mod tests {
    use crate::{
        Axis, DrawError, Ends, Figure, Frame, Frames, INK, Lines, Mark, Panel, Pen, Series, Shape,
    };

    fn refused(figure: &Figure) -> bool {
        matches!(figure.svg(), Err(DrawError::NotFinite { .. }))
    }

    #[test]
    fn regress_message_of_a_picture() {
        let panel = Panel::new(
            Axis::new("", Ends::At(0.0, 1.0)),
            Axis::new("", Ends::At(0.0, f64::NAN)),
            vec![Series::line(vec![(0.0, 1.0)], Pen::series(0)).into()],
        );
        let refused = Figure::new("paths", "", Lines::one(panel)).svg().expect_err("refused");
        assert_eq!(
            refused.to_string(),
            "a number in the picture paths is NaN; a report holds finite numbers only"
        );
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
