//! On the face: impacts, groups, scores. No chance in here.

mod group;

pub use group::{Estimate, Group, Impact};
