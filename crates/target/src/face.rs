use units::Length;

use crate::error::positive;
use crate::{Impact, TargetError};

/// What the rings score, from the outermost.
const SCORES: [u8; 10] = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

/// Radius of the compound inner ten over that of the full ten ring
/// [wa-faces]: 2 cm against 4 cm on the 40 cm face.
const INNER_TEN: f64 = 0.5;

/// A scoring line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ring {
    /// What an arrow scores that touches the line or lies inside it.
    pub score: u8,
    /// Radius of the line.
    pub radius: Length,
}

/// A face of ten rings of even width [wa-faces].
///
/// Card: `docs/model/scoring.md`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Face {
    diameter: Length,
    rings: [Ring; SCORES.len()],
}

impl Face {
    /// A face of this outer diameter, such as 122, 80 or 40 cm.
    ///
    /// With `inner_ten` only the compound inner ten, half the size of the ten
    /// ring, scores 10, and the rest of the ten ring scores 9.
    ///
    /// # Errors
    /// [`TargetError::NotPositive`] for a diameter not finite and above zero.
    pub fn ten_ring(diameter: Length, inner_ten: bool) -> Result<Self, TargetError> {
        let outer = positive("the diameter of the face", diameter.si())? / 2.0;
        let rings = SCORES.map(|score| {
            let even = outer * f64::from(11 - score) / 10.0;
            let radius = if inner_ten && score == 10 { even * INNER_TEN } else { even };
            Ring { score, radius: Length::from_si(radius) }
        });
        Ok(Self { diameter, rings })
    }

    /// Outer diameter.
    pub fn diameter(&self) -> Length {
        self.diameter
    }

    /// The scoring lines, from the outermost, which scores 1.
    pub fn rings(&self) -> &[Ring] {
        &self.rings
    }

    /// The score of an impact about the centre of the face; 0 for a miss.
    ///
    /// A touched line scores the higher: a shaft of outside diameter `shaft`
    /// reaches a line of radius `R` when its centre is within `R + shaft / 2`.
    /// An impact that is not finite is a miss.
    pub fn score(&self, impact: &Impact, shaft: Length) -> u8 {
        let radius = impact.radius();
        let reach = shaft.si() / 2.0;
        let touched = self.rings.iter().rev().find(|ring| radius <= ring.radius.si() + reach);
        touched.map_or(0, |ring| ring.score)
    }
}
