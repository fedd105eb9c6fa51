//! Measured tables: CSV files as any spreadsheet or hand writes them, with one
//! reader for every kind.
//!
//! Columns stand in any order, each with its unit in the head (`mass [gr]`,
//! `mass (gr)` or `mass, gr`) or in its cells. Commas, semicolons or tabs part
//! the cells, numbers have a decimal point or comma, cells may be quoted or
//! blank, a byte-order mark and lines that begin with `#` say nothing. A column
//! of the user's own is passed over and named ([`Table::passed_over`]); one
//! that is nearly called like a column of the kind is a slip. Every mistake of
//! a file is told at once, with its place.
//!
//! `scan` finds rows and cells, `column` reads a head or a cell, `sheet` binds
//! the two and gathers mistakes; each further file holds the columns of a kind
//! and how its rows make what the other rooms work with.

mod add;
mod batch;
mod column;
mod faces;
mod hits;
mod mistake;
mod profile;
mod scan;
mod sheet;
mod shots;

use std::io;
use std::path::Path;

pub use add::with_row;
pub use batch::batch;
pub use faces::faces;
pub use hits::{impacts, turns};
pub use mistake::TableMistake;
pub use profile::{ShaftReadings, Stations, profiles};
pub use shots::shots;

use crate::Report;
use column::{Column, Columns};

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
    /// The text of the file.
    pub text: String,
}

/// A kind of table that rows can be added to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Shafts or arrows, one to a row.
    Batch,
    /// End faces, one reading to a row.
    Faces,
    /// Run-out along shafts, one reading to a row.
    Profile,
    /// Shots with nocks turned, one to a row.
    Turns,
}

impl Kind {
    fn columns(self) -> &'static [Column] {
        match self {
            Self::Batch => batch::Batch::ALL,
            Self::Faces => faces::Faces::ALL,
            Self::Profile => profile::Profile::ALL,
            Self::Turns => hits::Turns::ALL,
        }
    }

    /// What is wrong with a table of this kind.
    fn mistakes(self, path: &Path, bytes: Vec<u8>) -> Option<Report> {
        match self {
            Self::Batch => batch(path, Ok(bytes)).err(),
            Self::Faces => faces(path, Ok(bytes)).err(),
            Self::Profile => profiles(path, Ok(bytes)).err(),
            Self::Turns => turns(path, Ok(bytes)).err(),
        }
    }
}
