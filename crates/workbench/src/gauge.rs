use arrow::{cant_from_tip, face_from_gap, offset_from_run_out};
use units::{Angle, Length, Role};

use crate::WorkbenchError;
use crate::error::range;

/// The narrowest gap through which light is seen against a lamp, m. Common
/// practice, no source: a ten thousandth of an inch.
pub const LIGHT: Length = Length::from_si(2.54e-6);

/// What a person read from an end face or a part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Gauge {
    /// A square across the face: the thickest leaf that goes under one edge.
    Leaf {
        /// That leaf.
        gap: Length,
        /// How much thicker the next leaf is, which does not go.
        step: Length,
        /// How far apart high edge and gap are: the face's diameter.
        across: Length,
    },
    /// A square across the face against a lamp.
    Light {
        /// Whether light shows at one edge.
        seen: bool,
        /// The thinnest leaf at hand, which does not go.
        refused: Length,
        /// The face's diameter.
        across: Length,
    },
    /// An indicator on the end face while the shaft turns against a stop.
    Dial {
        /// Highest less lowest reading.
        total: Length,
        /// Smallest step of the indicator.
        step: Length,
        /// The indicator's distance from the shaft's axis.
        radius: Length,
    },
    /// An indicator at the tip while the shaft turns true.
    Wobble {
        /// Highest less lowest reading.
        total: Length,
        /// Smallest step of the indicator.
        step: Length,
        /// From the part's seat to where it was read.
        ahead: Length,
    },
    /// Ink on the whole face, sanded until the last of it goes.
    Strokes {
        /// Strokes or turns that it took.
        count: u32,
        /// What one takes off, from many of them and the change of length.
        depth: Length,
        /// How well that is known: half its range.
        depth_give: Length,
        /// The face's diameter.
        across: Length,
    },
}

/// A number read from a gauge and the range that the gauge leaves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// The number.
    pub value: f64,
    /// The least it can be.
    pub low: f64,
    /// The most it can be.
    pub high: f64,
}

impl Gauge {
    /// The angle of the face out of square, or of the part out of line, rad.
    ///
    /// # Errors
    /// [`WorkbenchError`] for a reading that no gauge on a bench gives.
    pub fn angle(&self) -> Result<Span, WorkbenchError> {
        let face = |gap: f64, across: Length| -> Result<f64, WorkbenchError> {
            Ok(face_from_gap(Length::from_si(gap), across)?.si())
        };
        let (value, low, high) = match *self {
            Self::Leaf { gap, step, across } => {
                let (gap, step) = (length("gap", gap)?, length("leaf's step", step)?);
                (face(gap, across)?, face(gap, across)?, face(gap + step, across)?)
            }
            Self::Light { seen, refused, across } => {
                let leaf = length("leaf that does not go", refused)?.max(LIGHT.si());
                let (least, most) = if seen { (LIGHT.si(), leaf) } else { (0.0, LIGHT.si()) };
                (
                    face(f64::midpoint(least, most), across)?,
                    face(least, across)?,
                    face(most, across)?,
                )
            }
            Self::Dial { total, step, radius } => {
                let (total, step) = (length("run-out", total)?, length("indicator's step", step)?);
                let across = Length::from_si(2.0 * radius.si());
                (
                    face(total, across)?,
                    face((total - step).max(0.0), across)?,
                    face(total + step, across)?,
                )
            }
            Self::Wobble { total, step, ahead } => {
                let (total, step) = (length("wobble", total)?, length("indicator's step", step)?);
                let cant = |total: f64| -> Result<f64, WorkbenchError> {
                    Ok(cant_from_tip(Length::from_si(total), ahead)?.si())
                };
                (cant(total)?, cant((total - step).max(0.0))?, cant(total + step)?)
            }
            Self::Strokes { count, depth, depth_give, across } => {
                let (depth, give) =
                    (length("depth of a stroke", depth)?, length("its range", depth_give)?);
                let count = range("number of strokes", Role::Number, count.into(), 0.0, 1e4)?;
                // The ink went somewhere within the last stroke.
                let from = (count - 1.0).max(0.0);
                (
                    face(f64::midpoint(from, count) * depth, across)?,
                    face(from * (depth - give).max(0.0), across)?,
                    face(count * (depth + give), across)?,
                )
            }
        };
        Ok(Span { value, low, high })
    }

    /// How far the part's centre lies off the axis where the indicator reads,
    /// m: half the total reading [iso-1101]. None for the other gauges.
    pub fn offset(&self) -> Option<Span> {
        let Self::Wobble { total, step, .. } = *self else { return None };
        let half = |total: f64| offset_from_run_out(Length::from_si(total)).si();
        Some(Span {
            value: half(total.si()),
            low: half((total.si() - step.si()).max(0.0)),
            high: half(total.si() + step.si()),
        })
    }
}

/// How far a part out of line by `angle` lies off centre this far ahead of its
/// seat.
pub fn off_axis(angle: Angle, ahead: Length) -> Length {
    Length::from_si(ahead.si() * angle.si().tan())
}

/// Chosen: no gauge on a bench reads more than a centimetre.
fn length(what: &'static str, value: Length) -> Result<f64, WorkbenchError> {
    range(what, Role::Gauge, value.si(), 0.0, 0.01)
}
