//! Bench answers: faces, cut lists, sets, nock turns.

mod build;
mod cut;
mod cut_list;
mod index;
mod saw;
mod sort;
mod square;
mod stock;
mod story;
mod unseen;
mod words;

use study::workbench::{Building, Claim, Cutting, Indexing, Sorting, Squareness};
use units::Style;

use super::Subject;
use super::common::{care, overlaid};
use super::evidence;
use crate::ReportError;
use crate::document::{Document, Part, head, list};
use crate::safety::{self, Job};

/// What was asked at the bench, and found.
#[derive(Debug, Clone, Copy)]
pub enum BenchAnswer<'a> {
    /// End faces.
    Square(&'a Squareness),
    /// Where to cut shafts that were read along their length.
    Cut(&'a Cutting),
    /// The same for shafts known by their grade, and what the trade says of cutting
    /// both ends.
    Stock(&'a Cutting, &'a [Claim]),
    /// Which arrows to keep together.
    Sort(&'a Sorting),
    /// Which way to turn nocks.
    Index(&'a Indexing),
    /// Arrows to build from measured shafts and parts.
    Build(&'a Building),
}

/// Its columns. Chosen: what is done, and where.
const COLUMNS: usize = 10;

/// A bench answer; the `notebooks` are the names and texts of the files read.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number; and
/// [`ReportError::Draw`] where a picture cannot be drawn.
pub fn bench(
    answer: BenchAnswer,
    subject: &Subject,
    notebooks: &[(String, String)],
    style: Style,
) -> Result<Document, ReportError> {
    let told = |answer: BenchAnswer<'_>| told(answer, subject, notebooks, style);
    let (document, evidence) = match answer {
        BenchAnswer::Square(found) => {
            let joint = found.unknown.as_deref();
            let document = overlaid(told(answer)?, joint, |at| told(BenchAnswer::Square(at)))?;
            (document, evidence::section(joint, square::numbers(found, style), style))
        }
        BenchAnswer::Cut(found) => {
            let joint = found.unknown.as_deref();
            let document = overlaid(told(answer)?, joint, |at| told(BenchAnswer::Cut(at)))?;
            (document, evidence::section(joint, cut::numbers(found, style), style))
        }
        BenchAnswer::Stock(found, claims) => {
            let joint = found.unknown.as_deref();
            let at = |at: &Cutting| {
                let claims: Vec<Claim> = claims.iter().map(|claim| claim.at(at.point)).collect();
                told(BenchAnswer::Stock(at, &claims))
            };
            let document = overlaid(told(answer)?, joint, at)?;
            (document, evidence::section(joint, cut::numbers(found, style), style))
        }
        BenchAnswer::Sort(found) => {
            let joint = found.unknown.as_deref();
            let document = overlaid(told(answer)?, joint, |at| told(BenchAnswer::Sort(at)))?;
            (document, evidence::section(joint, sort::numbers(found, style), style))
        }
        BenchAnswer::Index(found) => {
            let joint = found.unknown.as_deref();
            let document = overlaid(told(answer)?, joint, |at| told(BenchAnswer::Index(at)))?;
            (document, evidence::section(joint, index::numbers(found, style), style))
        }
        BenchAnswer::Build(found) => {
            let joint = found.unknown.as_deref();
            let document = overlaid(told(answer)?, joint, |at| told(BenchAnswer::Build(at)))?;
            (document, evidence::section(joint, build::numbers(found, style), style))
        }
    };
    Ok(evidence.into_iter().fold(document, Document::and))
}

/// The answer in words and tables.
fn told(
    answer: BenchAnswer,
    subject: &Subject,
    notebooks: &[(String, String)],
    style: Style,
) -> Result<Document, ReportError> {
    let (kind, story) = match answer {
        BenchAnswer::Square(found) => ("square", square::story(found, style)),
        BenchAnswer::Cut(found) => ("cut", cut::story(found, style)),
        BenchAnswer::Stock(found, claims) => ("stock", stock::story(found, claims, style)),
        BenchAnswer::Sort(found) => ("sort", sort::story(found, style)),
        BenchAnswer::Index(found) => ("index", index::story(found, style)),
        BenchAnswer::Build(found) => ("build", build::story(found, style)),
    };
    let jobs = if story.saws { &[Job::Saw, Job::Bench][..] } else { &[Job::Bench] };
    let mut parts = story.parts;
    let sure = vec![head("How sure is this"), list(story.sure)];
    parts.push(Part::Page([sure, care().to_vec()].concat()));
    let document = Document::new(kind, subject.title, story.headline, parts, style)?;
    let unsound =
        if let BenchAnswer::Cut(found) = answer { cut::unsound(found, style) } else { None };
    let cautions = unsound.into_iter().chain(safety::cautions(&[], jobs, style)).collect();
    let document = match story.short {
        short if short.is_empty() => document.briefly(words::ROWS, COLUMNS),
        short => document.shortly(short)?,
    };
    Ok(document.from(subject.origin(notebooks)).cautioned(cautions))
}
