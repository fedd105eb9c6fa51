use solve::SolveError;
use units::Role;

/// Why a sight cannot be set. Lengths are in m, angles in rad.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum SightError {
    /// The eye is not at a finite height at or above the arrow.
    #[error("the eye stands {value} m above the arrow; it must be finite and not below zero")]
    Height {
        /// The height.
        value: f64,
    },
    /// The pin is not ahead of the eye.
    #[error("the pin stands {value} m ahead of the eye; it must be finite and above zero")]
    Radius {
        /// The radius.
        value: f64,
    },
    /// Too few points for a curve of launch angles.
    #[error("{points} launch angles are given; a curve needs at least {least}")]
    FewPoints {
        /// How many.
        points: usize,
        /// The fewest.
        least: usize,
    },
    /// A distance that is not finite, not above zero or not above the one
    /// before, or a launch angle that is not finite.
    #[error(
        "launch angle {index} is {launch} rad at {distance} m; distances must be above zero and rise, and all be finite"
    )]
    Point {
        /// Its index, from zero.
        index: usize,
        /// The distance.
        distance: f64,
        /// The launch angle.
        launch: f64,
    },
    /// A distance beyond the launch angles known.
    #[error(
        "{} is outside the marks, which run from {} to {}",
        Role::Range.both(*distance), Role::Range.both(*low), Role::Range.both(*high)
    )]
    Outside {
        /// The distance.
        distance: f64,
        /// The first distance known.
        low: f64,
        /// The last distance known.
        high: f64,
    },
    /// The marks are lower than any at the distances known.
    #[error(
        "a line of sight {:.2} deg below the arrow points farther than {}",
        depression.to_degrees(), Role::Range.both(*high)
    )]
    Beyond {
        /// The depression.
        depression: f64,
        /// The last distance known.
        high: f64,
    },
    /// A root could not be found.
    #[error("the distance of a mark was not found: {0}")]
    Root(#[from] SolveError),
}
