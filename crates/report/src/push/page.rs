//! The page of a push: one file, no network, no script.

use std::fmt::Write as _;

use units::Style;

use super::{PushReport, heading, remarks, sentence, tables};
use crate::html::Page;
use crate::markup::escape;
use crate::plots::Plot;
use crate::prose;

/// What the numbers rest on.
const SURE: [&str; 3] = [
    "These are computed numbers, not measured ones. What works along the push (speed, time, \
     energy, the great force) follows from the bow's readings and is well known.",
    "What works across it is not: how stiff a rest is and when it falls away can turn a nose the \
     other way, and how firmly the string holds the nock moves it too. Measure the rest, pin the \
     string down with one measured shift of impact, and compare builds rather than trust one.",
    "The draw force between full draw and brace is the bow's own readings where the scenario has \
     them, else a shape chosen for its kind.",
];

/// The whole page.
pub(super) fn page(report: &PushReport, plots: &[Plot], style: Style) -> String {
    let story = report.story;
    let mut page = Page::open(&heading(report), &sentence(story, style), plots);
    page.plot("push-shapes.svg");
    page.head("How it leaves");
    page.table(&tables::departure(story, style));
    page.say(
        "Left and up are from the line along which the bow pushes. Nose: the line about which the \
         arrow would spin. By bending: on top of the straight arrow, at the instant it leaves.",
    );
    page.table(&tables::along(story, style));
    for remark in remarks(story, style) {
        page.say(&remark);
    }
    page.plot("push-paths.svg");
    page.head("Forces");
    page.plot("push-forces.svg");
    page.head("Energy");
    page.plot("push-stroke.svg");
    page.table(&tables::budget(story, style));
    page.head("How the arrow swings");
    page.plot("push-modes.svg");
    page.table(&tables::modes(story, style));
    page.head("How sure is this");
    page.list(&SURE);
    page.head("Before you shoot");
    page.list(&prose::CAUTIONS);
    origin(&mut page, report);
    page.close()
}

fn origin(page: &mut Page, report: &PushReport) {
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
