//! The page of bench steps.

use std::fmt::Write as _;

use study::{Answer, Bench};
use units::{Role, Style};

use super::{say, tables, text};
use crate::html::{self, Page};
use crate::markup::escape;
use crate::plots::Plot;
use crate::{Provenance, prose, show};

/// The whole page.
pub(super) fn page(
    answer: &Answer,
    found: &Bench,
    provenance: &Provenance,
    plots: &[Plot],
    style: Style,
) -> String {
    let range = found.distances.last().map_or(0.0, |distance| distance.si());
    let range = show::plain(Role::Range, range, style);
    let mut page = Page::open(&answer.title, &say::headline(found, style), plots);
    for (at, build) in found.builds.iter().enumerate() {
        let of = text::of(found, build);
        page.head(&format!("What the time buys{of}"));
        page.plot(&format!("worth-{}.svg", at + 1));
        page.small_head(&format!("Each step alone, at {range}"));
        page.table(&tables::steps(found, build, style));
        page.say(say::GAIN);
        page.small_head(&format!("One after another, at {range}"));
        page.table(&tables::chain(found, build, style));
        page.say(say::CHAIN);
        if !build.front.is_empty() {
            page.small_head(&format!("Choices that no other beats, at {range}"));
            page.table(&tables::front(found, build, style));
            page.say(say::FRONT);
        }
        page.small_head("Before and after, by distance");
        page.plot(&format!("gains-{}.svg", at + 1));
        page.table(&tables::distances(found, build, style));
    }
    for note in text::notes(found, style) {
        let _ = writeln!(page.out, "<p class=\"note\">{}</p>", escape(&note));
    }
    page.head("How sure is this");
    page.list(&say::SURE);
    page.head("Before you shoot");
    page.list(&prose::CAUTIONS);
    html::origin(&mut page, answer, provenance);
    page.close()
}
