use units::Length;

use crate::error::positive;
use crate::{Impact, TargetError};

/// A round vital zone about the point of aim.
///
/// The centre of the shaft must lie inside. Chosen: a zone is a part of an
/// animal, not a printed line that a shaft can touch.
///
/// Card: `docs/model/scoring.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    diameter: Length,
}

impl Zone {
    /// A round zone of this diameter.
    ///
    /// # Errors
    /// [`TargetError::NotPositive`] for a diameter not finite and above zero.
    pub fn round(diameter: Length) -> Result<Self, TargetError> {
        positive("the diameter of the zone", diameter.si())?;
        Ok(Self { diameter })
    }

    /// Diameter.
    pub fn diameter(&self) -> Length {
        self.diameter
    }

    /// Whether the centre of the shaft is inside the zone or on its edge. An
    /// impact that is not finite is no hit.
    pub fn hit(&self, impact: &Impact) -> bool {
        impact.radius() <= self.diameter.si() / 2.0
    }
}
