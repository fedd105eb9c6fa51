use units::{Length, Role};

use crate::axis::FULL_SPAN;
use crate::error::range;
use crate::sighting::total_seen;
use crate::{Gauged, Sighting, Spun, WorkbenchError};

/// Up to three total readings of a shaft: in the middle of a 28 in span, and at each
/// very end with the rollers set in.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ThreeReadings {
    /// In the middle of 28 in, or of the whole shaft where that is shorter; not
    /// carried over.
    pub middle: Option<Spun>,
    /// At the nock end.
    pub nock_end: Option<Spun>,
    /// At the point end.
    pub point_end: Option<Spun>,
}

impl ThreeReadings {
    /// What they say of the axis. The rollers stand `set_in` from each end for the
    /// readings at the ends; `step` is the indicator's smallest step.
    ///
    /// The direction of a reading that stands alone means nothing, so it needs no
    /// high side.
    ///
    /// # Errors
    /// [`WorkbenchError::NoHighSide`] for two readings or three of which one has no
    /// high side; [`WorkbenchError::Unsound`] for one that no sound shaft gives;
    /// [`WorkbenchError::OutOfRange`], [`WorkbenchError::Supports`].
    pub fn sightings(
        &self,
        stock: Length,
        set_in: Length,
        step: Length,
    ) -> Result<Vec<Sighting>, WorkbenchError> {
        let stock = range("length of the shaft", Role::Part, stock.si(), 0.05, 2.0)?;
        let noise = range("indicator's step", Role::Gauge, step.si(), 0.0, 0.01)? / 12_f64.sqrt();
        let set_in = set_in.si();
        let half = FULL_SPAN.si().min(stock) / 2.0;
        let middle = [stock / 2.0 - half, stock / 2.0 + half];
        let ends = [set_in, stock - set_in];
        if self.nock_end.or(self.point_end).is_some() && !(set_in > 0.0 && ends[1] - ends[0] > 0.01)
        {
            return Err(WorkbenchError::Supports { rear: ends[0], front: ends[1], stock });
        }
        let all = [
            (self.middle, stock / 2.0, middle, Gauged::Middle),
            (self.nock_end, 0.0, ends, Gauged::End),
            (self.point_end, stock, ends, Gauged::End),
        ];
        let given = all.iter().filter(|one| one.0.is_some()).count();
        let mut seen = Vec::new();
        for (spun, station, supports, of) in all {
            let Some(Spun { total, high }) = spun else { continue };
            let total = of.sound(range("run-out", Role::Gauge, total.si(), 0.0, 0.1)?)?;
            let clock = match high {
                Some(clock) => range("clock position", Role::Angle, clock.si(), -100.0, 100.0)?,
                None if given > 1 => return Err(WorkbenchError::NoHighSide),
                None => 0.0,
            };
            seen.extend(total_seen(station, supports, total, clock, noise));
        }
        Ok(seen)
    }
}

#[cfg(test)]
mod tests {
    use units::Angle;

    use super::*;

    #[test]
    fn law_two_readings_need_their_high_sides() {
        let spun = |high: Option<f64>| {
            Some(Spun { total: Length::from_si(1e-4), high: high.map(Angle::from_si) })
        };
        let (stock, set_in) = (Length::from_si(0.8), Length::from_si(0.07));
        let two = ThreeReadings { middle: spun(Some(1.0)), nock_end: spun(None), point_end: None };
        assert_eq!(two.sightings(stock, set_in, Length::ZERO), Err(WorkbenchError::NoHighSide));
        let one = ThreeReadings { nock_end: None, middle: spun(None), point_end: None };
        assert_eq!(one.sightings(stock, set_in, Length::ZERO).map(|s| s.len()), Ok(2));
    }
}
