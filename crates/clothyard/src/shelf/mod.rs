//! Files and folders: nothing of the user's is ever lost.

mod answer;
mod book;
mod file;
mod lock;
mod manifest;

pub(crate) use answer::AnswerFolder;
pub(crate) use book::add_to_book;
pub(crate) use file::{LARGEST_TABLE, create, read, table, text, write_new};
