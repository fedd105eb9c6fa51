//! Numerics that know no arrow.
//!
//! * [`integrate`] and [`event`]: adaptive integration of ordinary differential
//!   equations, with the state at marks, a stop condition and event location.
//! * [`rk4`]: one fixed step, written over any [`Number`].
//! * [`root`]: a bracketed root of a function of one variable.
//! * [`least_squares`]: damped least squares, slopes by central differences.
//! * [`Table`]: a piecewise linear table that refuses to extrapolate.
//!
//! No function here returns a number that is not finite: it returns an error
//! that says where the first one arose.

mod control;
mod error;
mod fixed;
mod guard;
mod lanes;
mod number;
mod ode;
mod root;
mod squares;
mod table;

pub use control::{Control, Effort};
pub use error::SolveError;
pub use fixed::rk4;
pub use lanes::{LANES_MAX, Lanes};
pub use number::{Number, sin_cos};
pub use ode::{Solution, event, integrate};
pub use pulp::{Arch, Simd, WithSimd};
pub use root::root;
pub use squares::{Closeness, LeastSquares, least_squares};
pub use table::Table;
