//! Everything that the program does beside flying a build: a form for each of its commands.
//!
//! What there is to ask is told by the program itself, so that a new command has its page
//! as soon as it has its words (`words`).

mod answer;
mod folder;
mod measured;
mod order;
mod readings;
mod said;
mod tool;
mod view;
mod words;

pub(crate) use answer::{all, blank, queue, run, written};
pub(crate) use readings::{blank as readings, note as noted};
pub use tool::{FieldKind, KEPT, Tool, ToolAnswer, ToolField, ToolOrder, Tools};
