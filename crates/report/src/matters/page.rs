//! The page of shares.

use std::fmt::Write as _;

use study::{Answer, Axis, MarkShares, Matters, Spread};
use units::{Role, Style};

use super::{say, tables, text};
use crate::html::{self, Page};
use crate::markup::escape;
use crate::plots::Plot;
use crate::{Provenance, plots, prose, show};

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
        for (kind, spread) in build.spreads().enumerate() {
            let of = format!("{}, {}", text::of(found, build), say::group(kind == 1));
            page.head(&format!("What makes the group{of}"));
            let file = |what| format!("{}.svg", plots::matters::file(what, at, kind));
            page.plot(&file("shares"));
            causes(&mut page, spread, style);
            page.small_head("By owner and distance");
            page.plot(&file("owners"));
            page.table(&tables::owners(spread, style));
            page.small_head("All causes");
            page.table(&tables::sums(spread, Axis::Both, style));
            for axis in [Axis::Left, Axis::Up, Axis::Radius] {
                page.folded(&format!("All causes, {}", say::axis(axis)), |page| {
                    page.table(&tables::sums(spread, axis, style));
                });
            }
            page.say(&say::reached(found, spread));
        }
    }
    page.head("How to read this");
    page.list(&[say::SHARE, say::AXES, say::SUM]);
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

/// The causes at the farthest distance, and folded at the others.
fn causes(page: &mut Page, spread: &Spread, style: Style) {
    let Some((far, others)) = spread.marks.split_last() else { return };
    let range = |mark: &MarkShares| show::plain(Role::Range, mark.distance.si(), style);
    page.small_head(&format!("By cause at {}", range(far)));
    page.table(&tables::causes(spread, far, style));
    for mark in others {
        page.folded(&format!("By cause at {}", range(mark)), |page| {
            page.table(&tables::causes(spread, mark, style));
        });
    }
}
