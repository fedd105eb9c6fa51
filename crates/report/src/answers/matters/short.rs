//! What matters in a few lines: five causes on one scale, the archer first among them.

use study::{CauseShare, CauseSpread, Found, Joint, Matters, MattersBuild, Owner, SharesOf};
use units::{Role, Style};

use super::super::common::of;
use super::super::unknown;
use super::words;
use super::words::far;
use crate::document::{Part, Table, say, table_of};
use crate::show::{plain, share};
use crate::words::{cause, owner};

/// Rows of the table. Chosen: what an archer can act on.
const ROWS: usize = 5;

/// How much smaller a group must be before an archer notices. Chosen: a tenth shows over
/// some hundred arrows (power-test.md), less over none that anyone shoots.
const NOTICED: f64 = 0.1;

/// The short answer, of the first build.
pub(super) fn short(found: &Matters, joint: Option<&Joint<Found>>, style: Style) -> Vec<Part> {
    let Some(build) = found.builds.first() else { return Vec::new() };
    let Some((mark, shares)) = far(&build.full) else {
        return vec![say(words::headline(found, joint, style))];
    };
    let name = of(found.builds.len() > 1, &build.name);
    let range = plain(Role::Range, mark.distance.si(), style);
    let inches = |si: f64| Role::Impact.text(si, style);
    let rows = rows(build, shares);
    let archer = rows.iter().find(|row| row.archer);
    let bench = rows.iter().find(|row| row.builder);
    let first = match (archer, bench) {
        (Some(archer), Some(bench)) => format!(
            "At {range} your own form alone makes {} of the {} by which arrows stray{name} (two in \
             three stray less, to each side); of what a builder can change, the {} matters most, \
             {}.",
            inches(archer.alone),
            inches(shares.sigma),
            bench.name,
            inches(bench.alone)
        ),
        _ => format!(
            "At {range} the {} matters most{name}: alone it makes {} of the {} by which arrows stray \
             (two in three stray less, to each side).",
            rows.first().map_or("wind", |row| row.name.as_str()),
            inches(rows.first().map_or(0.0, |row| row.alone)),
            inches(shares.sigma)
        ),
    };
    let mut parts = vec![say(first)];
    parts.extend(archer.filter(|_| shares.sigma > 0.0).map(|archer| {
        let less = 1.0 - archer.alone / shares.sigma;
        let told = if less < 0.005 {
            "not so much as 1 % smaller".to_owned()
        } else {
            format!("{} smaller", share(less))
        };
        let answer = if less < NOTICED { "No" } else { "Yes, over many groups" };
        say(format!(
            "Would you notice? {answer}: with every fault and every breeze gone your group would be {told}; \
             spreads add by their squares."
        ))
    }));
    let bands = unknown::bands(joint.is_some());
    parts.push(say(format!("How far each alone makes arrows stray at {range}{bands}:")));
    parts.push(Part::Table(table(&rows)));
    parts.push(say(match (archer, bench) {
        (Some(archer), Some(bench)) if archer.alone > bench.alone => format!(
            "Next: practise before you work at the bench; there, the {} first. To price the steps \
             ask a worth question.",
            bench.name
        ),
        _ => "Next: ask a worth question to price the steps that take the largest away.".to_owned(),
    }));
    parts
}

/// A cause and what it makes alone, m.
struct Row {
    name: String,
    whose: &'static str,
    alone: f64,
    archer: bool,
    /// Whether a builder can change it.
    builder: bool,
}

/// The archer as one row, and every other cause, the largest first. The others come from
/// the machine's group where there is one, which knows them far better.
fn rows(build: &MattersBuild, full: &SharesOf) -> Vec<Row> {
    let alone = |share: &CauseShare, sigma: f64| share.alone.value.max(0.0).sqrt() * sigma;
    let machine = build.machine.as_ref().and_then(|spread| Some((spread, far(spread)?.1)));
    let (spread, shares): (&CauseSpread, &SharesOf) = machine.unwrap_or((&build.full, full));
    let mut rows: Vec<Row> = spread
        .causes
        .iter()
        .zip(&shares.causes)
        .filter(|(cause, _)| cause.owner != Owner::Archer)
        .map(|(of, share)| Row {
            name: cause(&of.name),
            whose: owner(of.owner),
            alone: alone(share, shares.sigma),
            archer: false,
            builder: !matches!(of.owner, Owner::Weather | Owner::Bow),
        })
        .collect();
    let archers = build.full.owners.iter().zip(&full.owners);
    rows.extend(archers.filter(|(owner, _)| **owner == Owner::Archer).map(|(_, share)| Row {
        name: "your own form".to_owned(),
        whose: owner(Owner::Archer),
        alone: alone(share, full.sigma),
        archer: true,
        builder: false,
    }));
    rows.sort_by(|a, b| b.alone.total_cmp(&a.alone));
    rows
}

fn table(rows: &[Row]) -> Table {
    table_of("short", rows)
        .about(|row| row.name.clone())
        .words("cause", |row| &row.name)
        .words("comes from", |row| row.whose)
        .quantity("alone", Role::Impact, |row| row.alone)
        .done()
        .at_most(ROWS)
}
