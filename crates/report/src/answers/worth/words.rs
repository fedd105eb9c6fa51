//! Words about the worth of bench steps.

use study::{Band, Found, Joint, WorthBuild, WorthOfSteps};
use target::Estimate;
use units::{Role, Style};

use super::super::unknown::{self, Asked};
use crate::document::Part;
use crate::show::{figures as rounded, interval, plain};

/// How gains are read.
pub(super) const GAIN: &str = "R50: half of all arrows land within this distance of their centre. \
    Gain: R50 before less after, with its 95 % interval, by the ratio of the spreads (sigma), as \
    if the group kept its shape; before and after are the same shots, with the same arrows before \
    and after the work. A gain whose interval holds zero is not shown to be one. R50 as flown, \
    which needs no shape but is known far less closely, stands in steps.csv.";

/// How the order is read.
pub(super) const CHAIN: &str = "Each line adds the step that brings most for its time after those \
    above it. What a step adds here is less than what it brings alone where others have taken \
    its place: spreads add by their squares, so a step shows more the less else is left.";

/// How the front is read.
pub(super) const FRONT: &str = "No other choice is both quicker and tighter, and each line adds at \
    least a hundredth of what all steps bring. The numbers are those of the steps above. Every choice of up to \
    three steps was tried, and longer ones along the order above.";

/// What the gains rest on.
pub(super) const SURE: [&str; 4] = [
    "These are computed numbers, not measured ones. A step is worth what the scenario says it \
     takes away; measure a dozen before and after, and put those numbers in.",
    "Times and costs are yours. Where the scenario gives none, a chosen default stands: the \
     resolved scenario below marks it.",
    "Chance: a group of finitely many flights is itself a sample. The 95 % intervals say how far \
     it may be from the truth of the model.",
    "Knowledge: bands say what the poorly known values of bow, arrow and air leave of each number; \
     a step that is best for its time at the usual values is not always so.",
];

/// A time in minutes.
pub(super) fn minutes(seconds: f64) -> String {
    rounded(seconds / 60.0, 3)
}

/// Whether a gain is shown, one way or the other.
pub(super) fn verdict(gain: &Estimate) -> &'static str {
    if gain.low > 0.0 {
        "tighter"
    } else if gain.high < 0.0 {
        "wider"
    } else {
        "not shown"
    }
}

/// Names of steps in a sentence.
pub(super) fn listed(found: &WorthOfSteps, steps: &[usize]) -> String {
    let names: Vec<String> =
        steps.iter().map(|at| format!("\"{}\"", found.steps[*at].name)).collect();
    if names.is_empty() { "nothing".to_owned() } else { crate::words::listed(&names, "and") }
}

/// The number of a step: its place among the steps alone.
pub(super) fn number(build: &WorthBuild, step: usize) -> usize {
    let place = build.by_rate().iter().position(|at| build.tried[*at].steps == [step]);
    place.unwrap_or_default() + 1
}

/// A step's number and name.
pub(super) fn numbered(found: &WorthOfSteps, build: &WorthBuild, step: usize) -> String {
    format!("{} {}", number(build, step), found.steps[step].name)
}

/// One build of an answer.
fn build_of(found: &Found, at: usize) -> Option<&WorthBuild> {
    match found {
        Found::Worth(worth) => worth.builds.get(at),
        _ => None,
    }
}

/// A number of one build in words, with its band.
struct Told<'a> {
    joint: Option<&'a Joint<Found>>,
    at: usize,
    style: Style,
}

impl Told<'_> {
    fn band(&self, value: f64, read: impl Fn(&WorthBuild) -> Option<f64>) -> Option<Band> {
        self.joint?.band(value, |found| read(build_of(found, self.at)?))
    }

    fn size(&self, value: f64, read: impl Fn(&WorthBuild) -> Option<f64>) -> String {
        unknown::figure(Role::Impact, value, self.band(value, read), self.style)
    }

    /// In what share of what is not known the same step is the best for its time.
    fn stands(&self, first: usize) -> String {
        let Some(joint) = self.joint else { return String::new() };
        let verdict = |found: &Found| {
            build_of(found, self.at).is_some_and(|build| build.by_rate()[0] == first)
        };
        let read = |found: &Found| lead_of(build_of(found, self.at)?, first);
        let asked = Asked { what: String::new(), read: &read, verdict: &verdict };
        unknown::stands(
            "That this step comes first",
            joint.standing(verdict),
            unknown::decider(joint, &asked),
        )
    }
}

/// By how much the gain for its time of one step alone is above the best of the
/// others, m/s.
fn lead_of(build: &WorthBuild, first: usize) -> Option<f64> {
    let rate = |at: usize| build.tried[at].far().gain.value / build.tried[at].time;
    let others = build.by_rate().into_iter().filter(|at| *at != first).map(rate);
    Some(rate(first) - others.reduce(f64::max)?)
}

/// What is not known of the gain of all steps, and of which is best for its time.
pub(super) fn not_known(
    found: &WorthOfSteps,
    joint: Option<&Joint<Found>>,
    style: Style,
) -> Vec<Part> {
    let Some(build) = found.builds.first() else { return Vec::new() };
    let range = plain(Role::Range, found.distances.last().map_or(0.0, |d| d.si()), style);
    let first = build.by_rate()[0];
    let all = |found: &Found| {
        let build = build_of(found, 0)?;
        Some(build.tried[build.all].far().gain.value)
    };
    let leads = |found: &Found| lead_of(build_of(found, 0)?, first);
    let same = |found: &Found| build_of(found, 0).is_some_and(|b| b.by_rate()[0] == first);
    let one = listed(found, &build.tried[first].steps);
    unknown::section(
        joint,
        &[
            Asked { what: format!("what all steps bring at {range}"), read: &all, verdict: &same },
            Asked {
                what: format!("whether {one} brings most for its time"),
                read: &leads,
                verdict: &same,
            },
        ],
    )
}

/// The answer in a few plain sentences, at the farthest distance.
pub(super) fn headline(found: &WorthOfSteps, joint: Option<&Joint<Found>>, style: Style) -> String {
    let several = found.builds.len() > 1;
    let told = found.builds.iter().enumerate().map(|(at, build)| {
        let of = if several { format!(" with \"{}\"", build.name) } else { String::new() };
        one(found, build, &of, &Told { joint, at, style })
    });
    told.collect::<Vec<_>>().join(" ")
}

fn one(found: &WorthOfSteps, build: &WorthBuild, with: &str, told: &Told) -> String {
    let style = told.style;
    let range = found.distances.last().map_or(0.0, |distance| distance.si());
    let range = plain(Role::Range, range, style);
    let (now, all) = (build.tried[0].far(), &build.tried[build.all]);
    let every = all.far();
    let count = found.steps.len();
    let now = told.size(now.r50.value, |build| Some(build.tried[0].far().r50.value));
    let Some(all_of_it) = build.share_of_all(every.gain.value) else {
        return format!(
            "At {range} no gain shows{with}, not even with all {count} steps done: half of your \
             arrows land within {now} of the middle, and the 95 % interval of the gain is {}.",
            interval(Role::Impact, &every.gain, style)
        );
    };
    debug_assert!(all_of_it > 0.0, "a gain that shows is above zero");
    let best = &build.tried[build.best];
    let taken = best.far().gain;
    let first = build.by_rate()[0];
    let one = build.tried[first].far().gain;
    let start = format!(
        "At {range} all {count} steps{with} bring half of your arrows within {} of the middle, from {now}, \
         in {} min a dozen.",
        told.size(every.r50.value, |build| Some(build.tried[build.all].far().r50.value)),
        minutes(all.time)
    );
    let three = if best.steps.len() < count && taken.low > 0.0 {
        let part =
            |build: &WorthBuild| build.share_of_all(build.tried[build.best].far().gain.value);
        let own = part(build).unwrap_or_default();
        format!(
            " {} alone take {} of that gain in {} min.",
            listed(found, &best.steps),
            unknown::portion(own, told.band(own, part)),
            minutes(best.time)
        )
    } else {
        String::new()
    };
    let quick = if one.low > 0.0 {
        format!(
            " For its time {} brings most: {} in {} min.{}",
            listed(found, &build.tried[first].steps),
            told.size(one.value, |build| Some(build.tried[first].far().gain.value)),
            minutes(build.tried[first].time),
            told.stands(first),
        )
    } else {
        " No step alone shows a gain.".to_owned()
    };
    format!("{start}{three}{quick}")
}
