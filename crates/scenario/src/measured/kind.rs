//! Which tables rows can be added to.

use std::path::Path;

use super::batch::{Batch, batch};
use super::column::{Column, Columns};
use super::faces::{Faces, faces};
use super::hits::{Turns, turns};
use super::profile::{Profile, profiles};
use super::three::{Three, three};
use crate::Report;

/// A kind of table that rows can be added to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Shafts or arrows, one to a row.
    Batch,
    /// End faces, one reading to a row.
    Faces,
    /// Run-out along shafts, one reading to a row.
    Profile,
    /// Three readings of a shaft, one shaft to a row.
    Three,
    /// Shots with nocks turned, one to a row.
    Turns,
}

impl Kind {
    pub(super) fn columns(self) -> &'static [Column] {
        match self {
            Self::Batch => Batch::ALL,
            Self::Faces => Faces::ALL,
            Self::Profile => Profile::ALL,
            Self::Three => Three::ALL,
            Self::Turns => Turns::ALL,
        }
    }

    /// What is wrong with a table of this kind.
    pub(super) fn mistakes(self, path: &Path, bytes: Vec<u8>) -> Option<Report> {
        match self {
            Self::Batch => batch(path, Ok(bytes)).err(),
            Self::Faces => faces(path, Ok(bytes)).err(),
            Self::Profile => profiles(path, Ok(bytes)).err(),
            Self::Three => three(path, Ok(bytes)).err(),
            Self::Turns => turns(path, Ok(bytes)).err(),
        }
    }
}
