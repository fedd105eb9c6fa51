use crate::SightError;

/// Fewest points: a cubic has four.
const LEAST: usize = 4;

/// Launch angles at rising distances, cubic between.
///
/// Between two points runs the cubic through the four nearest. With points a
/// few metres apart its error is far below what a sight resolves; a test holds
/// it.
#[derive(Debug, Clone, PartialEq)]
pub struct Launches {
    points: Vec<(f64, f64)>,
}

impl Launches {
    /// From distances, m, strictly rising, and launch angles above the line to
    /// the target there, rad.
    ///
    /// # Errors
    /// [`SightError::FewPoints`] below four; [`SightError::Point`] names the
    /// first that is not finite or does not rise.
    pub fn new(points: Vec<(f64, f64)>) -> Result<Self, SightError> {
        if points.len() < LEAST {
            return Err(SightError::FewPoints { points: points.len(), least: LEAST });
        }
        let mut before = 0.0;
        for (index, &(distance, launch)) in points.iter().enumerate() {
            if !(distance.is_finite() && launch.is_finite() && distance > before) {
                return Err(SightError::Point { index, distance, launch });
            }
            before = distance;
        }
        Ok(Self { points })
    }

    /// The first and the last distance, m.
    pub fn range(&self) -> (f64, f64) {
        (self.points[0].0, self.points[self.points.len() - 1].0)
    }

    /// The distances, m, and launch angles, rad.
    pub fn points(&self) -> &[(f64, f64)] {
        &self.points
    }

    /// The launch angle at a distance, rad.
    ///
    /// # Errors
    /// [`SightError::Outside`] beyond the points, and for a distance that is
    /// not a number.
    pub fn at(&self, distance: f64) -> Result<f64, SightError> {
        let (low, high) = self.range();
        if !(low..=high).contains(&distance) {
            return Err(SightError::Outside { distance, low, high });
        }
        let next = self.points.partition_point(|point| point.0 <= distance);
        let first = next.saturating_sub(LEAST / 2).min(self.points.len() - LEAST);
        let near = &self.points[first..first + LEAST];
        // Lagrange's form.
        let weight = |own: usize| {
            let others = near.iter().enumerate().filter(|(index, _)| *index != own);
            let share =
                |(_, other): (usize, &(f64, f64))| (distance - other.0) / (near[own].0 - other.0);
            others.map(share).product::<f64>()
        };
        Ok(near.iter().enumerate().map(|(own, point)| point.1 * weight(own)).sum())
    }
}
