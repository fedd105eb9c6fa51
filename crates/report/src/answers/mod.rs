//! The answers, one file each: its words, its tables and its figures, put in
//! order. No medium is named here.

mod arrow;
mod bench;
mod fit;
mod flight;
mod marks;
mod pin;
mod push;
mod verdict;

pub use arrow::arrow;
pub use bench::{BenchAnswer, bench};
pub use fit::{fit, fit_seen};
pub use flight::flight;
pub use marks::marks;
pub use pin::{pin, pin_seen};
pub use push::push;
pub use verdict::{Judged, ShotGroup, verdict};

use crate::Provenance;
use crate::document::Origin;

/// What an answer is about, and where it comes from.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// Title of the scenario.
    pub title: &'a str,
    /// Name of the build; none where there is only one.
    pub build: Option<&'a str>,
    /// Program, scenario and seed.
    pub provenance: &'a Provenance,
}

impl Subject<'_> {
    /// The origin to tell, with flights flown, if chance was drawn on, and the
    /// names and texts of other files read.
    fn origin(&self, flown: Option<usize>, read: &[(String, String)]) -> Origin {
        Origin { provenance: self.provenance.clone(), flown, read: read.to_vec() }
    }
}
