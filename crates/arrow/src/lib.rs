//! From parts and faults to a built arrow: where each part sits, what the
//! whole weighs, balances and bends like, and what each fault does to it.
//!
//! Stations are measured in metres from the bottom of the nock groove, forward
//! positive, so the trade's arrow length is the station of the shaft's front
//! end.
//!
//! [`build`] is the way in. [`Shape`] and [`Whole`] are the steps between, for
//! those who need the masses one by one.
//!
//! Two of the trade's figures, without a whole arrow:
//!
//! ```
//! use arrow::{foc, stiffness_from_spine};
//! use units::Length;
//!
//! // A shaft of spine 340 sags 0.340 in under the standard test.
//! let spine: Length = "0.340 in".parse()?;
//! assert!((stiffness_from_spine(spine).si() - 7.49).abs() < 0.01); // N m2
//!
//! // Balanced 18 in from the groove, 29 in long: 3.5 in ahead of the middle.
//! let foc = foc("18 in".parse()?, "29 in".parse()?);
//! assert!((foc.si() - 3.5 / 29.0).abs() < 1e-12);
//! # Ok::<(), units::UnitError>(())
//! ```

mod built;
mod check;
mod effects;
mod error;
mod fault;
mod fit;
mod layout;
mod line;
mod mass;
mod note;
mod outline;
mod part;
mod piece;
mod readings;
mod shape;
mod stiffness;

pub use built::{Built, build, foc};
pub use effects::{Effects, VaneError};
pub use error::ArrowError;
pub use fault::{Bend, Faults, Lean, Shift, VaneFault};
pub use fit::{LeanLimits, lean_limits};
pub use layout::Layout;
pub use line::{CentreLine, Line};
pub use mass::PIECES;
pub use note::Note;
pub use part::{
    Blades, Collar, Given, Insert, Nock, Outsert, Parts, Point, PointShape, Shaft, Vanes, Wrap,
};
pub use piece::{Piece, PieceOf, Whole};
pub use readings::{
    Straightness, bow_on_span, bow_slope, cant_from_tip, face_from_gap, offset_from_run_out,
};
pub use shape::Shape;
pub use stiffness::{SpineTester, stiffness_from_spine};
