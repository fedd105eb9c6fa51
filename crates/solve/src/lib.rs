//! Numerics that know no arrow.
//!
//! * [`integrate`] and [`event`]: adaptive integration of ordinary differential
//!   equations, with the state at marks, a stop condition and event location.
//! * [`rk4`] and [`rk4_at`]: one fixed step, written over any [`Number`].
//! * [`TwoStep`]: fixed steps that look back one step, two evaluations each.
//! * [`root`]: a bracketed root of a function of one variable.
//! * [`least_squares`]: damped least squares, slopes by central differences.
//! * [`Polynomial`]: polynomials in several variables through values at points.
//! * [`Table`]: a piecewise linear table that refuses to extrapolate.
//!
//! No function here returns a number that is not finite: it returns an error
//! that says where the first one arose.
//!
//! A ball thrown up at 9 m/s slows by 10 m/s each second. Its height is
//! integrated, and the time at which its speed is gone found.
//!
//! ```
//! use solve::{Control, integrate, root};
//!
//! let control = Control { relative: 1e-9, scale: [1.0, 1.0], step_max: 0.5, steps_max: 100 };
//! let rhs = |_time: f64, y: &[f64; 2], dy: &mut [f64; 2]| *dy = [y[1], -10.0];
//! let flown = integrate(rhs, [0.0, 9.0], &[0.5, 1.0], &control, |_, _| false)?;
//! assert!((flown.at[1][0] - 4.0).abs() < 1e-9); // 9 - 10 / 2
//!
//! let top = root(|time| 9.0 - 10.0 * time, 0.0, 2.0, 1e-9)?;
//! assert!((top - 0.9).abs() < 1e-9);
//! # Ok::<(), solve::SolveError>(())
//! ```

mod control;
mod error;
mod fixed;
mod guard;
mod lanes;
mod lone;
mod number;
mod ode;
mod polynomial;
mod root;
mod sine;
mod squares;
mod table;
mod two_step;
mod width;

pub use control::{Control, Effort};
pub use error::SolveError;
pub use fixed::{At, rk4, rk4_at};
pub use lanes::Lanes;
pub use number::{LANES_MAX, Number, Places};
pub use ode::{Solution, event, integrate};
pub use polynomial::{DEGREE_MAX, Polynomial};
pub use pulp::{Simd, WithSimd};
pub use root::root;
pub use sine::{sin_cos, sin_cos_short};
pub use squares::{Closeness, LeastSquares, least_squares};
pub use table::Table;
pub use two_step::TwoStep;
pub use width::{Arch, limit_width};
