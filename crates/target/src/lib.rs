//! On the face: impacts, groups, scores, and whether two groups differ. No
//! chance in here: every answer follows from the impacts given.
//!
//! Groups and their intervals are described in `docs/model/groups.md`, faces
//! and zones in `docs/model/scoring.md`, verdicts in `docs/model/power_test.md`.
//! An interval is a 95 % interval unless a confidence is stated, and takes the
//! shots as independent.
//!
//! ```
//! use target::{Group, Impact};
//!
//! let at = |left: f64, up: f64| Impact { left, up };
//! let group = Group::of(&[at(0.02, 0.0), at(-0.02, 0.0), at(0.0, 0.02), at(0.0, -0.02)])?;
//! assert!(group.centre.radius() < 1e-12);
//! assert!((group.mean_radius.value - 0.02).abs() < 1e-12);
//! // Four arrows say little: the interval says how little.
//! assert!(group.sigma.high > 2.0 * group.sigma.low);
//! # Ok::<(), target::TargetError>(())
//! ```

mod centre;
mod chance;
mod compare;
mod error;
mod extreme;
mod face;
mod group;
mod interval;
mod power_test;
mod round;
mod scored;
mod sequential;
mod spread;
mod zone;

pub use centre::{CentreVerdict, MOST_FOR_CENTRES, centres_apart};
pub use chance::{expected_score, offset_circle_probability};
pub use compare::{shots_to_tell, sigma_ratio};
pub use error::TargetError;
pub use extreme::{MOST_IN_SPREAD, mean_extreme_spread};
pub use face::{Face, Ring};
pub use group::{Group, Impact, extreme_spread};
pub use interval::{
    Estimate, hit_share, mean_estimate, normal_below, outlier_factor, scatter_limit, t_factor,
};
pub use power_test::{Odds, PowerTest, Verdict};
pub use round::{Duel, Round, Scores};
pub use scored::sigma_of_score;
pub use sequential::{LookRule, MOST_LOOKS};
pub use spread::Spread;
pub use zone::Zone;
