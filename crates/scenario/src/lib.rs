//! Scenario files: TOML in, a plan out, and what was really used written back.
//!
//! One table, in `schema`, declares every key once: what it holds, its range,
//! its default with the source, and what it means. The reader walks the file
//! against that table, so range checks, suggestions, the resolved scenario,
//! the JSON Schema and the key reference cannot drift apart.
//!
//! ```no_run
//! # fn main() -> Result<(), Box<dyn std::error::Error>> {
//! let path = std::path::Path::new("scenarios/square-ends.toml");
//! let scenario = scenario::read(path, &|path| std::fs::read_to_string(path))?;
//! let plan = scenario.plan();
//! # Ok(()) }
//! ```

mod advice;
mod assemble;
mod bow;
mod draw;
mod entry;
mod error;
mod fit;
mod fitted;
mod impacts;
mod impacts_error;
mod json;
mod marks;
pub mod notebook;
mod pinned;
mod read;
mod recipe;
mod reference;
mod report;
mod resolved;
mod said;
mod scenario;
mod schema;
mod settle;
mod shots;
mod source;
mod step;
mod sweep_fault;
mod text;
mod written;

pub use error::ScenarioError;
pub use fitted::{FittedPart, fitted_parts};
pub use impacts::read_impacts;
pub use impacts_error::ImpactsError;
pub use json::json_schema;
pub use pinned::{Restrained, restraint_part};
pub use read::{Files, read};
pub use reference::key_reference;
pub use report::{Problem, Report};
pub use said::Said;
pub use scenario::{Model, RigidBody, Scenario};
pub use shots::{ShotsError, shots};
pub use sweep_fault::SweepFault;
