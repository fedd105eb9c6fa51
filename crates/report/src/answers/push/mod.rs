//! The push of one arrow.

mod figures;
mod tables;
mod words;

use study::{Departure, Joint, PushTrace};
use units::Style;

use super::Subject;
use super::common::care;
use crate::ReportError;
use crate::document::{Document, Part, head, list, say};

/// How the arrow leaves, with what is not known of that, and what its push was.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number; and
/// [`ReportError::Draw`] where a picture cannot be drawn.
pub fn push(
    story: &PushTrace,
    unknown: Option<&Joint<Departure>>,
    subject: &Subject,
    style: Style,
) -> Result<Document, ReportError> {
    let [shapes, paths, forces, stroke, modes] = figures::all(story, style).map(Part::Figure);
    let mut parts = vec![
        shapes,
        head("How it leaves"),
        Part::Table(tables::leaves(story)),
        say(words::LEAVES),
        Part::Table(tables::along(story)),
    ];
    parts.extend(words::remarks(story, style).into_iter().map(say));
    parts.extend([
        paths,
        Part::Page(vec![head("Forces"), forces]),
        head("Energy"),
        stroke,
        Part::Table(tables::energy(story)),
        head("How the arrow swings"),
        modes,
        Part::Table(tables::modes(story, style)),
        say("Nodes, the places of the shaft that stand still, are from the nock groove."),
        head("How sure is this"),
        list(words::SURE),
        Part::Page(care().into()),
    ]);
    parts.extend(tables::data(story).into_iter().map(Part::Data));
    let title = match subject.build {
        Some(build) => format!("{}: the push of \"{build}\"", subject.title),
        None => format!("{}: the push", subject.title),
    };
    let lead = words::sentence(story, unknown, style);
    let document = Document::new("push", title, lead, parts, style)?.briefly(6, 3);
    Ok(document.from(subject.origin(&[])))
}
