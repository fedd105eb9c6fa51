use units::Length;

use crate::SightError;

/// Where eye and pin are, seen from the arrow at full draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Geometry {
    height: f64,
    radius: f64,
}

impl Geometry {
    /// An eye this far above the arrow, and a pin this far ahead of the eye.
    ///
    /// # Errors
    /// [`SightError::Height`], [`SightError::Radius`].
    pub fn new(height: Length, radius: Length) -> Result<Self, SightError> {
        let (height, radius) = (height.si(), radius.si());
        if !(height.is_finite() && height >= 0.0) {
            return Err(SightError::Height { value: height });
        }
        if !(radius.is_finite() && radius > 0.0) {
            return Err(SightError::Radius { value: radius });
        }
        Ok(Self { height, radius })
    }

    /// Eye above the arrow, m.
    pub fn height(&self) -> f64 {
        self.height
    }

    /// Eye to pin along the arrow, m.
    pub fn radius(&self) -> f64 {
        self.radius
    }

    /// How far the line of sight to a target dips below the arrow's line, rad:
    /// the arrow leaves `launch` rad above the line to a target `distance` m
    /// away.
    ///
    /// Seen along the arrow, the target lies `d cos a` ahead and `d sin a`
    /// below, and the eye `height` above.
    pub fn depression(&self, launch: f64, distance: f64) -> f64 {
        let (sin, cos) = launch.sin_cos();
        (self.height + distance * sin).atan2(distance * cos)
    }

    /// The launch angle, rad, with which a pin of this depression is held on a
    /// target `distance` m away: [`depression`](Self::depression) turned round.
    /// Not a number where the target is nearer than the eye is high.
    pub fn launch(&self, depression: f64, distance: f64) -> f64 {
        depression - (self.height * depression.cos() / distance).asin()
    }

    /// Height of the pin above the arrow, m, for a depression; below zero the
    /// pin stands under the arrow.
    pub fn pin(&self, depression: f64) -> f64 {
        self.height - self.radius * depression.tan()
    }

    /// The depression of a pin at a height above the arrow, rad.
    pub fn depression_of(&self, pin: f64) -> f64 {
        ((self.height - pin) / self.radius).atan()
    }

    /// Where the line of sight of a pin stands above the line to the target,
    /// m, at a distance `at` along it.
    ///
    /// At the target this is the hold: how far above it the pin must be held
    /// for the arrow to meet it.
    pub fn line(&self, launch: f64, depression: f64, at: f64) -> f64 {
        let (sin, cos) = launch.sin_cos();
        self.height * cos + (at + self.height * sin) * (launch - depression).tan()
    }
}

#[cfg(test)]
mod tests {
    use units::Length;

    use super::Geometry;
    use crate::SightError;

    fn geometry() -> Result<Geometry, SightError> {
        Geometry::new(Length::from_si(0.12), Length::from_si(0.85))
    }

    #[test]
    fn exact_depression_and_launch_undo_each_other() -> Result<(), SightError> {
        let eye = geometry()?;
        for distance in [5.0, 18.0, 90.0] {
            let down = eye.depression(0.02, distance);
            assert!((eye.launch(down, distance) - 0.02).abs() < 1e-14);
            assert!((eye.depression_of(eye.pin(down)) - down).abs() < 1e-14);
        }
        Ok(())
    }

    /// Held on the target it was set for, the line of sight meets it.
    #[test]
    fn law_the_line_of_sight_meets_the_target() -> Result<(), SightError> {
        let eye = geometry()?;
        for distance in [5.0, 18.0, 90.0] {
            let hold = eye.line(0.02, eye.depression(0.02, distance), distance);
            assert!(hold.abs() < 1e-13, "{hold}");
        }
        Ok(())
    }
}
