//! What was measured, and what it leaves of what is not known. Model card:
//! docs/model/evidence.md.
//!
//! Everything measured is computed at each outer point by the same shots as any
//! answer; the points are weighed by how likely the readings are there, and where
//! few are left, more are drawn where it counts.

mod best;
#[cfg(test)]
mod checks;
mod found;
mod measured;
mod moves;
mod told;
mod tried;
mod weigh;
mod witness;

pub(crate) use found::{Known, known};
pub use measured::{Against, Measured};
pub use told::{Evident, ReadingFound, Said, Told};
