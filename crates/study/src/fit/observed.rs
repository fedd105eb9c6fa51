use units::{Length, Speed};

/// Error of a chronograph over its reading. Chosen: what the trade says of
/// common ones; common practice, no source.
const SPEED_ERROR: f64 = 0.005;
/// Error of a sight mark, m. Chosen: half a line of a scale and a few good
/// groups.
const MARK_ERROR: f64 = 0.25e-3;
/// Error of a group's height over its distance. Chosen: 25 mm at 50 m, the
/// centre of a few careful arrows.
const IMPACT_ERROR: f64 = 0.5e-3;

/// One thing that was seen when shooting.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Observed {
    /// Its line in the file it comes from.
    pub line: usize,
    /// At which distance from the bow.
    pub distance: Length,
    /// What was seen there.
    pub what: What,
    /// Its standard error, SI, if stated.
    pub error: Option<f64>,
}

/// What was seen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum What {
    /// A chronograph's reading.
    Speed(Speed),
    /// What the sight's scale reads when the arrow hits the mark.
    Mark(Length),
    /// How far on the sight the pin of this distance lies from another pin.
    Gap {
        /// The distance of the other pin.
        pin: Length,
        /// Between the two.
        gap: Length,
    },
    /// Where the arrow hits when the mark is held with a pin for another
    /// distance.
    Impact {
        /// The distance of the pin.
        pin: Length,
        /// Above the mark.
        up: Length,
    },
}

impl What {
    /// The number, SI.
    pub fn si(&self) -> f64 {
        match self {
            Self::Speed(speed) => speed.si(),
            Self::Mark(mark) => mark.si(),
            Self::Gap { gap, .. } => gap.si(),
            Self::Impact { up, .. } => up.si(),
        }
    }
}

impl Observed {
    /// Its standard error, SI: as stated, or the usual one.
    pub fn sigma(&self) -> f64 {
        self.error.unwrap_or_else(|| match self.what {
            What::Speed(speed) => SPEED_ERROR * speed.si(),
            What::Mark(_) => MARK_ERROR,
            // Two pins, each with its own error.
            What::Gap { .. } => std::f64::consts::SQRT_2 * MARK_ERROR,
            What::Impact { .. } => IMPACT_ERROR * self.distance.si(),
        })
    }
}

/// A value that can be sought.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sought {
    /// Departure speed.
    Speed,
    /// Drag coefficient on the frontal area, the same at every speed.
    Drag,
    /// Eye to pin along the arrow.
    Radius,
    /// Eye above the arrow.
    Height,
}

impl Sought {
    /// Its name in a sentence.
    pub fn name(self) -> &'static str {
        match self {
            Self::Speed => "departure speed",
            Self::Drag => "drag coefficient",
            Self::Radius => "sight radius",
            Self::Height => "eye height",
        }
    }
}
