use units::Length;

use crate::error::positive;
use crate::{Impact, TargetError};

/// A round or elliptical vital zone about the point of aim, level.
///
/// The centre of the shaft must lie inside. Chosen: a zone is a part of an
/// animal, not a printed line that a shaft can touch.
///
/// Card: `docs/model/scoring.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    width: Length,
    height: Length,
}

impl Zone {
    /// A round zone of this diameter.
    ///
    /// # Errors
    /// [`TargetError::NotPositive`] for a diameter not finite and above zero.
    pub fn round(diameter: Length) -> Result<Self, TargetError> {
        positive("the diameter of the zone", diameter.si())?;
        Ok(Self { width: diameter, height: diameter })
    }

    /// An elliptical zone of this width and height.
    ///
    /// # Errors
    /// [`TargetError::NotPositive`] for a size not finite and above zero.
    pub fn elliptical(width: Length, height: Length) -> Result<Self, TargetError> {
        positive("the width of the zone", width.si())?;
        positive("the height of the zone", height.si())?;
        Ok(Self { width, height })
    }

    /// Width.
    pub fn width(&self) -> Length {
        self.width
    }

    /// Height.
    pub fn height(&self) -> Length {
        self.height
    }

    /// Whether the centre of the shaft is inside the zone or on its edge. An
    /// impact that is not finite is no hit.
    pub fn hit(&self, impact: &Impact) -> bool {
        let (width, height) = (self.width.si(), self.height.si());
        // Stretched to a circle of the zone's width.
        impact.left.hypot(impact.up * (width / height)) <= width / 2.0
    }
}
