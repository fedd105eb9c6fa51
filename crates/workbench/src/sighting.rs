use std::f64::consts::FRAC_PI_2;

use body::Across;

/// How far a person sets the high side wrong, rad. Chosen: 10 degrees, one standard
/// deviation.
const HIGH_SIDE: f64 = 0.1745;

/// How far the axis lies off the line through two supports, in one direction.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sighting {
    /// Where it was read, m from the nock end.
    pub station: f64,
    /// Where the shaft lay, m from the nock end.
    pub supports: [f64; 2],
    /// The direction: a vector of size one.
    pub toward: Across,
    /// The offset, m.
    pub off: f64,
    /// Standard error of the offset, m.
    pub noise: f64,
    /// Whether the shaft did not turn: zero and sag are in the reading.
    pub still: bool,
}

/// A total reading with its high side, as offsets toward it and across it.
pub(crate) fn total_seen(
    station: f64,
    supports: [f64; 2],
    total: f64,
    clock: f64,
    noise: f64,
) -> [Sighting; 2] {
    // Half of the difference of two readings.
    let half = noise * 0.5_f64.sqrt();
    let one = |toward, off, noise| Sighting { station, supports, toward, off, noise, still: false };
    let across = half.hypot(total / 2.0 * HIGH_SIDE);
    [
        one(Across::polar(1.0, clock), total / 2.0, half),
        one(Across::polar(1.0, clock + FRAC_PI_2), 0.0, across),
    ]
}
