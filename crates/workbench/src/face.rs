use body::Across;
use units::{Angle, Length, Role};

use crate::error::range;
use crate::{Harmonic, WorkbenchError, harmonic};

/// An end face from indicator readings round the clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndFace {
    /// Angle out of square.
    pub angle: Angle,
    /// Clock position of the high side.
    pub clock: Angle,
    /// Standard error of the angle, rad; none with three readings.
    pub error: Option<f64>,
    /// The wave behind it.
    pub wave: Harmonic,
}

/// The face from readings (clock position of the indicator, height of the face
/// there) at this radius, the shaft turning against a stop.
///
/// # Errors
/// [`WorkbenchError::Clocks`], or [`WorkbenchError::OutOfRange`] for a radius
/// that no shaft has.
pub fn face(readings: &[(Angle, Length)], radius: Length) -> Result<EndFace, WorkbenchError> {
    let radius = range("radius of the reading", Role::Gauge, radius.si(), 2e-4, 0.05)?;
    let pairs: Vec<(f64, f64)> = readings.iter().map(|(c, y)| (c.si(), y.si())).collect();
    let wave = harmonic(&pairs)?;
    let clock = wave.wave.clock();
    Ok(EndFace {
        angle: Angle::from_si(wave.wave.size().atan2(radius)),
        clock: Angle::from_si(clock),
        error: (wave.freedom > 0)
            .then(|| wave.error(wave.noise, Across::polar(1.0, clock)) / radius),
        wave,
    })
}

/// An end is left as it is up to this angle: 0.1 degrees. Chosen: twice what a squaring
/// jig is taken to leave.
pub const KEEP: Angle = Angle::from_si(0.1 * std::f64::consts::PI / 180.0);
/// An end is rejected above this angle: 1 degree. Chosen: far beyond what a saw leaves,
/// so rather a cracked or crushed end.
pub const REJECT: Angle = Angle::from_si(std::f64::consts::PI / 180.0);

/// What to do with an end.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FaceVerdict {
    /// Square enough.
    AsIs,
    /// To be squared.
    Square,
    /// Not an end to work on.
    Reject,
}

impl FaceVerdict {
    /// Of an angle out of square, by the limits of keeping and of rejecting.
    pub fn of(angle: Angle, keep: Angle, reject: Angle) -> Self {
        if angle <= keep {
            Self::AsIs
        } else if angle <= reject {
            Self::Square
        } else {
            Self::Reject
        }
    }
}
