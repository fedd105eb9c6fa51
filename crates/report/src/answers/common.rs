//! What several answers say.

use arrow::Built;
use study::{Joint, TargetChoice, UncertainParameter};
use target::Group;
use units::{Role, Style};

use crate::document::{Cell, Document, Kind, Part, Rows, Table, head, list, note, table_of};
use crate::{ReportError, safety};

/// What to mind of any bow.
pub(super) fn care() -> [Part; 2] {
    [head("With any bow"), list(safety::standing())]
}

/// " of "name"" where there are several builds.
pub(super) fn of(several: bool, name: &str) -> String {
    if several { format!(" of \"{name}\"") } else { String::new() }
}

/// Every note of every build, each once, with the build it holds for.
pub(super) fn notes<'a>(
    builds: impl IntoIterator<Item = (&'a str, &'a Built)>,
    style: Style,
) -> Vec<Part> {
    note_texts(builds, style).into_iter().map(note).collect()
}

/// The same as texts.
pub(super) fn note_texts<'a>(
    builds: impl IntoIterator<Item = (&'a str, &'a Built)>,
    style: Style,
) -> Vec<String> {
    let mut texts: Vec<String> = Vec::new();
    for (name, built) in builds {
        for of in &built.notes {
            let text = format!("{name}: {}", of.text(style));
            if !texts.contains(&text) {
                texts.push(text);
            }
        }
    }
    texts
}

/// What was shot at.
pub(super) fn target(target: TargetChoice) -> Part {
    let rows = match target {
        TargetChoice::Zone { diameter } => vec![("zone across", diameter)],
        TargetChoice::Ellipse { width, height } => {
            vec![("zone across", width), ("zone high", height)]
        }
        TargetChoice::Face { diameter, .. } => vec![("face across", diameter)],
    };
    let table = table_of("target", rows).words("target", |(name, _)| *name);
    Part::Data(table.quantity("is", Role::Impact, |(_, length)| length.si()).done())
}

/// The poorly known values and their ranges.
pub(super) fn uncertain(uncertain: &[UncertainParameter]) -> Table {
    table_of("doubts", uncertain).and_range(|doubt| doubt).done()
}

impl<T> Rows<T> {
    /// A poorly known value and its stated range.
    pub(super) fn and_range(self, read: impl Fn(&T) -> &UncertainParameter) -> Self {
        let end =
            |doubt: &UncertainParameter, si: f64| Cell::Quantity(Role::of(doubt.dimension), si);
        self.words("value", |t| read(t).key.clone())
            .cells("from", Kind::Own, |t| end(read(t), read(t).low))
            .figures(3)
            .cells("to", Kind::Own, |t| end(read(t), read(t).high))
            .figures(3)
    }

    /// The statistics of a group; where the fault-free arrow lands is the
    /// origin at each distance.
    pub(super) fn group(self, read: impl Fn(&T) -> &Group) -> Self {
        let (read, role) = (&read, Role::Impact);
        self.counts("impacts", "", |t| read(t).count as u64)
            .filed()
            .quantity("centre left of fault-free impact", role, |t| read(t).centre.left)
            .filed()
            .quantity("centre above fault-free impact", role, |t| read(t).centre.up)
            .filed()
            .estimate("sigma left", role, |t| read(t).sigma_left)
            .filed()
            .estimate("sigma up", role, |t| read(t).sigma_up)
            .filed()
            .estimate("sigma", role, |t| read(t).sigma)
            .filed()
            .estimate("mean radius", role, |t| read(t).mean_radius)
            .filed()
            .estimate("R50", role, |t| read(t).r50)
            .estimate("R90", role, |t| read(t).r90)
            .estimate("six-shot spread", role, |t| read(t).spread6)
    }
}

/// An answer with what is not known of every cell; `told` tells the same answer at
/// an outer point.
pub(super) fn overlaid<T>(
    document: Document,
    joint: Option<&Joint<T>>,
    told: impl Fn(&T) -> Result<Document, ReportError>,
) -> Result<Document, ReportError> {
    let Some(joint) = joint else { return Ok(document) };
    let points: Result<Vec<Document>, ReportError> =
        joint.points.iter().map(|point| told(&point.answer)).collect();
    Ok(document.known(joint, &told(&joint.centre)?, &points?))
}

/// Refuses a list that is not as long as it must be.
pub(super) fn fits(path: &str, found: usize, expected: usize) -> Result<(), ReportError> {
    let path = path.to_owned();
    if found == expected { Ok(()) } else { Err(ReportError::Ragged { path, found, expected }) }
}

/// Whether somebody shoots: without an archer's form the group of archer and arrows
/// is the machine's, to the bit.
pub(super) fn shot(build: &study::BuildAnswer) -> bool {
    build.marks.iter().any(|mark| mark.full.stats != mark.machine.stats)
}

/// The same in two lines.
pub(super) const NOBODY_SHORT: &str = "The scenario does not say who shoots, so these groups are a \
    machine's: no hits, no score, no word on what you would notice. Say it in one line at the top: \
    group = \"5 arrows at 40 yd span 6 in\", or score = .., or level = \"club\".";

/// What is said in place of hits, scores and who would notice.
pub(super) const NOBODY: &str = "The scenario does not say who shoots, so no share of hits, no \
    score and no word on whether you would notice is given: these groups are a machine's. Say it \
    at the top of the file in one of three ways: group = \"5 arrows at 40 yd span 6 in\", one or \
    several; score = \"265 points with 30 arrows on 40 cm at 20 yd\"; or, for lack of both, level = \
    \"club\" (or beginner, tournament, top).";
