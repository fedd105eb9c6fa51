//! Words about shares.

use study::{
    Band, CauseShare, CauseSpread, Found, Joint, MarkShares, Matters, MattersBuild, Owner, Plane,
    SharesOf,
};
use target::Estimate;
use units::{Role, Style};

use super::super::unknown::{self, Asked};
use crate::document::Part;
use crate::show::{plain, share};
use crate::words::cause;

/// What a share is.
pub(super) const SHARE: &str = "Shares are parts of the variance, the square of the spread. Alone: \
    what a cause makes on its own (first-order index). In all: with everything it has a part in \
    (total index); the difference is what it does only together with other causes. \
    A share lies between none and all, and so does its interval.";

/// How the axes differ.
pub(super) const AXES: &str = "Group: left-right and up-down together, which is how spread adds \
    up. Radius: the distance from the group's centre. A large sideways miss and a large high one \
    do not add in the radius, so more of its spread is made together.";

/// How the sum is read.
pub(super) const SUM: &str = "Alone, summed: all causes on their own. Together: half of what the \
    causes' shares in all are above their shares alone, exact where causes work in pairs. \
    Unexplained: the rest, which is chance and causes that work by threes.";

/// What the shares rest on.
pub(super) const SURE: [&str; 4] = [
    "These are computed numbers, not measured ones. A share is a share of what the scenario says \
     goes wrong; a cause that is left out has none, and one that is guessed has a guessed share.",
    "Chance: the flights are a sample. The 95 % intervals come from 16 sets of evenly spread \
     points, each scrambled on its own (Sobol' points, Owen scrambling; estimators of Saltelli \
     and of Jansen).",
    "Knowledge: bands say what the poorly known values of bow, arrow and air leave. How firmly a \
     string and a rest hold an arrow moves the shares of the nock end and the shaft.",
    "Every flight has a new arrow, however many arrows you own.",
];

/// The name of an axis.
pub(super) fn axis(axis: Plane) -> &'static str {
    match axis {
        Plane::Both => "group",
        Plane::Left => "left-right",
        Plane::Up => "up-down",
        Plane::Radius => "radius",
    }
}

/// The spread of the group at the farthest distance, if there is one.
pub(super) fn far(build: &CauseSpread) -> Option<(&MarkShares, &SharesOf)> {
    let mark = build.marks.last()?;
    Some((mark, mark.axes[0].as_ref()?))
}

/// A group of one build at the farthest distance, at an outer point.
fn spread_of(found: &Found, at: usize, machine: bool) -> Option<(&CauseSpread, &SharesOf)> {
    let Found::Matters(matters) = found else { return None };
    let build = matters.builds.get(at)?;
    let spread = if machine { build.machine.as_ref()? } else { &build.full };
    Some((spread, far(spread)?.1))
}

/// The share of an owner in the whole group, by name.
fn owned(found: &Found, at: usize, owner: Owner) -> Option<f64> {
    let (spread, shares) = spread_of(found, at, false)?;
    let place = spread.owners.iter().position(|of| *of == owner)?;
    Some(shares.owners.get(place)?.alone.value)
}

/// The share of a cause in a group, by name.
fn caused(found: &Found, at: usize, machine: bool, name: &str) -> Option<f64> {
    let (spread, shares) = spread_of(found, at, machine)?;
    let place = spread.causes.iter().position(|of| of.name == name)?;
    Some(shares.causes.get(place)?.alone.value)
}

/// Whether an owner makes most of the group.
fn leads(found: &Found, at: usize, owner: Owner) -> bool {
    spread_of(found, at, false).is_some_and(|(spread, shares)| {
        CauseShare::ranked(&shares.owners).first().map(|of| spread.owners[*of]) == Some(owner)
    })
}

/// The owner that makes most of a build's group.
fn largest(build: &MattersBuild) -> Option<Owner> {
    let (_, shares) = far(&build.full)?;
    Some(build.full.owners[*CauseShare::ranked(&shares.owners).first()?])
}

/// What is not known of who makes most of the group.
pub(super) fn not_known(found: &Matters, joint: Option<&Joint<Found>>, style: Style) -> Vec<Part> {
    let Some(build) = found.builds.first() else { return Vec::new() };
    let Some((owner, mark)) = largest(build).zip(build.full.marks.last()) else {
        return Vec::new();
    };
    let range = plain(Role::Range, mark.distance.si(), style);
    let what = format!("how much {} of the group at {range}", whose(owner));
    let read = |found: &Found| owned(found, 0, owner);
    let verdict = |found: &Found| leads(found, 0, owner);
    unknown::section(joint, &[Asked { what, read: &read, verdict: &verdict }])
}

/// The answer in one or two plain sentences, at the farthest distance.
pub(super) fn headline(found: &Matters, joint: Option<&Joint<Found>>, style: Style) -> String {
    let several = found.builds.len() > 1;
    let told = found.builds.iter().enumerate().map(|(at, build)| {
        let of = if several { format!(" of \"{}\"", build.name) } else { String::new() };
        one(build, &of, (joint, at), style)
    });
    told.collect::<Vec<_>>().join(" ")
}

fn one(
    build: &MattersBuild,
    of: &str,
    (joint, at): (Option<&Joint<Found>>, usize),
    style: Style,
) -> String {
    let Some(((mark, shares), owner)) = far(&build.full).zip(largest(build)) else {
        return format!("Nothing spreads the group{of}.");
    };
    let range = plain(Role::Range, mark.distance.si(), style);
    let first = CauseShare::ranked(&shares.owners)[0];
    let alone = &shares.owners[first].alone;
    let band = joint.and_then(|joint| joint.band(alone.value, |found| owned(found, at, owner)));
    let most = told(alone, band);
    let sigma = |value: f64, machine: bool| {
        let read = |found: &Found| Some(spread_of(found, at, machine)?.1.sigma);
        let band = joint.and_then(|joint| joint.band(value, read));
        unknown::figure(Role::Impact, value, band, style)
    };
    let rest = match build.machine.as_ref().and_then(|machine| Some((machine, far(machine)?))) {
        Some((machine, (_, shares))) => format!(
            "From a shooting machine the spread is {}, most of it from {}.",
            sigma(shares.sigma, true),
            causes(machine, shares, (joint, at, true))
        ),
        None => {
            format!("The largest causes are {}.", causes(&build.full, shares, (joint, at, false)))
        }
    };
    let stands = joint.map_or_else(String::new, |joint| {
        let read = |found: &Found| owned(found, at, owner);
        let verdict = |found: &Found| leads(found, at, owner);
        let asked = Asked { what: String::new(), read: &read, verdict: &verdict };
        unknown::stands(
            "That this is the largest cause",
            joint.standing(verdict),
            unknown::decider(joint, &asked),
        )
    });
    format!(
        "At {range} {} {most} of the group's spread{of}, by variance ({} one standard \
         deviation, both ways together).{stands} {rest}",
        whose(owner),
        sigma(shares.sigma, false),
    )
}

/// The two largest causes, each with its share.
fn causes(
    of: &CauseSpread,
    shares: &SharesOf,
    (joint, build, machine): (Option<&Joint<Found>>, usize, bool),
) -> String {
    let told = |at: &usize| {
        let (name, alone) = (&of.causes[*at].name, &shares.causes[*at].alone);
        let read = |found: &Found| caused(found, build, machine, name);
        let band = joint.and_then(|joint| joint.band(alone.value, read));
        format!("the {}, {}", cause(name), told(alone, band))
    };
    let named: Vec<String> = CauseShare::ranked(&shares.causes).iter().take(2).map(told).collect();
    named.join(", and ")
}

pub(super) fn whose(owner: Owner) -> &'static str {
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

/// "41.0 % (39.5 to 42.5 %)": the interval of chance, or where the poorly known
/// values leave more open than chance does, their band.
fn told(estimate: &Estimate, band: Option<Band>) -> String {
    let percent = |value: f64| Role::Percent.number(value.clamp(0.0, 1.0), Style::Metric);
    let [value, low, high] = [estimate.value, estimate.low, estimate.high].map(percent);
    match band.filter(|band| band.high - band.low > estimate.high - estimate.low) {
        Some(band) => unknown::portion(
            estimate.value.clamp(0.0, 1.0),
            Some(Band { low: band.low.clamp(0.0, 1.0), high: band.high.clamp(0.0, 1.0) }),
        ),
        None => format!("{value} % ({low} to {high} %)"),
    }
}

/// A group in a heading.
pub(super) fn group(machine: bool) -> &'static str {
    if machine { "from a shooting machine" } else { "archer and arrows" }
}

/// How far the intervals got.
pub(super) fn reached(found: &Matters, build: &CauseSpread) -> String {
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
