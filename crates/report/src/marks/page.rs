//! The page of sight marks.

use std::fmt::Write as _;

use units::Style;

use super::{MarksReport, heading, say, tables};
use crate::html::Page;
use crate::markup::{escape, set};
use crate::plots::Plot;
use crate::{prose, words};

/// The whole page.
pub(super) fn page(report: &MarksReport, plots: &[Plot], style: Style) -> String {
    let marks = report.marks;
    let mut page = Page::open(&heading(report), &say::sentence(marks, style), plots);
    page.list(&say::CAUTIONS);
    page.head("Marks");
    page.plot("marks.svg");
    page.table(&tables::marks(marks, style));
    page.table(&tables::flight(marks, style));
    page.say(&say::read(marks, style));
    for text in [say::turn(marks, style), say::sight(marks, style)] {
        if !text.is_empty() {
            page.say(&text);
        }
    }
    if !marks.pins.is_empty() {
        page.head("Pins");
        page.table(&tables::pins(marks, style));
    }
    if !marks.pins.is_empty() || marks.point_on.is_some() {
        page.small_head("Hold over (+) or under (-) the target");
        let point = say::point_on(marks, style);
        if !point.is_empty() {
            page.say(&point);
        }
        page.table(&tables::holds(marks, style));
    }
    way(&mut page, report, style);
    if !marks.hills.is_empty() {
        page.head("Up and down");
        page.small_head("The level mark to dial");
        page.table(&tables::dial(marks, style));
        page.say(&say::cosine(marks, style));
        page.folded("Where the cosine rule sends the arrow: high (+) or low (-)", |page| {
            page.table(&tables::cosine(marks, style));
        });
        page.folded("With the slope left out: high (+) or low (-)", |page| {
            page.table(&tables::ignored(marks, style));
        });
    }
    if !report.prints.is_empty() {
        page.head("To print");
        page.plot("tape.svg");
        page.plot("card.svg");
    }
    if !marks.changes.is_empty() {
        page.head("What a change does");
        page.say(&say::changed(marks, style));
        for change in &marks.changes {
            page.table(&tables::change(marks, change, style));
        }
    }
    for note in &marks.built.notes {
        let _ = writeln!(page.out, "<p class=\"note\">Note: {}</p>", set(&note.text(style)));
    }
    page.head("How sure is this");
    page.list(&[prose::SURE[0], prose::SURE[2]]);
    if !marks.doubts.is_empty() {
        let names: Vec<String> = marks.doubts.iter().map(|d| words::value(&d.key)).collect();
        page.say(&format!("Poorly known here: {}.", names.join(", ")));
    }
    page.head("Before you shoot");
    page.list(&prose::CAUTIONS);
    origin(&mut page, report);
    page.close()
}

/// The arcs, and what they pass.
fn way(page: &mut Page, report: &MarksReport, style: Style) {
    let marks = report.marks;
    page.head("On the way");
    page.plot("arcs.svg");
    if !marks.twigs.is_empty() {
        page.small_head("Arrow over or under twig or edge");
        page.table(&tables::twigs(marks, style));
        page.say(say::PASSED);
    }
    page.folded("Gap between arc and line of sight at every distance", |page| {
        page.table(&tables::gaps(marks, style));
    });
}

fn origin(page: &mut Page, report: &MarksReport) {
    let provenance = report.provenance;
    page.head("Where this comes from");
    let _ = writeln!(
        page.out,
        "<p>Clothyard {}, scenario <code>{}</code>. The same scenario and version give the same \
         numbers.</p>",
        escape(&provenance.version),
        escape(&provenance.source_name),
    );
    let scenario = escape(&provenance.scenario);
    page.folded("The scenario as it was used, every default filled in", |page| {
        let _ = writeln!(page.out, "<pre tabindex=\"0\">{scenario}</pre>");
    });
}
