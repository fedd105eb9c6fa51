//! What is not known: all poorly known values drawn at once, and the whole
//! answer at each draw. Model card: docs/model/unknown.md.
//!
//! Two levels. Outer: every poorly known value that reaches the answer, as one
//! sample of scrambled Sobol' points. Inner: the flights of an answer, with the
//! same chances at every outer point. Every band, every standing of a verdict
//! and every ranking of what to measure comes from this one sample.

mod at_point;
mod fair;
mod joint;
mod law;
mod legendre;
mod outer;
mod scores;
mod spread;

pub(crate) use at_point::AtPoint;
pub use joint::{Joint, OuterPoint};
pub(crate) use joint::{Point, joint};
pub(crate) use outer::{Drawn, DrawnPoint, OuterSample};
pub use outer::{OUTER_POINTS, QUICK_POINTS};
pub use spread::{Band, Narrowing, Standing, Word};
