//! Bench answers: faces, cut lists, sets, nock turns.

mod cut;
mod index;
mod saw;
mod sort;
mod square;
mod stock;
mod story;
mod unseen;
mod words;

use study::workbench::{Claim, Cutting, Indexing, Sorting, Squareness};
use units::Style;

use super::Subject;
use crate::document::{Document, Part, head, list, note};
use crate::{ReportError, prose};

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
    let (kind, story) = match answer {
        BenchAnswer::Square(found) => ("square", square::story(found, style)),
        BenchAnswer::Cut(found) => ("cut", cut::story(found, style)),
        BenchAnswer::Stock(found, claims) => ("stock", stock::story(found, claims, style)),
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
