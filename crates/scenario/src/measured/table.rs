//! A table as it was read.

use std::io;
use std::path::Path;

use crate::Report;

/// What opening a file gave: this crate touches no disk.
pub type Opened = io::Result<Vec<u8>>;

/// Reads a table of one kind.
pub type Reader<T> = fn(&Path, Opened) -> Result<Table<T>, Report>;

/// A table that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct Table<T> {
    /// What its rows make.
    pub found: Vec<T>,
    /// Columns of the user's own with something in them: letter and head.
    pub passed_over: Vec<String>,
    /// Rows that hold no reading, such as averages: line and why.
    pub left_out: Vec<String>,
    /// The text of the file.
    pub text: String,
}
