//! Whose share of the spread is how large.

mod figures;
mod short;
mod words;

use study::{CauseShare, CauseSpread, Found, Joint, MarkShares, Matters, MattersBuild, Plane};
use target::Estimate;
use units::{Role, Style};

use super::common::{care, fits, notes, of};
use crate::ReportError;
use crate::document::{Document, Part, Table, fold, head, list, say, small, table_of};
use crate::show::plain;
use crate::words::{cause, owner};
use words::{AXES, SHARE, SUM, SURE, axis, far, group, headline, reached};

/// The shares of every build.
///
/// # Errors
/// [`ReportError::NoBuild`] and [`ReportError::Ragged`] for lists that do not
/// fit together, [`ReportError::NotFinite`] for the first bad number.
pub(super) fn matters(
    title: &str,
    found: &Matters,
    joint: Option<&Joint<Found>>,
    style: Style,
) -> Result<Document, ReportError> {
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
    parts.extend(words::not_known(found, joint, style));
    parts.extend([groups_table(found), runs_table(found)].map(Part::Data));
    parts.extend([head("How to read this"), list([SHARE, AXES, SUM])]);
    parts.extend(notes(found.builds.iter().map(|b| (b.name.as_str(), &b.built)), style));
    parts.push(Part::Page([vec![head("How sure is this"), list(SURE)], care().to_vec()].concat()));
    Document::new("matters", title, headline(found, joint, style), parts, style)?
        .shortly(short::short(found, joint, style))
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

/// A share of the variance, which lies between none and all: what the chance of the sample
/// puts beyond is no part of its interval.
fn part(share: Estimate) -> Estimate {
    let [value, low, high] =
        [share.value, share.low, share.high].map(|share| share.clamp(0.0, 1.0));
    Estimate { value, low, high }
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
            let of = |axis: usize, at: &usize| Some(mark.axes[axis].as_ref()?.owners[*at]);
            rows.each(Plane::ALL.into_iter().enumerate(), |rows, (axis, along)| {
                let head = |what| format!("{}, {}, {what}", range(mark, style), words::axis(along));
                let first = if axis == 0 { range(mark, style) } else { head("alone") };
                rows.estimate(first, Role::Percent, |at| Some(part(of(axis, at)?.alone)))
                    .filed_if(axis > 0)
                    .estimate(head("in all"), Role::Percent, |at| Some(part(of(axis, at)?.total)))
                    .filed()
            })
        })
        .done()
}

/// Causes at one distance: of the group alone and in all, then along each
/// axis alone.
fn causes_table(spread: &CauseSpread, mark: &MarkShares) -> Table {
    let order = match &mark.axes[0] {
        Some(shares) => CauseShare::ranked(&shares.causes),
        None => (0..spread.causes.len()).collect(),
    };
    table_of("causes", order)
        .words("cause", |at| cause(&spread.causes[*at].name))
        .words("comes from", |at| owner(spread.causes[*at].owner))
        .words("key", |at| &spread.causes[*at].name)
        .filed()
        .each(Plane::ALL.into_iter().enumerate(), |rows, (axis, along)| {
            let of = |at: &usize| Some(mark.axes[axis].as_ref()?.causes[*at]);
            let head = |what| format!("{}, {what}", words::axis(along));
            rows.estimate(head("alone"), Role::Percent, |at| Some(part(of(at)?.alone)))
                .estimate(head("in all"), Role::Percent, |at| Some(part(of(at)?.total)))
                .filed_if(matches!(along, Plane::Left | Plane::Up))
        })
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
