//! What a rigid arrow is and where it is: mass properties, frames, attitude,
//! state.
//!
//! # Frames
//!
//! * **Range frame**: x along the horizontal toward the target, y to the
//!   archer's left, z up. Right-handed.
//! * **Line frame**: the range frame turned nose-up by the shot angle, so that
//!   x runs along the straight line from the bow to the target. Flight is
//!   computed in it, so the impact plane is x = distance at any shot angle.
//!   For a level shot the two are the same.
//! * **Arrow frame**: x from nock to point; across the shaft, directions are
//!   clock positions.
//!
//! # Signs
//!
//! * **Yaw** is positive with the nose to the archer's left.
//! * **Pitch** is positive with the nose up.
//! * **Roll** and **spin** are positive clockwise as seen from the nock.
//! * **Clock positions** are seen from the nock, zero at the index vane,
//!   positive clockwise. With zero roll the index vane points up.
//!
//! Mirror tests hold these signs.
//!
//! # Example
//!
//! A nock groove off the shaft's centre at clock position 90 degrees lies to the
//! archer's right; rolled a quarter turn clockwise it lies below.
//!
//! ```
//! use std::f64::consts::FRAC_PI_2;
//!
//! use body::Across;
//!
//! let offset = Across::polar(1e-3, FRAC_PI_2);
//! let (left, up) = offset.left_up(0.0);
//! assert!((left + 1e-3).abs() < 1e-12 && up.abs() < 1e-12);
//! let (left, up) = offset.left_up(FRAC_PI_2);
//! assert!(left.abs() < 1e-12 && (up + 1e-3).abs() < 1e-12);
//! ```

mod clock;
mod mass;
mod state;

pub use clock::Across;
pub use mass::{MassError, MassProperties};
pub use state::{Attitude, State};
