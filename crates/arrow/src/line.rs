use body::Across;

use crate::{Bend, Layout};

/// A straight line close to the shaft: `offset + slope * (x - station)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Station, m from the bottom of the nock groove.
    pub station: f64,
    /// Where the line is at that station, m.
    pub offset: Across,
    /// Its slope toward the point, rad.
    pub slope: Across,
}

impl Line {
    /// Where the line is at station `x`, m.
    pub fn at(&self, x: f64) -> Across {
        self.offset + self.slope * (x - self.station)
    }
}

/// The centre line of the shaft: a parabola, straight without a bend.
///
/// It is measured from its own tangent in the middle of the shaft. Any other
/// straight line would do: effects are relative to the principal axis.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CentreLine {
    /// Station of the shaft's middle, m.
    pub middle: f64,
    length: f64,
    /// Curvature, 1/m, toward the side on which the shaft is hollow.
    pub curvature: Across,
}

impl CentreLine {
    pub(crate) fn new(layout: &Layout, bend: Option<&Bend>) -> Self {
        let (rear, front) = (layout.shaft_rear.si(), layout.shaft_front.si());
        let curvature = bend.map_or(Across::ZERO, |bend| {
            let span = bend.span.si();
            // A bow b over a span S of constant curvature: k = 8 b / S^2.
            Across::polar(-8.0 * bend.bow.si() / (span * span), bend.clock.si())
        });
        Self { middle: f64::midpoint(rear, front), length: front - rear, curvature }
    }

    /// The tangent at station `x`.
    pub fn tangent(&self, x: f64) -> Line {
        let ahead = x - self.middle;
        Line {
            station: x,
            offset: self.curvature * (ahead * ahead / 2.0),
            slope: self.curvature * ahead,
        }
    }

    /// The straight line that the centre line follows on average.
    pub(crate) fn mean(&self) -> Line {
        Line {
            station: self.middle,
            offset: self.curvature * (self.length * self.length / 24.0),
            slope: Across::ZERO,
        }
    }
}
