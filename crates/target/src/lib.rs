//! On the face: impacts, groups, scores, and whether two groups differ. No
//! chance in here: every answer follows from the impacts given.
//!
//! Groups and their intervals are described in `docs/model/groups.md`, faces
//! and zones in `docs/model/scoring.md`. Every interval is a 95 % interval and
//! takes the shots as independent.

mod chance;
mod compare;
mod error;
mod face;
mod group;
mod interval;
mod zone;

pub use chance::{expected_score, offset_circle_probability};
pub use compare::{shots_to_tell, sigma_ratio};
pub use error::TargetError;
pub use face::{Face, Ring};
pub use group::{Estimate, Group, Impact, extreme_spread};
pub use interval::{hit_share, mean_estimate, normal_below, t_factor};
pub use zone::Zone;
