//! The page of shares.

use std::fmt::Write as _;

use study::{Answer, Axis, Matters};
use units::{Role, Style};

use super::{say, tables, text};
use crate::html::{self, Page};
use crate::markup::escape;
use crate::plots::Plot;
use crate::{Provenance, prose, show};

/// The whole page.
pub(super) fn page(
    answer: &Answer,
    found: &Matters,
    provenance: &Provenance,
    plots: &[Plot],
    style: Style,
) -> String {
    let mut page = Page::open(&answer.title, &say::headline(found, style), plots);
    for (at, build) in found.builds.iter().enumerate() {
        let of = text::of(found, build);
        page.head(&format!("What makes the group{of}"));
        page.plot(&format!("shares-{}.svg", at + 1));
        if let Some((mark, _)) = say::far(build) {
            let range = show::plain(Role::Range, mark.distance.si(), style);
            page.small_head(&format!("By cause at {range}"));
            page.table(&tables::causes(build, mark, style));
        }
        page.say(say::SHARE);
        page.say(say::AXES);
        let others = build.marks.len().saturating_sub(1);
        for mark in &build.marks[..others] {
            let range = show::plain(Role::Range, mark.distance.si(), style);
            page.folded(&format!("By cause at {range}"), |page| {
                page.table(&tables::causes(build, mark, style));
            });
        }
        page.small_head("By owner and distance");
        page.plot(&format!("owners-{}.svg", at + 1));
        page.table(&tables::owners(build, style));
        page.small_head("All causes");
        page.table(&tables::sums(build, Axis::Both, style));
        page.say(say::SUM);
        for axis in [Axis::Left, Axis::Up, Axis::Radius] {
            page.folded(&format!("All causes, {}", say::axis(axis)), |page| {
                page.table(&tables::sums(build, axis, style));
            });
        }
        page.say(&say::reached(found, build));
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
