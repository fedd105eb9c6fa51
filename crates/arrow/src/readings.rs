//! What a gauge reading on the bench says about a fault.

use units::{Angle, Length, Role};

use crate::ArrowError;
use crate::check::range::range;

/// A straightness figure. The trade prints both kinds, often without saying
/// which, so the user has to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Straightness {
    /// Total indicator reading: highest less lowest while the shaft turns.
    Total(Length),
    /// Plus or minus this much.
    PlusMinus(Length),
}

impl Straightness {
    /// Sideways bow in the middle of the span: half a total reading
    /// [ata-arr-203], or the plus-minus figure itself.
    pub fn bow(self) -> Length {
        match self {
            Self::Total(reading) => offset_from_run_out(reading),
            Self::PlusMinus(bow) => bow,
        }
    }
}

/// Offset of a section from the axis of turning: half the total indicator
/// reading [iso-1101].
pub fn offset_from_run_out(total: Length) -> Length {
    Length::from_si(total.si() / 2.0)
}

/// The bow (or its reading) over another span of the same constant curve:
/// times the square of the ratio of spans.
///
/// # Errors
/// [`ArrowError::OutOfRange`] if the bow or a span is out of range.
pub fn bow_on_span(bow: Length, span: Length, other: Length) -> Result<Length, ArrowError> {
    reading("bow", bow)?;
    usable("span of the reading", span)?;
    usable("other span", other)?;
    let ratio = other.si() / span.si();
    Ok(Length::from_si(bow.si() * ratio * ratio))
}

/// Slope of a constant curve at the ends of its span, relative to the chord:
/// 4 b / S.
///
/// # Errors
/// [`ArrowError::OutOfRange`] if the bow or the span is out of range.
pub fn bow_slope(bow: Length, span: Length) -> Result<Angle, ArrowError> {
    reading("bow", bow)?;
    usable("span of the reading", span)?;
    Ok(Angle::from_si((4.0 * bow.si() / span.si()).atan()))
}

/// Cant of a point from the total indicator reading at its tip while the
/// shaft turns true, if the point leans about the centre of its seat.
///
/// # Errors
/// [`ArrowError::OutOfRange`] if the reading or the length is out of range.
pub fn cant_from_tip(total: Length, seat_to_tip: Length) -> Result<Angle, ArrowError> {
    reading("run-out at the tip", total)?;
    usable("distance from seat to tip", seat_to_tip)?;
    Ok(Angle::from_si(offset_from_run_out(total).si().atan2(seat_to_tip.si())))
}

/// Angle of a face out of square from the gap under one edge.
///
/// # Errors
/// [`ArrowError::OutOfRange`] if the gap or the diameter is out of range.
pub fn face_from_gap(gap: Length, diameter: Length) -> Result<Angle, ArrowError> {
    reading("gap", gap)?;
    usable("diameter of the face", diameter)?;
    Ok(Angle::from_si(gap.si().atan2(diameter.si())))
}

/// Chosen: no gauge on a bench reads more than a tenth of a metre.
fn reading(what: &'static str, value: Length) -> Result<(), ArrowError> {
    range(what, Role::Gauge, value.si(), -0.1, 0.1)
}

/// Chosen: from a tenth of a millimetre to five metres, any bench there is.
fn usable(what: &'static str, length: Length) -> Result<(), ArrowError> {
    range(what, Role::Gauge, length.si(), 1e-4, 5.0)
}

#[cfg(test)]
mod tests {
    use super::{bow_on_span, bow_slope, face_from_gap, offset_from_run_out};
    use crate::ArrowError;
    use units::Length;

    #[test]
    fn exact_readings_on_the_bench() -> Result<(), ArrowError> {
        let mm = |value: f64| Length::from_si(value * 1e-3);
        assert!((offset_from_run_out(mm(0.1)).si() - 0.05e-3).abs() < 1e-18);
        // Twice the span, four times the bow.
        assert!((bow_on_span(mm(0.1), mm(350.0), mm(700.0))?.si() - 0.4e-3).abs() < 1e-15);
        // A parabola of bow b over S: slope 4 b / S at its ends.
        assert!((bow_slope(mm(1.0), mm(400.0))?.si() - 0.01).abs() < 1e-6);
        assert!((face_from_gap(mm(0.05), mm(6.2))?.si() - 0.05 / 6.2).abs() < 1e-6);
        assert!(face_from_gap(mm(200.0), mm(6.2)).is_err());
        Ok(())
    }
}
