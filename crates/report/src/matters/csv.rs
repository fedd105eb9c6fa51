//! Shares as CSV.

use study::{Axis, Matters, MattersBuild, Share, Spread};
use units::{Role, Style};

use super::say;
use crate::csv::Sheet;
use crate::words;

/// Every table with its file name.
pub(super) fn all(found: &Matters, style: Style) -> Vec<(&'static str, String)> {
    vec![("shares.csv", shares(found, style)), ("sums.csv", sums(found, style))]
}

fn shares(found: &Matters, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet
        .field("build")
        .field("group")
        .head("distance", Role::Range)
        .field("axis")
        .field("what")
        .field("name");
    sheet.field("owner");
    sheet.estimate_head("alone", Role::Percent);
    sheet.estimate_head("in all", Role::Percent);
    sheet.end();
    for (build, group, spread) in spreads(found) {
        for mark in &spread.marks {
            for (axis, shares) in Axis::ALL.into_iter().zip(&mark.axes) {
                let Some(shares) = shares else { continue };
                let mut row = |what: &str, name: &str, owner: &str, share: &Share| {
                    sheet.field(&build.name).field(group).number(Role::Range, mark.distance.si());
                    sheet.field(say::axis(axis)).field(what).field(name).field(owner);
                    sheet.estimate(Role::Percent, &share.alone);
                    sheet.estimate(Role::Percent, &share.total);
                    sheet.end();
                };
                for (cause, share) in spread.causes.iter().zip(&shares.causes) {
                    row("cause", &cause.name, words::owner(cause.owner), share);
                }
                for (owner, share) in spread.owners.iter().zip(&shares.owners) {
                    row("owner", words::owner(*owner), words::owner(*owner), share);
                }
            }
        }
    }
    sheet.finish()
}

fn sums(found: &Matters, style: Style) -> String {
    let mut sheet = Sheet::new(style);
    sheet.field("build").field("group").head("distance", Role::Range).field("axis");
    sheet.head("standard deviation", Role::Impact);
    for name in ["alone summed", "together", "unexplained"] {
        sheet.estimate_head(name, Role::Percent);
    }
    sheet.end();
    for (build, group, spread) in spreads(found) {
        for mark in &spread.marks {
            for (axis, shares) in Axis::ALL.into_iter().zip(&mark.axes) {
                let Some(shares) = shares else { continue };
                sheet.field(&build.name).field(group).number(Role::Range, mark.distance.si());
                sheet.field(say::axis(axis)).number(Role::Impact, shares.sigma);
                for part in [&shares.sum, &shares.together, &shares.unexplained] {
                    sheet.estimate(Role::Percent, part);
                }
                sheet.end();
            }
        }
    }
    sheet.finish()
}

/// Every group with the build it belongs to.
fn spreads(found: &Matters) -> impl Iterator<Item = (&MattersBuild, &'static str, &Spread)> {
    found.builds.iter().flat_map(|build| {
        let kinds = ["archer", "machine"];
        build.spreads().zip(kinds).map(move |(spread, kind)| (build, kind, spread))
    })
}
