//! How far the string pushes.

use units::Length;

use crate::LaunchError;

/// Trade draw length beyond the distance from pivot to string: 1.75 in.
/// Defined [ata-draw].
pub const DRAW_BEYOND_PIVOT: Length = Length::from_si(1.75 * 0.0254);

/// Least power stroke, m. Chosen: one inch; below it the trade's draw length
/// is surely mistyped.
const LEAST_STROKE: f64 = 0.0254;

/// Distance over which the string pushes: from the nock at full draw to the
/// nock at brace.
///
/// # Errors
/// [`LaunchError::NoStroke`] when the string would hardly move.
pub fn power_stroke(draw_length: Length, brace_height: Length) -> Result<Length, LaunchError> {
    let stroke = draw_length.si() - DRAW_BEYOND_PIVOT.si() - brace_height.si();
    if stroke >= LEAST_STROKE {
        Ok(Length::from_si(stroke))
    } else {
        Err(LaunchError::NoStroke {
            draw_length: draw_length.si(),
            brace_height: brace_height.si(),
            stroke,
            least: LEAST_STROKE,
        })
    }
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::{DRAW_BEYOND_PIVOT, LEAST_STROKE, power_stroke};

    #[test]
    fn exact_the_stroke_ends_at_brace() {
        let (draw, brace) = (Length::from_si(0.74), Length::from_si(0.17));
        let stroke = power_stroke(draw, brace);
        let by_hand = 0.74 - DRAW_BEYOND_PIVOT.si() - 0.17;
        assert!(stroke.is_ok_and(|stroke| (stroke.si() - by_hand).abs() < 1e-15));
        let most = Length::from_si(0.74 - DRAW_BEYOND_PIVOT.si() - 0.99 * LEAST_STROKE);
        assert!(power_stroke(draw, most).is_err());
    }
}
