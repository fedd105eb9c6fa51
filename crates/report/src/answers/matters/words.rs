//! Words about shares.

use study::Plane;
use study::{CauseShare, CauseSpread, MarkShares, Matters, MattersBuild, Owner, SharesOf};
use target::Estimate;
use units::{Role, Style};

use crate::show::{plain, share};
use crate::words;

/// What a share is.
pub(super) const SHARE: &str = "Shares are parts of the variance, the square of the spread. Alone: \
    what a cause makes on its own (first-order index). In all: with everything it has a part in \
    (total index); the difference is what it does only together with other causes.";

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
    "Knowledge: the poorly known values of bow and air stay at their middles here. How firmly a \
     string and a rest hold an arrow moves the shares of the nock end and the shaft.",
    "Every flight has a new arrow, however many arrows you own.",
];

/// The name of a cause in plain words.
pub(super) fn cause(name: &str) -> String {
    let known = match name {
        "faults.point_end" => "point end face",
        "faults.insert_face" => "insert face",
        "faults.point_cant" => "point cant",
        "faults.tip_runout" => "tip run-out",
        "faults.point_offset" => "point off centre",
        "faults.nock_end" => "nock end face",
        "faults.nock_cant" => "nock cant",
        "faults.nock_offset" => "nock off centre",
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

/// The answer in one or two plain sentences, at the farthest distance.
pub(super) fn headline(found: &Matters, style: Style) -> String {
    let several = found.builds.len() > 1;
    let told = found.builds.iter().map(|build| {
        let of = if several { format!(" of \"{}\"", build.name) } else { String::new() };
        one(build, &of, style)
    });
    told.collect::<Vec<_>>().join(" ")
}

pub(super) fn one(build: &MattersBuild, of: &str, style: Style) -> String {
    let Some((mark, shares)) = far(&build.full) else {
        return format!("Nothing spreads the group{of}.");
    };
    let range = plain(Role::Range, mark.distance.si(), style);
    let owner = CauseShare::ranked(&shares.owners)[0];
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
pub(super) fn causes(of: &CauseSpread, shares: &SharesOf) -> String {
    let told = |at: &usize| {
        let name = cause(&of.causes[*at].name);
        format!("the {name}, {}", told(&shares.causes[*at].alone))
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

/// "41.0 % (39.5 to 42.5 %)".
pub(super) fn told(estimate: &Estimate) -> String {
    let percent = |value: f64| Role::Percent.number(value.clamp(0.0, 1.0), Style::Metric);
    let [value, low, high] = [estimate.value, estimate.low, estimate.high].map(percent);
    format!("{value} % ({low} to {high} %)")
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
