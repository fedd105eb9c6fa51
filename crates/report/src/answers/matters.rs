//! Whose share of the spread is how large.

use study::{Axis, MarkShares, Matters, MattersBuild, Owner, Share, SharesOf, Spread};
use target::Estimate;
use units::{Role, Style};

use super::common::{care, fits, notes, of};
use crate::answers::figures;
use crate::document::{Document, Part, Table, fold, head, list, say, small, table_of};
use crate::show::{plain, share};
use crate::{ReportError, words};

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
            if let Some((mark, _)) = far(spread) {
                parts.push(Part::Figure(figures::shares(spread, index, kind, style)));
                parts.push(small(format!("By cause at {}", range(mark, style))));
            }
            if let Some((far, others)) = spread.marks.split_last() {
                parts.push(Part::Table(keyed(causes_table(spread, far))));
                let folded = |mark| {
                    let table = Part::Table(keyed(causes_table(spread, mark)));
                    fold(format!("By cause at {}", range(mark, style)), vec![table])
                };
                parts.extend(others.iter().map(folded));
            }
            parts.push(small("By owner and distance"));
            if far(spread).is_some() {
                parts.push(Part::Figure(figures::owners(spread, index, kind, style)));
            }
            parts.push(Part::Table(keyed(owners_table(spread, style))));
            parts.push(small("All causes"));
            parts.push(Part::Table(keyed(sums_table(spread, Axis::Both))));
            for of in [Axis::Left, Axis::Up, Axis::Radius] {
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
fn owners_table(spread: &Spread, style: Style) -> Table {
    let order = match far(spread) {
        Some((_, shares)) => ranked(&shares.owners),
        None => (0..spread.owners.len()).collect(),
    };
    table_of("owners", order)
        .words("owner", |at| words::owner(spread.owners[*at]))
        .each(&spread.marks, |rows, mark| {
            let of = |at: &usize| Some(mark.axes[0].as_ref()?.owners[*at].alone);
            rows.estimate(range(mark, style), Role::Percent, of)
        })
        .done()
}

/// Causes at one distance: of the group alone and in all, then along each
/// axis alone.
fn causes_table(spread: &Spread, mark: &MarkShares) -> Table {
    let of = |axis: usize, at: &usize| Some(mark.axes[axis].as_ref()?.causes[*at]);
    let alone = |axis| move |at: &usize| of(axis, at).map(|share| share.alone);
    let total = |axis| move |at: &usize| of(axis, at).map(|share| share.total);
    let order = match &mark.axes[0] {
        Some(shares) => ranked(&shares.causes),
        None => (0..spread.causes.len()).collect(),
    };
    table_of("causes", order)
        .words("cause", |at| cause(&spread.causes[*at].name))
        .words("whose", |at| words::owner(spread.causes[*at].owner))
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
fn sums_table(spread: &Spread, along: Axis) -> Table {
    let at = Axis::ALL.iter().position(|one| *one == along).unwrap_or_default();
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
fn spreads(found: &Matters) -> impl Iterator<Item = (&MattersBuild, &'static str, &Spread)> {
    found
        .builds
        .iter()
        .flat_map(|build| build.spreads().zip(WHO).map(move |(spread, who)| (build, who, spread)))
}

/// One share as files hold it.
type Row<'a> = (&'a str, &'a str, &'a MarkShares, Axis, &'a str, &'a str, Owner, &'a Share);

/// Every share of every cause and owner.
fn shares_table(found: &Matters) -> Table {
    let mut rows: Vec<Row> = Vec::new();
    for (build, who, spread) in spreads(found) {
        for mark in &spread.marks {
            for (along, shares) in Axis::ALL.into_iter().zip(&mark.axes) {
                let Some(shares) = shares else { continue };
                let mut add = |what, name, owner, share| {
                    rows.push((&build.name, who, mark, along, what, name, owner, share));
                };
                for (cause, share) in spread.causes.iter().zip(&shares.causes) {
                    add("cause", &cause.name, cause.owner, share);
                }
                for (owner, share) in spread.owners.iter().zip(&shares.owners) {
                    add("owner", words::owner(*owner), *owner, share);
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
        .words("owner", |r| words::owner(r.6))
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

/// What a share is.
const SHARE: &str = "Shares are parts of the variance, the square of the spread. Alone: \
    what a cause makes on its own (first-order index). In all: with everything it has a part in \
    (total index); the difference is what it does only together with other causes.";

/// How the axes differ.
const AXES: &str = "Group: left-right and up-down together, which is how spread adds \
    up. Radius: the distance from the group's centre. A large sideways miss and a large high one \
    do not add in the radius, so more of its spread is made together.";

/// How the sum is read.
const SUM: &str = "Alone, summed: all causes on their own. Together: half of what the \
    causes' shares in all are above their shares alone, exact where causes work in pairs. \
    Unexplained: the rest, which is chance and causes that work by threes.";

/// What the shares rest on.
const SURE: [&str; 4] = [
    "These are computed numbers, not measured ones. A share is a share of what the scenario says \
     goes wrong; a cause that is left out has none, and one that is guessed has a guessed share.",
    "Chance: the flights are a sample. The 95 % intervals come from 16 sets of evenly spread \
     points, each scrambled on its own (Sobol' points, Owen scrambling; estimators of Saltelli \
     and of Jansen).",
    "Knowledge: the poorly known values of bow and air stay at their middles here. How firmly a \
     string and a rest hold an arrow moves the shares of the nock end and the shaft.",
    "Every flight has a new arrow, however many arrows you own.",
];

/// The name of a cause in plain words.
fn cause(name: &str) -> String {
    let known = match name {
        "faults.point_end" => "point end face",
        "faults.insert_face" => "insert face",
        "faults.point_cant" => "point cant",
        "faults.tip_runout" => "tip run-out",
        "faults.point_offset" => "point off centre",
        "faults.nock_end" => "nock end face",
        "faults.nock_cant" => "nock cant",
        "faults.groove_offset" => "groove off centre",
        "faults.wall_offset" => "uneven wall",
        "faults.bend" => "shaft bend",
        "faults.vane.angle" => "vane angle",
        "faults.vane.around" => "vane spacing",
        "faults.vane.forward" => "vane set forward",
        "archer.aim_left" => "aim sideways",
        "archer.aim_up" => "aim up-down",
        "archer.speed" => "archer's speed",
        "archer.release_left" => "release sideways",
        "archer.release_up" => "release up-down",
        "arrow.index" => "nock turned",
        "wind" => "wind",
        _ => {
            let name = name.strip_prefix("faults.").unwrap_or(name);
            return words::value(name);
        }
    };
    known.to_owned()
}

/// The name of an axis.
fn axis(axis: Axis) -> &'static str {
    match axis {
        Axis::Both => "group",
        Axis::Left => "left-right",
        Axis::Up => "up-down",
        Axis::Radius => "radius",
    }
}

/// The spread of the group at the farthest distance, if there is one.
fn far(build: &Spread) -> Option<(&MarkShares, &SharesOf)> {
    let mark = build.marks.last()?;
    Some((mark, mark.axes[0].as_ref()?))
}

/// Indices of shares, the largest first.
fn ranked(shares: &[Share]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..shares.len()).collect();
    order.sort_by(|a, b| shares[*b].alone.value.total_cmp(&shares[*a].alone.value));
    order
}

/// The answer in one or two plain sentences, at the farthest distance.
fn headline(found: &Matters, style: Style) -> String {
    let several = found.builds.len() > 1;
    let told = found.builds.iter().map(|build| {
        let of = if several { format!(" of \"{}\"", build.name) } else { String::new() };
        one(build, &of, style)
    });
    told.collect::<Vec<_>>().join(" ")
}

fn one(build: &MattersBuild, of: &str, style: Style) -> String {
    let Some((mark, shares)) = far(&build.full) else {
        return format!("Nothing spreads the group{of}.");
    };
    let range = plain(Role::Range, mark.distance.si(), style);
    let owner = ranked(&shares.owners)[0];
    let who = whose(build.full.owners[owner]);
    let most = told(&shares.owners[owner].alone);
    let rest = match build.machine.as_ref().and_then(|machine| Some((machine, far(machine)?))) {
        Some((machine, (_, shares))) => {
            let sigma = Role::Impact.text(shares.sigma, style);
            format!(
                "From a shooting machine the spread is {sigma}, most of it from {}.",
                causes(machine, shares)
            )
        }
        None => format!("The largest causes are {}.", causes(&build.full, shares)),
    };
    let sigma = Role::Impact.text(shares.sigma, style);
    format!(
        "At {range} {who} {most} of the group's spread{of}, by variance ({sigma} one standard \
         deviation, both ways together). {rest}"
    )
}

/// The two largest causes, each with its share.
fn causes(of: &Spread, shares: &SharesOf) -> String {
    let told = |at: &usize| {
        let name = cause(&of.causes[*at].name);
        format!("the {name}, {}", told(&shares.causes[*at].alone))
    };
    let named: Vec<String> = ranked(&shares.causes).iter().take(2).map(told).collect();
    named.join(", and ")
}

fn whose(owner: Owner) -> &'static str {
    match owner {
        Owner::Archer => "the archer makes",
        Owner::FrontEnd => "the front end makes",
        Owner::NockEnd => "the nock end makes",
        Owner::Shaft => "the shaft makes",
        Owner::Vanes => "the vanes make",
        Owner::Weights => "the weights make",
        Owner::Bow => "the bow makes",
        Owner::Weather => "the weather makes",
    }
}

/// "41.0 % (39.5 to 42.5 %)".
fn told(estimate: &Estimate) -> String {
    let percent = |value: f64| Role::Percent.number(value.clamp(0.0, 1.0), Style::Metric);
    let [value, low, high] = [estimate.value, estimate.low, estimate.high].map(percent);
    format!("{value} % ({low} to {high} %)")
}

/// A group in a heading.
fn group(machine: bool) -> &'static str {
    if machine { "from a shooting machine" } else { "archer and arrows" }
}

/// How far the intervals got.
fn reached(found: &Matters, build: &Spread) -> String {
    let (asked, got) = (share(found.within), share(build.widest));
    let flights = crate::show::count(build.flights as u64);
    if build.widest <= found.within {
        format!("Every share is known within {got} (asked: {asked}) after {flights} flights.")
    } else {
        format!(
            "Shares are known within {got} only, not the {asked} asked for: the {flights} flights \
             allowed were not enough. Allow more with question.flights."
        )
    }
}
