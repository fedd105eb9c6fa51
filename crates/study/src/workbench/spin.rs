//! How much wobble a spin test may let pass. Model card: docs/model/pairing.md.

use units::{Angle, Length};

use super::aimed::{AimedBow, Unsure, bands};
use super::predict::put;
use super::traits::Trait;
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

/// The limits for a share of growth and the archer's own standard deviation, m.
pub(super) fn spin_limits(
    lane: &AimedBow,
    uncertain: &Unsure,
    (share, sigma): (f64, f64),
) -> Result<Vec<SpinLimit>, StudyError> {
    let needed = sigma * (2.0 * ((1.0 + share).powi(2) - 1.0)).sqrt();
    let limit = |of: Trait| {
        let read = |lane: &AimedBow| -> Result<Vec<f64>, StudyError> {
            let total = Length::from_si(WOBBLE);
            // A wobble that this arrow cannot have is refused before it is flown.
            put(&mut lane.base.clone(), of, total, Angle::ZERO)?;
            let ring = lane.ring(CLOCKS, |clock| {
                let mut setup = lane.base.clone();
                let _ = put(&mut setup, of, total, clock);
                setup
            })?;
            Ok(vec![needed / (ring[ring.len() - 1] / WOBBLE)])
        };
        let main = read(lane)?;
        let known = sigma > 0.0 && main[0].is_finite() && main[0] < 1.0;
        let total = if known { Some(bands(&main, uncertain, &read)?[0]) } else { None };
        Ok(SpinLimit { of, total })
    };
    [Trait::Tip, Trait::Groove].into_iter().map(limit).collect()
}
