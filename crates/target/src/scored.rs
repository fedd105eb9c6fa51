//! What the score of a round says of the archer.

use units::Length;

use crate::{Estimate, Face, Scores, TargetError, expected_score};

/// Standard normal quantile of 97.5 %.
const TWO_SIDED: f64 = 1.959_963_984_540_054;

/// Halvings of the bracket of sigma. Chosen: down to rounding.
const HALVINGS: u32 = 80;

/// Sigma per axis, m, of a circular normal group about the centre of the face that
/// is expected to shoot this score, with the 95 % interval of the round's chance: the
/// sigmas that would be expected to shoot 1.96 standard deviations of such a round
/// more, and less.
///
/// A group off the centre scores less, so the interval leans to the wide side where
/// the sight was not set.
///
/// Card: `docs/model/scoring.md`.
///
/// # Errors
/// [`TargetError::NoSigma`] for no point or full points; as for [`expected_score`].
pub fn sigma_of_score(
    points: u32,
    arrows: u32,
    face: &Face,
    shaft: Length,
) -> Result<Estimate, TargetError> {
    let full = 10 * arrows;
    if points == 0 || points >= full {
        return Err(TargetError::NoSigma { points, arrows, full });
    }
    let (n, total) = (f64::from(arrows), f64::from(points));
    let value = sigma(total / n, face, shaft)?;
    let deviation = Scores::of(value, face, shaft)?.round(1).deviation() * n.sqrt();
    // Half a point stays above none and below all.
    let bound = |total: f64| total.clamp(0.5, f64::from(full) - 0.5) / n;
    Ok(Estimate {
        value,
        low: sigma(bound(total + TWO_SIDED * deviation), face, shaft)?,
        high: sigma(bound(total - TWO_SIDED * deviation), face, shaft)?,
    })
}

/// The sigma that is expected to score so much an arrow.
fn sigma(score: f64, face: &Face, shaft: Length) -> Result<f64, TargetError> {
    // From a group that is all tens to one that is nearly all misses.
    let (mut low, mut high) = (1e-4 * face.diameter().si(), 100.0 * face.diameter().si());
    for _ in 0..HALVINGS {
        let mid = (low * high).sqrt();
        if expected_score(mid, face, shaft)? > score {
            low = mid;
        } else {
            high = mid;
        }
    }
    Ok(high)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 72 arrows, 122 cm face, sigma 107 mm, shaft 5.5 mm: 600.857 expected
    /// [park-tuning pairs 600 with 107 mm; R].
    #[test]
    fn published_600_of_720_is_107_mm() -> Result<(), TargetError> {
        let face = Face::ten_ring(Length::from_si(1.22), false)?;
        let shaft = Length::from_si(0.0055);
        let of = sigma_of_score(601, 72, &face, shaft)?;
        assert!((of.value - 0.107).abs() < 1e-4, "{of:?}");
        assert!(of.low < of.value && of.value < of.high);
        assert!((expected_score(of.value, &face, shaft)? * 72.0 - 601.0).abs() < 1e-6);
        assert!(sigma_of_score(0, 72, &face, shaft).is_err());
        assert!(sigma_of_score(720, 72, &face, shaft).is_err());
        Ok(())
    }
}
