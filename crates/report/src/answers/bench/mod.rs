//! Bench answers: faces, cut lists, sets, nock turns.

mod cut;
mod index;
mod sort;
mod square;
mod stock;
mod story;
mod words;

use study::workbench::{Cutting, Grade, Indexing, Sorting, Squareness, StockGain};
use units::Style;
use workbench::SawJob;

use super::Subject;
use super::common::overlaid;
use crate::document::{Document, Part, head, list, note};
use crate::{ReportError, prose};

/// What was asked at the bench, and found.
#[derive(Debug, Clone, Copy)]
pub enum BenchAnswer<'a> {
    /// End faces.
    Square(&'a Squareness),
    /// Where to cut shafts that were read along their length.
    Cut(&'a Cutting),
    /// What cutting gains on shafts that were not.
    Stock(&'a StockGain, &'a Grade, &'a SawJob),
    /// Which arrows to keep together.
    Sort(&'a Sorting),
    /// Which way to turn nocks.
    Index(&'a Indexing),
}

/// Cautions of the bench, common practice; those of every report follow.
const CAUTIONS: [&str; 3] = [
    "Carbon splinters cut and its dust stays in the lungs: tape the shaft where the saw goes, turn \
     it as it is cut, sand the edge wet, and wear mask, glasses and gloves.",
    "Keep the saw's guard on and your fingers behind the fence; unplug it to change a wheel.",
    "Flex and inspect every carbon shaft after each cut and before each shot. On any doubt, a crack, a creak, a soft spot, \
     break it so that nobody shoots it.",
];

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
    let told = |answer: BenchAnswer| told(answer, subject, notebooks, style);
    let document = told(answer)?;
    match answer {
        BenchAnswer::Square(found) => {
            overlaid(document, found.unknown.as_deref(), |at| told(BenchAnswer::Square(at)))
        }
        BenchAnswer::Cut(found) => {
            overlaid(document, found.unknown.as_deref(), |at| told(BenchAnswer::Cut(at)))
        }
        BenchAnswer::Sort(found) => {
            overlaid(document, found.unknown.as_deref(), |at| told(BenchAnswer::Sort(at)))
        }
        BenchAnswer::Index(found) => {
            overlaid(document, found.unknown.as_deref(), |at| told(BenchAnswer::Index(at)))
        }
        BenchAnswer::Stock(..) => Ok(document),
    }
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
        BenchAnswer::Stock(found, grade, job) => ("stock", stock::story(found, grade, job, style)),
        BenchAnswer::Sort(found) => ("sort", sort::story(found, style)),
        BenchAnswer::Index(found) => ("index", index::story(found, style)),
    };
    // The last caution is always due.
    let cautions = if story.saws { &CAUTIONS[..] } else { &CAUTIONS[2..] };
    let mut parts: Vec<Part> = cautions.iter().map(|text| note(*text)).collect();
    parts.extend(story.parts);
    parts.push(Part::Page(vec![
        head("How sure is this"),
        list(story.sure),
        head(if story.saws { "Before you cut and shoot" } else { "Before you shoot" }),
        list(prose::CAUTIONS),
    ]));
    let document = Document::new(kind, subject.title, story.headline, parts, style)?;
    Ok(document.from(subject.origin(notebooks)))
}
