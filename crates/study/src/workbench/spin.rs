//! How much wobble a spin test may let pass. Model card: docs/model/pairing.md.

use units::{Angle, Length};
use workbench::Measured;

use super::aimed::AimedBow;
use super::predict::put;
use super::traits::{Trait, spun};
use crate::{Banded, StudyError};

/// Directions of a wobble, and how large it is when tried, m. Chosen: eight follow any
/// wave of a few cycles; two thousandths of an inch are what benches read.
const CLOCKS: u32 = 8;
const WOBBLE: f64 = 5e-5;

/// A wobble at which the archer's group grows by a share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SpinLimit {
    /// Of the tip or of the nock.
    pub of: Trait,
    /// The total reading, m; none where the archer has no spread or it moves nothing.
    pub total: Option<Banded>,
}

/// A wobble that was read, against its limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Spun {
    /// Name of the arrow.
    pub name: String,
    /// Of the tip or of the nock.
    pub of: Trait,
    /// The total reading, m.
    pub total: f64,
    /// Whether it passes; none where the limit's band leaves that open.
    pub passes: Option<bool>,
}

/// A wobble beyond this is a crooked or cracked part, whatever the group, m. Chosen: .010 in,
/// several times what square faces and straight shafts give.
pub const CROOKED: f64 = 2.54e-4;

/// The wobbles of finished arrows against their limits.
pub(super) fn judged(arrows: &[Measured], limits: &[SpinLimit]) -> Vec<Spun> {
    let one = |(arrow, limit): (&Measured, &SpinLimit)| {
        let total = spun(arrow, limit.of)?.total.si();
        let passes = match limit.total {
            _ if total > CROOKED => Some(false),
            None => Some(true),
            Some(limit) if total <= limit.low => Some(true),
            Some(limit) if total > limit.high => Some(false),
            Some(_) => None,
        };
        Some(Spun { name: arrow.name.clone(), of: limit.of, total, passes })
    };
    let finished = arrows.iter().filter(|arrow| arrow.stage.finished());
    finished.flat_map(|arrow| limits.iter().filter_map(move |limit| one((arrow, limit)))).collect()
}

/// The limits for a share of growth and the archer's own standard deviation, m.
pub(super) fn spin_limits(
    lane: &AimedBow,
    (share, sigma): (f64, f64),
) -> Result<Vec<SpinLimit>, StudyError> {
    let needed = sigma * (2.0 * ((1.0 + share).powi(2) - 1.0)).sqrt();
    let limit = |of: Trait| {
        let total = Length::from_si(WOBBLE);
        // A wobble that this arrow cannot have is refused before it is flown.
        put(&mut lane.base.clone(), of, total, Angle::ZERO)?;
        let ring = lane.ring(CLOCKS, |clock| {
            let mut setup = lane.base.clone();
            let _ = put(&mut setup, of, total, clock);
            setup
        })?;
        let found = needed / (ring[ring.len() - 1] / WOBBLE);
        let known = sigma > 0.0 && found.is_finite() && found < 1.0;
        Ok(SpinLimit { of, total: known.then(|| Banded::sure(found)) })
    };
    [Trait::Tip, Trait::Groove].into_iter().map(limit).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn law_a_wobble_passes_below_its_band_and_never_when_crooked() {
        let limit = |low: f64| SpinLimit {
            of: Trait::Tip,
            total: Some(Banded { value: 1.5 * low, low, high: 2.0 * low }),
        };
        let read = |mm: f64| {
            let total = Length::from_si(1e-3 * mm);
            let tip = Some(workbench::Spun { total, high: None });
            Measured { name: "1".into(), tip, ..Measured::default() }
        };
        let passes = |mm: f64, low: f64| judged(&[read(mm)], &[limit(low)])[0].passes;
        assert_eq!(passes(0.05, 1e-4), Some(true));
        assert_eq!(passes(0.15, 1e-4), None);
        assert_eq!(passes(0.21, 1e-4), Some(false));
        // Far within what the group shows, and crooked all the same.
        assert_eq!(passes(0.3, 1e-2), Some(false));
        assert!(judged(&[Measured::default()], &[limit(1e-4)]).is_empty());
    }
}
