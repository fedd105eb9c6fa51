//! The answers, one file or folder each: its words, its tables and its
//! figures, put in order. No medium is named here.

mod arrow;
mod bench;
mod common;
mod compare;
mod ends;
mod evidence;
mod fit;
mod flight;
mod heed;
mod live;
mod marks;
mod matters;
mod narrowed;
mod pin;
mod push;
mod sweep;
mod trial;
mod tune;
mod unknown;
mod verdict;
mod worth;

use study::{Answer, Found, Joint, TargetChoice};
use units::Style;

use crate::document::{Document, Origin};
use crate::safety::{self, Job};
use crate::{Provenance, ReportError};
pub use arrow::arrow;
pub use bench::{BenchAnswer, bench};
use compare::Case;
pub use compare::LiveFigure;
pub use fit::{fit, fit_seen};
pub use flight::flight;
pub use live::{Live, Picture, live};
pub use marks::marks;
pub use pin::{pin, pin_seen};
pub use push::push;
pub(crate) use trial::{minded as trial_minded, title as trial_title};
pub use trial::{trial_judged, trial_size};
pub use unknown::may_be;
pub use verdict::verdict;

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
    /// The origin to tell, with the names and texts of other files read; nothing
    /// was drawn by chance.
    fn origin(&self, read: &[(String, String)]) -> Origin {
        Origin { provenance: self.provenance.clone(), flown: None, read: read.to_vec() }
    }
}

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
    let joint = answer.unknown.as_ref();
    let document = told(&answer.found, joint, answer, style)?;
    let mut document = common::overlaid(document, joint, |found| told(found, None, answer, style))?;
    for part in evidence::section(joint, narrowed::numbers(&answer.found, style), style) {
        document = document.and(part);
    }
    if let Some(used) = evidence::short(joint) {
        document = document.and_shortly(used);
    }
    let document = heed::heeded(document, answer);
    let jobs = jobs(answer);
    let document = document.cautioned(safety::cautions(&answer.cautions, jobs, style));
    Ok(document.and(common::target(answer.target)).from(Origin {
        provenance: provenance.clone(),
        flown: Some(answer.flown),
        read: Vec::new(),
    }))
}

/// Work of an answer that has a caution of its own.
fn jobs(answer: &Answer) -> &'static [Job] {
    match &answer.found {
        Found::Worth(_) => &[Job::Steps],
        Found::Compare(_) | Found::Ends(_)
            if !matches!(answer.target, TargetChoice::Face { .. })
                && answer.compared().is_some_and(|of| of.builds.iter().all(common::shot)) =>
        {
            &[Job::Hits]
        }
        _ => &[],
    }
}

/// What was found, in words and tables.
fn told(
    found: &Found,
    unknown: Option<&Joint<Found>>,
    answer: &Answer,
    style: Style,
) -> Result<Document, ReportError> {
    let title = answer.title.as_str();
    let case = |found| Case::new(found, unknown, (answer.target, &answer.cautions), style);
    match found {
        Found::Compare(found) => compare::compare(title, case(found)?),
        Found::Ends(found) => ends::ends(title, found, case(&found.compared)?),
        Found::Sweep(found) => sweep::sweep(title, found, unknown, style),
        Found::Tune(found) => tune::tune(title, found, unknown, style),
        Found::Matters(found) => matters::matters(title, found, unknown, style),
        Found::Worth(found) => worth::worth(title, found, unknown, style),
    }
}
