//! The live page: change a build, see the flight change.
//!
//! [`router`] answers requests; it opens no port and touches no disk. Files
//! come and go through a [`Shelf`]. A page's state is a link, and a link is a
//! scenario: what is shown is what `clothyard run` answers for that file. Its
//! question and its builds stay as they are written; values are set by key.
//!
//! ```
//! use std::{io, path::Path, sync::Arc};
//!
//! struct Empty;
//!
//! impl page::Shelf for Empty {
//!     fn list(&self) -> Vec<String> {
//!         Vec::new()
//!     }
//!     fn read(&self, _: &Path) -> io::Result<String> {
//!         Err(io::ErrorKind::NotFound.into())
//!     }
//!     fn save(&self, _: &str, _: &str) -> io::Result<()> {
//!         Err(io::ErrorKind::PermissionDenied.into())
//!     }
//! }
//!
//! struct Nothing;
//!
//! impl page::Tools for Nothing {
//!     fn list(&self) -> Vec<page::Tool> {
//!         Vec::new()
//!     }
//!     fn tables(&self) -> Vec<String> {
//!         Vec::new()
//!     }
//!     fn run(
//!         &self,
//!         _: &page::ToolOrder,
//!         _: &(dyn Fn() -> bool + Sync),
//!     ) -> io::Result<page::ToolAnswer> {
//!         Err(io::ErrorKind::Unsupported.into())
//!     }
//! }
//!
//! // Without a file it starts from the invented build.
//! let settings = page::Settings { shelf: Arc::new(Empty), tools: Arc::new(Nothing), start: None, port: 7373 };
//! let service = page::router(settings);
//! # drop(service);
//! ```

mod answer;
mod app;
mod asked;
mod bar;
mod base;
mod beside;
mod builds;
mod copies;
mod door;
mod drift;
mod effect;
mod error;
mod examples;
mod groups;
mod guard;
mod head;
mod jobs;
mod kept;
mod live;
mod reading;
mod results;
mod rooms;
mod routes;
mod scene;
mod side;
mod spelled;
mod square;
mod state;
mod table;
mod tape;
mod tools;
mod view;
mod watch;
mod web;

use std::io;
use std::path::Path;
use std::sync::Arc;

pub use error::{PageError, Wrong};
pub use guard::longest;
pub use routes::router;
pub use state::device;
pub use table::Table;
pub use tools::{FieldKind, KEPT, Tool, ToolAnswer, ToolField, ToolOrder, Tools};

/// The folder the page was started in.
pub trait Shelf: Send + Sync + 'static {
    /// Names of the scenario files in the folder itself, sorted.
    fn list(&self) -> Vec<String>;
    /// Reads a file in the folder or below.
    ///
    /// # Errors
    /// What the system says; `PermissionDenied` for a path that leads out.
    fn read(&self, path: &Path) -> io::Result<String>;
    /// Writes one new file into the folder.
    ///
    /// # Errors
    /// `AlreadyExists` when the name is taken; that file is left as it is.
    fn save(&self, name: &str, text: &str) -> io::Result<()>;
}

/// What a page is started with.
pub struct Settings {
    /// Where its files are.
    pub shelf: Arc<dyn Shelf>,
    /// What else the program does.
    pub tools: Arc<dyn Tools>,
    /// The scenario it starts from; none for the invented one built in.
    pub start: Option<(String, scenario::Scenario)>,
    /// The port it answers at, which requests must name.
    pub port: u16,
}
