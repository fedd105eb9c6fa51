//! Sight marks.

mod figures;
mod tables;
mod words;

use draw::Figure;
use study::SightMarks;
use units::{Role, Style};

use super::Subject;
use super::common::{care, overlaid};
use super::evidence::{self, Number};
use super::unknown::{self, Asked};
use crate::document::{Document, Part, fold, head, list, note, say, small};
use crate::safety::{self, Job};
use crate::{File, ReportError, prose, words as names};

/// Sight marks with their tables and pictures. Of the `prints`, tape and
/// cards, the page shows those that are SVG.
///
/// # Errors
/// [`ReportError::NotFinite`] names the first bad number; and
/// [`ReportError::Draw`] where a picture cannot be drawn.
pub fn marks(
    found: &SightMarks,
    subject: &Subject,
    prints: &[File],
    style: Style,
) -> Result<Document, ReportError> {
    let document = told(found, subject, prints, style)?;
    let joint = found.unknown.as_deref();
    let document = overlaid(document, joint, |found| told(found, subject, &[], style))?;
    let narrowed = evidence::section(joint, numbers(found, style), style);
    Ok(narrowed.into_iter().fold(document, Document::and))
}

/// The farthest mark, for what a measurement narrows of it.
fn numbers(found: &SightMarks, style: Style) -> Vec<Number<SightMarks>> {
    let last = words::told(found).map(|row| {
        let range = crate::show::plain(Role::Range, row.distance, style);
        let read = |of: &SightMarks| Some(words::told(of)?.travel.value);
        Number::new(format!("The mark for {range}"), (Role::Sight, row.travel.value), read)
    });
    last.into_iter().collect()
}

/// The marks in words and tables.
fn told(
    found: &SightMarks,
    subject: &Subject,
    prints: &[File],
    style: Style,
) -> Result<Document, ReportError> {
    let [travel, arcs] = figures::all(found, style).map(Part::Figure);
    let mut parts = vec![head("Marks"), travel];
    let texts = [words::turn(found, style), words::sight(found, style)];
    parts.extend(texts.into_iter().filter(|text| !text.is_empty()).map(say));
    parts.push(Part::Table(tables::marks(found, style)));
    parts.push(say(words::read(found, style)));
    if !found.pins.is_empty() {
        parts.extend([head("Pins"), Part::Table(tables::pins(found)), say(words::HOLD)]);
    }
    if found.point_on.is_some() {
        parts.push(say(words::point_on(found, style)));
    }
    if !found.hills.is_empty() {
        parts.extend([
            head("Up (+) and down (-)"),
            Part::Table(tables::slopes(found)),
            say(words::cosine(found, style)),
        ]);
    }
    if !found.changes.is_empty() {
        parts.extend([head("What a change does"), say(words::CHANGED)]);
        for of in &found.changes {
            parts.push(small(format!("The {}", names::value(&of.key))));
            parts.push(Part::Table(tables::change(found, of)));
        }
    }
    way(&mut parts, found, arcs, style);
    parts.extend(not_known(found, style));
    let prints: Vec<Part> = prints.iter().filter_map(print).collect();
    if !prints.is_empty() {
        parts.push(Part::Page([vec![head("To print")], prints].concat()));
    }
    if !found.uncertain.is_empty() {
        let keys: Vec<String> = found.uncertain.iter().map(|d| names::value(&d.key)).collect();
        parts.push(say(format!("Poorly known, and in the bands: {}.", keys.join(", "))));
    }
    parts.extend(found.built.notes.iter().map(|of| note(format!("Note: {}", of.text(style)))));
    let sure = [head("How sure is this"), list([prose::SURE[0], prose::SURE[2]])];
    parts.push(Part::Page([sure, care()].concat()));
    parts.extend(tables::data(found).map(Part::Data));
    let title = subject.build.map(|name| format!("{}: {name}", subject.title));
    let title = title.unwrap_or_else(|| subject.title.to_owned());
    let lead = words::sentence(found, style);
    let cautions = safety::cautions(&[], &[Job::Marks], style);
    let document = Document::new("marks", title, lead, parts, style)?;
    let document = document.briefly(ROWS, 3);
    Ok(document.from(subject.origin(&[])).cautioned(cautions))
}

/// Marks of the short answer. Chosen: five yards apart from 10 to 70.
const ROWS: usize = 13;

/// What is not known of the farthest mark.
fn not_known(found: &SightMarks, style: Style) -> Vec<Part> {
    let Some(last) = words::told(found) else { return Vec::new() };
    let range = crate::show::plain(Role::Range, last.distance, style);
    let read = |of: &SightMarks| Some(words::told(of)?.travel.value);
    // A mark decides nothing but itself.
    let asked = Asked { what: format!("the mark for {range}"), read: &read, verdict: &|_| true };
    unknown::section(found.unknown.as_deref(), &[asked])
}

/// The arcs, and what they pass.
fn way(parts: &mut Vec<Part>, found: &SightMarks, arcs: Part, style: Style) {
    if found.twigs.is_empty() {
        parts.push(Part::Page(vec![head("On the way"), arcs]));
    } else {
        parts.extend([
            head("On the way"),
            arcs,
            Part::Table(tables::twigs(found)),
            say(words::PASSED),
        ]);
    }
    parts.push(fold(
        "Gap between arc and line of sight at every distance",
        vec![Part::Table(tables::gaps(found, style))],
    ));
}

/// A print as a picture, if it is one.
fn print(file: &File) -> Option<Part> {
    let (name, "svg") = file.name.rsplit_once('.')? else { return None };
    let svg = String::from_utf8(file.bytes.clone()).ok()?;
    let caption = "Smaller than it prints: clothyard tape makes it at true scale, as PDF.";
    Some(Part::Figure(Figure::ready(name, caption, svg)))
}
