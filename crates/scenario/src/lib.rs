//! Scenario files: TOML in, a plan out, and what was really used written back.
//!
//! One table, in `schema`, declares every key once: what it holds, its range,
//! its default with the source, and what it means. The reader walks the file
//! against that table, so range checks, suggestions, the resolved scenario,
//! the JSON Schema and the key reference cannot drift apart.
//!
//! ```
//! use std::path::Path;
//! let text = r#"
//!     bow.draw_weight = "60 lbf"
//!     bow.draw_length = "29 in"
//!     bow.speed = "276 ft/s"
//!     bow.speed_mass = "425 gr"
//!     arrow.shaft.outside = "0.246 in"
//!     arrow.shaft.density = "9.5 gr/in"
//!     arrow.shaft.spine = "0.340 in"
//!     arrow.shaft.length = "28.5 in"
//!     arrow.point.mass = "100 gr"
//! "#;
//! let read = |text: &str| scenario::read(Path::new("elk.toml"), &|_| Ok(text.to_owned()));
//! let plan = read(text).unwrap().plan().unwrap();
//! assert_eq!(plan.builds.len(), 1);
//! // Every mistake is told with its place, the range and what was meant.
//! let report = read(&text.replace("60 lbf", "60 lbff")).err().unwrap();
//! assert_eq!(report.position(&report.problems()[0]), Some(("elk.toml".to_owned(), 2, 23)));
//! assert!(report.to_string().contains("did you mean lbf?"));
//! ```
//!
//! What was measured (batches, faces, run-out, marks, hits) stands in tables,
//! CSV files as any spreadsheet writes them, read by [`measured`]:
//!
//! ```
//! use std::path::Path;
//! let text = "shot;left [in];up (in)\n1;0,5;-1,25\n2;-2;0,75\n";
//! let table = scenario::measured::impacts(Path::new("group.csv"), Ok(text.into())).unwrap();
//! assert_eq!(table.found[1].left, -2.0 * 0.0254);
//! assert_eq!(table.passed_over, ["A (shot)"]);
//!
//! let slip = scenario::measured::impacts(Path::new("group.csv"), Ok("lft [in],up [in]".into()));
//! assert!(slip.unwrap_err().to_string().contains("did you mean left?"));
//! ```

mod across;
mod advice;
mod alike;
mod assemble;
mod assumed;
mod bow;
mod control;
mod draw;
mod dry;
mod edit;
mod entry;
mod error;
mod evidence;
mod evidence_fault;
mod fit;
mod fitted;
mod held;
mod json;
mod listed;
mod marks;
pub mod measured;
mod numbers;
mod pinned;
mod plain;
mod read;
mod recipe;
mod reference;
mod report;
mod resolved;
mod rewritten;
mod said;
mod said_wind;
mod scenario;
mod schema;
mod settle;
mod shown;
mod slip;
mod source;
mod stated;
mod step;
mod sweep_fault;
mod text;
mod trial_fact;
mod typical;
mod words;
mod written;

pub use control::{Control, Field, control, controls};
pub use edit::{Edit, Setting};
pub use error::ScenarioError;
pub use evidence_fault::{EvidenceFault, Unmeasurable};
pub use fitted::{FittedPart, fitted_evidence, fitted_parts};
pub use json::json_schema;
pub use measured::TableMistake;
pub use pinned::{Restrained, restraint_part};
pub use read::{Files, read, read_in};
pub use reference::key_reference;
pub use report::{Problem, Report};
pub use scenario::{Model, RigidBody, Scenario};
pub use schema::{Form, Part, Slide};
pub use shown::Said;
pub use slip::{Slip, Slipped};
pub use sweep_fault::SweepFault;
pub use trial_fact::trial_evidence;
