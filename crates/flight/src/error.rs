use crate::aero::AeroError;
use solve::SolveError;

/// Why a flight cannot be computed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FlightError {
    /// A condition lies outside the range in which its model holds.
    #[error("{what} is {value}{unit}; it must lie between {low} and {high}{unit}")]
    OutOfRange {
        /// Which condition.
        what: &'static str,
        /// Its value, SI.
        value: f64,
        /// Least allowed value.
        low: f64,
        /// Greatest allowed value.
        high: f64,
        /// SI unit after a space; empty for a pure number.
        unit: &'static str,
    },
    /// The starting state holds a number that is not finite, or does not move
    /// toward the target.
    #[error("the starting state cannot fly: {why}")]
    Start {
        /// What is wrong with it.
        why: StartFault,
    },
    /// The aerodynamic build-up failed.
    #[error(transparent)]
    Aero(#[from] AeroError),
    /// The integrator failed.
    #[error(transparent)]
    Solve(#[from] SolveError),
}

/// What is wrong with a starting state.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum StartFault {
    /// A component is not a finite number.
    #[error("a component is not a finite number")]
    NotFinite,
    /// The arrow does not move toward the target.
    #[error("it does not move toward the target")]
    NotForward,
    /// The axis is not a unit vector.
    #[error("its axis is not a unit vector")]
    Axis,
}
