//! The answers, one file or folder each: its words, its tables and its
//! figures, put in order. No medium is named here.

mod arrow;
mod common;
mod compare;
mod ends;
mod figures;
mod flight;
mod live;
mod matters;
mod pin;
mod sweep;
mod tune;
mod worth;

use study::{Answer, Found};
use units::Style;

use crate::document::{Document, Origin};
use crate::{Provenance, ReportError};
pub use arrow::arrow;
use compare::Case;
pub use flight::flight;
pub use live::{Live, Picture, live};
pub use pin::{pin, pin_seen};

/// The answer to a scenario's question.
///
/// # Errors
/// [`ReportError::NotFinite`] for the first bad number, and the shape errors
/// of an answer whose lists do not fit together.
pub fn answer(
    answer: &Answer,
    provenance: &Provenance,
    style: Style,
) -> Result<Document, ReportError> {
    let title = answer.title.as_str();
    let case = |found| Case::new(found, answer.target, style);
    let document = match &answer.found {
        Found::Compare(found) => compare::compare(title, case(found)?),
        Found::Ends(found) => ends::ends(title, found, case(&found.compared)?),
        Found::Sweep(found) => sweep::sweep(title, found, style),
        Found::Tune(found) => tune::tune(title, found, style),
        Found::Matters(found) => matters::matters(title, found, style),
        Found::Worth(found) => worth::worth(title, found, style),
    }?;
    Ok(document.and(common::target(answer.target)).from(Origin {
        provenance: provenance.clone(),
        flown: Some(answer.flown),
        read: Vec::new(),
    }))
}
