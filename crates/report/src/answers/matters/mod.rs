//! Whose share of the spread is how large.

mod figures;
mod words;

use study::{CauseShare, CauseSpread, MarkShares, Matters, MattersBuild, Owner, Plane};
use units::{Role, Style};

use super::common::{care, fits, notes, of};
use crate::ReportError;
use crate::document::{Document, Part, Table, fold, head, list, say, small, table_of};
use crate::show::plain;
use crate::words::owner;
use words::{AXES, SHARE, SUM, SURE, axis, cause, far, group, headline, reached};

/// The shares of every build.
///
/// # Errors
/// [`ReportError::NoBuild`] and [`ReportError::Ragged`] for lists that do not
/// fit together, [`ReportError::NotFinite`] for the first bad number.
pub(super) fn matters(title: &str, found: &Matters, style: Style) -> Result<Document, ReportError> {
    check(found)?;
    let several = found.builds.len() > 1;
    let mut parts = Vec::new();
    for (index, build) in found.builds.iter().enumerate() {
        for (kind, spread) in build.spreads().enumerate() {
            let of = format!("{}, {}", of(several, &build.name), group(kind == 1));
            let keyed = |table: Table| table.of("build", &build.name).of("group", WHO[kind]);
            parts.push(head(format!("What makes the group{of}")));
            let pictures = figures::of(spread, index, kind, style);
            let [shares, owners] = pictures.map_or([None, None], |both| both.map(Some));
            parts.extend(shares.map(Part::Figure));
            if let Some((far, others)) = spread.marks.split_last() {
                parts.push(small(format!("By cause at {}", range(far, style))));
                parts.push(Part::Table(keyed(causes_table(spread, far))));
                let folded = |mark| {
                    let table = Part::Table(keyed(causes_table(spread, mark)));
                    fold(format!("By cause at {}", range(mark, style)), vec![table])
                };
                parts.extend(others.iter().map(folded));
            }
            parts.push(small("By owner and distance"));
            parts.extend(owners.map(Part::Figure));
            parts.push(Part::Table(keyed(owners_table(spread, style))));
            parts.push(small("All causes"));
            parts.push(Part::Table(keyed(sums_table(spread, Plane::Both))));
            for of in [Plane::Left, Plane::Up, Plane::Radius] {
                let table = Part::Table(keyed(sums_table(spread, of)));
                parts.push(fold(format!("All causes, {}", axis(of)), vec![table]));
            }
            parts.push(say(reached(found, spread)));
        }
    }
    parts.extend([Part::Data(shares_table(found)), Part::Data(groups_table(found))]);
    parts.push(Part::Data(runs_table(found)));
    parts.extend([head("How to read this"), list([SHARE, AXES, SUM])]);
    parts.extend(notes(found.builds.iter().map(|b| (b.name.as_str(), &b.built)), style));
    parts.push(Part::Page([vec![head("How sure is this"), list(SURE)], care().to_vec()].concat()));
    Document::new("matters", title, headline(found, style), parts, style)
}

/// How files name the groups of a build.
const WHO: [&str; 2] = ["archer", "machine"];

/// Refuses lists that do not fit together.
fn check(found: &Matters) -> Result<(), ReportError> {
    let expected = found.builds.first().map_or(0, |build| build.full.marks.len());
    if expected == 0 {
        return Err(ReportError::NoBuild);
    }
    for (at, build) in found.builds.iter().enumerate() {
        for spread in build.spreads() {
            let fits = |list: &str, found, expected| {
                fits(&format!("matters.builds[{at}].{list}"), found, expected)
            };
            fits("marks", spread.marks.len(), expected)?;
            for shares in spread.marks.iter().flat_map(|mark| mark.axes.iter().flatten()) {
                fits("causes", shares.causes.len(), spread.causes.len())?;
                fits("owners", shares.owners.len(), spread.owners.len())?;
            }
        }
    }
    Ok(())
}

fn range(mark: &MarkShares, style: Style) -> String {
    plain(Role::Range, mark.distance.si(), style)
}

/// Owners by distance, what they make of the group alone.
fn owners_table(spread: &CauseSpread, style: Style) -> Table {
    let order = match far(spread) {
        Some((_, shares)) => CauseShare::ranked(&shares.owners),
        None => (0..spread.owners.len()).collect(),
    };
    table_of("owners", order)
        .words("owner", |at| owner(spread.owners[*at]))
        .each(&spread.marks, |rows, mark| {
            let of = |at: &usize| Some(mark.axes[0].as_ref()?.owners[*at].alone);
            rows.estimate(range(mark, style), Role::Percent, of)
        })
        .done()
}

/// Causes at one distance: of the group alone and in all, then along each
/// axis alone.
fn causes_table(spread: &CauseSpread, mark: &MarkShares) -> Table {
    let of = |axis: usize, at: &usize| Some(mark.axes[axis].as_ref()?.causes[*at]);
    let alone = |axis| move |at: &usize| of(axis, at).map(|share| share.alone);
    let total = |axis| move |at: &usize| of(axis, at).map(|share| share.total);
    let order = match &mark.axes[0] {
        Some(shares) => CauseShare::ranked(&shares.causes),
        None => (0..spread.causes.len()).collect(),
    };
    table_of("causes", order)
        .words("cause", |at| cause(&spread.causes[*at].name))
        .words("whose", |at| owner(spread.causes[*at].owner))
        .estimate("group, alone", Role::Percent, alone(0))
        .estimate("group, in all", Role::Percent, total(0))
        .estimate("left-right, alone", Role::Percent, alone(1))
        .estimate("up-down, alone", Role::Percent, alone(2))
        .estimate("radius, alone", Role::Percent, alone(3))
        .estimate("radius, in all", Role::Percent, total(3))
        .done()
        .at("distance", Role::Range, mark.distance.si())
}

/// The sum, what works together and what is left, by distance along an axis.
fn sums_table(spread: &CauseSpread, along: Plane) -> Table {
    let at = Plane::ALL.iter().position(|one| *one == along).unwrap_or_default();
    let of = |mark: &&MarkShares| mark.axes[at].clone();
    table_of("sums", &spread.marks)
        .quantity("distance", Role::Range, |mark| mark.distance.si())
        .quantity("standard deviation", Role::Impact, |m| of(m).map(|s| s.sigma))
        .estimate("alone summed", Role::Percent, |m| of(m).map(|s| s.sum))
        .estimate("together", Role::Percent, |m| of(m).map(|s| s.together))
        .estimate("unexplained", Role::Percent, |m| of(m).map(|s| s.unexplained))
        .done()
        .of("axis", axis(along))
}

/// Every group with the build it belongs to.
fn spreads(found: &Matters) -> impl Iterator<Item = (&MattersBuild, &'static str, &CauseSpread)> {
    found
        .builds
        .iter()
        .flat_map(|build| build.spreads().zip(WHO).map(move |(spread, who)| (build, who, spread)))
}

/// One share as files hold it.
type Row<'a> = (&'a str, &'a str, &'a MarkShares, Plane, &'a str, &'a str, Owner, &'a CauseShare);

/// Every share of every cause and owner.
fn shares_table(found: &Matters) -> Table {
    let mut rows: Vec<Row> = Vec::new();
    for (build, who, spread) in spreads(found) {
        for mark in &spread.marks {
            for (along, shares) in Plane::ALL.into_iter().zip(&mark.axes) {
                let Some(shares) = shares else { continue };
                let mut add = |what, name, owner, share| {
                    rows.push((&build.name, who, mark, along, what, name, owner, share));
                };
                for (of, share) in spread.causes.iter().zip(&shares.causes) {
                    add("cause", &of.name, of.owner, share);
                }
                for (of, share) in spread.owners.iter().zip(&shares.owners) {
                    add("owner", owner(*of), *of, share);
                }
            }
        }
    }
    table_of("shares", rows)
        .words("build", |r| r.0)
        .words("group", |r| r.1)
        .quantity("distance", Role::Range, |r| r.2.distance.si())
        .words("axis", |r| axis(r.3))
        .words("what", |r| r.4)
        .words("name", |r| r.5)
        .words("owner", |r| owner(r.6))
        .estimate("alone", Role::Percent, |r| r.7.alone)
        .estimate("in all", Role::Percent, |r| r.7.total)
        .done()
}

/// The statistics of every group.
fn groups_table(found: &Matters) -> Table {
    let marks = spreads(found)
        .flat_map(|(build, who, spread)| spread.marks.iter().map(move |mark| (build, who, mark)));
    table_of("groups", marks)
        .words("build", |r| &r.0.name)
        .quantity("distance", Role::Range, |r| r.2.distance.si())
        .words("group", |r| r.1)
        .group(|r| &r.2.group)
        .done()
}

/// How far each group was flown.
fn runs_table(found: &Matters) -> Table {
    table_of("runs", spreads(found))
        .words("build", |r| &r.0.name)
        .words("group", |r| r.1)
        .quantity("mass", Role::Mass, |r| r.0.built.mass.mass().si())
        .counts("flights", "", |r| r.2.flights as u64)
        .quantity("half-width asked", Role::Percent, |_| found.within)
        .quantity("widest half-width", Role::Percent, |r| r.2.widest)
        .done()
}
