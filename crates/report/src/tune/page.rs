//! The page of a tuning answer.

use std::fmt::Write as _;

use study::{Answer, Tuned, TunedBuild};
use units::{Role, Style};

use super::say::{self, BANDS, NEUTRAL, NOCK, STILL, TEAR};
use super::{tables, text};
use crate::html::{self, Page};
use crate::markup::escape;
use crate::plots::Plot;
use crate::{Provenance, prose, show};

/// What the numbers rest on.
const SURE: [&str; 3] = [
    "These are computed numbers, not measured ones. A model of your arrow is as good as what you \
     told it.",
    "How firmly a string and a rest hold an arrow sideways is poorly known, and a kick can change \
     its side within that range. The bands say how far; one measured shift of impact narrows them.",
    "Compare before you trust: which change helps is better known than by how much.",
];

/// The whole page.
pub(super) fn page(
    answer: &Answer,
    tuned: &Tuned,
    provenance: &Provenance,
    plots: &[Plot],
    style: Style,
) -> String {
    let mut page = Page::open(&answer.title, &say::headline(tuned, style), plots);
    page.plot("tune-impacts.svg");
    page.head("Bare against fletched");
    page.say(NEUTRAL);
    each(&mut page, tuned, |page, build| page.table(&tables::bare(build, style)));
    page.say(BANDS);
    changes(&mut page, tuned, style);
    if tuned.builds.iter().any(|build| !build.paper.is_empty()) {
        page.head("On paper");
        for (at, build) in tuned.builds.iter().enumerate() {
            name(&mut page, tuned, build);
            page.plot(&format!("tune-paper-{}.svg", at + 1));
            page.table(&tables::paper(build, style));
        }
        page.say(TEAR);
    }
    if tuned.builds.len() > 1 {
        page.head("One build against the other");
        for build in tuned.builds.iter().skip(1) {
            let first = &tuned.builds[0].name;
            page.small_head(&format!("\"{}\" less \"{first}\", same aim", build.name));
            page.table(&tables::against(tuned, build, style));
        }
    }
    page.head("Room for the vanes");
    each(&mut page, tuned, |page, build| {
        for text in say::clearance(&build.clearance, style) {
            page.say(&text);
        }
    });
    page.head("Turning the nock");
    page.say(NOCK);
    for (at, build) in tuned.builds.iter().enumerate() {
        name(&mut page, tuned, build);
        if text::turns_show(build, style) {
            page.plot(&format!("tune-nock-{}.svg", at + 1));
            let all = 0..tuned.distances.len();
            page.folded("Every distance", |page| {
                page.table(&tables::nock(tuned, build, all, style));
            });
        } else {
            page.say(STILL);
        }
        if let Some(text) = text::drawn(tuned, build, style) {
            page.say(&text);
        }
    }
    page.head("The arrows");
    page.table(&tables::card(tuned, style));
    for note in text::notes(tuned, style) {
        let _ = writeln!(page.out, "<p class=\"note\">{}</p>", escape(&note));
    }
    page.head("How sure is this");
    page.list(&SURE);
    if tuned.builds.iter().any(|build| !build.doubts.is_empty()) {
        page.folded("The poorly known values", |page| {
            each(page, tuned, |page, build| page.table(&tables::doubts(build, style)));
        });
    }
    page.head("Before you shoot");
    page.list(&prose::CAUTIONS);
    html::origin(&mut page, answer, provenance);
    page.close()
}

/// The changes tried.
fn changes(page: &mut Page, tuned: &Tuned, style: Style) {
    if tuned.builds.iter().all(|build| build.trends.is_empty()) {
        return;
    }
    page.head("One change at a time");
    for (at, build) in tuned.builds.iter().enumerate() {
        name(page, tuned, build);
        page.plot(&format!("tune-trends-{}.svg", at + 1));
        if let Some((found, _)) = say::separation(build) {
            let range = show::plain(Role::Range, build.bare[found.mark].distance.si(), style);
            page.say(&format!("Bare and fletched apart at {range}:"));
            page.table(&tables::changes(build, found.mark, style));
        }
        for trend in &build.trends {
            let of = text::of(tuned, build);
            page.folded(&format!("Every {} tried{of}", say::name(&trend.key)), |page| {
                page.table(&tables::trend(tuned, trend, style));
                let reason = trend.points.iter().find_map(|point| {
                    Some((say::value(trend, point.value), point.shot.as_ref().err()?))
                });
                if let Some((value, error)) = reason {
                    page.say(&format!("At {value}: {error}."));
                }
            });
        }
    }
}

/// Something of every build, under its name where there are several.
fn each(page: &mut Page, tuned: &Tuned, show: impl Fn(&mut Page, &TunedBuild)) {
    for build in &tuned.builds {
        name(page, tuned, build);
        show(page, build);
    }
}

fn name(page: &mut Page, tuned: &Tuned, build: &TunedBuild) {
    if tuned.builds.len() > 1 {
        page.small_head(&format!("\"{}\"", build.name));
    }
}
