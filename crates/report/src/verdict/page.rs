//! The page of a verdict: one file, no network, no script.

use std::fmt::Write as _;

use units::Style;

use super::{VerdictReport, say};
use crate::html::Page;
use crate::markup::escape;
use crate::plots::Plot;
use crate::prose;

/// The whole page.
pub(super) fn page(report: &VerdictReport, plot: &Plot, style: Style) -> String {
    let [first, second] = [0, 1].map(|at| report.groups[at].name.as_str());
    let title = format!("{first} against {second}");
    let plots = std::slice::from_ref(plot);
    let mut page = Page::open(&title, &say::sentence(report), plots);
    page.plot(&plot.name);
    page.table(&say::table(report, style));
    page.say("Spread: the standard deviation of each axis, with its 95 % interval.");
    for text in say::further(report) {
        page.say(&text);
    }
    page.head("Before you shoot");
    page.list(&prose::CAUTIONS);
    page.head("Where this comes from");
    let version = escape(&report.version);
    let _ = writeln!(page.out, "<p>Clothyard {version}, from the shots given.</p>");
    page.close()
}
