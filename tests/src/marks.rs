//! Plans for sight marks.

use study::MarksPlan;
use units::{Angle, Length, Speed};

/// Lengths in m.
pub fn lengths(values: &[f64]) -> Vec<Length> {
    values.iter().map(|value| Length::from_si(*value)).collect()
}

/// Marks every 10 m from 10 to 60 m, pins at 20, 30 and 40 m, slopes of 15, 30
/// and 45 degrees, a crosswind of 2 m/s, nothing changed and nothing in the
/// way.
pub fn plan() -> MarksPlan {
    MarksPlan {
        build: String::new(),
        distances: lengths(&[10.0, 20.0, 30.0, 40.0, 50.0, 60.0]),
        places: lengths(&[20.0, 40.0, 60.0]),
        pins: lengths(&[20.0, 30.0, 40.0]),
        click: None,
        crosswind: Speed::from_si(2.0),
        slopes: [15.0_f64, 30.0, 45.0].map(|s| Angle::from_si(s.to_radians())).to_vec(),
        changes: Vec::new(),
        twigs: Vec::new(),
        bare: false,
    }
}
