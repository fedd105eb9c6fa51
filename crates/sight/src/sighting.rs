use solve::root;

use crate::{Geometry, Launches, SightError};

/// How closely distances are found, m. Chosen: far finer than anyone dials.
const CLOSE: f64 = 1e-6;
/// The golden ratio less one, which shares out a search.
const GOLDEN: f64 = 0.618_033_988_749_894_9;

/// A sight on a bow with one arrow: marks from distances, distances from marks.
#[derive(Debug, Clone, PartialEq)]
pub struct Sighting {
    geometry: Geometry,
    launches: Launches,
    /// Distance of the highest mark, m, and its depression, rad.
    top: (f64, f64),
}

/// What to dial for a line of sight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Dial {
    /// The mark of this distance, m.
    Mark(f64),
    /// No mark is as high; the highest is that of this distance, m.
    AboveAll(f64),
}

impl Sighting {
    /// From where eye and pin are, and how the arrow must leave.
    ///
    /// # Errors
    /// [`SightError`].
    pub fn new(geometry: Geometry, launches: Launches) -> Result<Self, SightError> {
        let mut sighting = Self { geometry, launches, top: (0.0, 0.0) };
        let at = sighting.highest()?;
        sighting.top = (at, sighting.depression(at)?);
        Ok(sighting)
    }

    /// Where eye and pin are.
    pub fn geometry(&self) -> &Geometry {
        &self.geometry
    }

    /// How the arrow must leave.
    pub fn launches(&self) -> &Launches {
        &self.launches
    }

    /// The distance of the highest mark, m. Nearer than that the eye's height
    /// above the arrow counts for more than the drop, and marks fall again:
    /// each is then also the mark of a farther distance.
    pub fn top(&self) -> f64 {
        self.top.0
    }

    /// How far the line of sight dips below the arrow, rad, for a distance, m.
    ///
    /// # Errors
    /// [`SightError::Outside`].
    pub fn depression(&self, distance: f64) -> Result<f64, SightError> {
        Ok(self.geometry.depression(self.launches.at(distance)?, distance))
    }

    /// Height of the pin above the arrow, m, for a distance, m.
    ///
    /// # Errors
    /// [`SightError::Outside`].
    pub fn pin(&self, distance: f64) -> Result<f64, SightError> {
        Ok(self.geometry.pin(self.depression(distance)?))
    }

    /// How far the pin goes down from the mark of one distance to that of
    /// another, m.
    ///
    /// # Errors
    /// [`SightError::Outside`].
    pub fn travel(&self, from: f64, to: f64) -> Result<f64, SightError> {
        Ok(self.pin(from)? - self.pin(to)?)
    }

    /// What to dial for a depression, rad: the farther of the two distances
    /// where a mark has two.
    ///
    /// # Errors
    /// [`SightError::Beyond`] past the farthest mark.
    pub fn dial(&self, depression: f64) -> Result<Dial, SightError> {
        let (near, least) = self.top;
        let (_, high) = self.launches.range();
        if depression < least {
            return Ok(Dial::AboveAll(near));
        }
        if depression > self.depression(high)? {
            return Err(SightError::Beyond { depression, high });
        }
        Ok(Dial::Mark(self.between(near, high, depression)?))
    }

    /// The other distance, m, that has the same mark as this one, if it lies
    /// among those known.
    ///
    /// # Errors
    /// [`SightError::Outside`].
    pub fn twin(&self, distance: f64) -> Result<Option<f64>, SightError> {
        let (top, _) = self.top;
        let (low, high) = self.launches.range();
        let depression = self.depression(distance)?;
        let (inner, outer) = if distance > top { (low, top) } else { (top, high) };
        let end = if distance > top { low } else { high };
        if self.depression(end)? < depression {
            return Ok(None);
        }
        self.between(inner, outer, depression).map(Some)
    }

    /// The distance with this depression between two that enclose it.
    fn between(&self, low: f64, high: f64, depression: f64) -> Result<f64, SightError> {
        let mut failed = None;
        let past = |distance| match self.depression(distance) {
            Ok(here) => here - depression,
            Err(error) => {
                failed.get_or_insert(error);
                f64::NAN
            }
        };
        let found = root(past, low, high, CLOSE);
        match failed {
            Some(error) => Err(error),
            None => Ok(found?),
        }
    }

    /// Searches the distance of the least depression: the points first, then
    /// golden sections about the best.
    fn highest(&self) -> Result<f64, SightError> {
        let points = self.launches.points();
        let at = |&(distance, launch): &(f64, f64)| self.geometry.depression(launch, distance);
        let least = (0..points.len())
            .min_by(|a, b| at(&points[*a]).total_cmp(&at(&points[*b])))
            .unwrap_or_default();
        let mut low = points[least.saturating_sub(1)].0;
        let mut high = points[(least + 1).min(points.len() - 1)].0;
        while high - low > CLOSE {
            let inner = (high - GOLDEN * (high - low), low + GOLDEN * (high - low));
            if self.depression(inner.0)? <= self.depression(inner.1)? {
                high = inner.1;
            } else {
                low = inner.0;
            }
        }
        Ok(0.5 * (low + high))
    }
}
