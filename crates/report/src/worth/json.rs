//! Bench steps as JSON, in SI.

use study::{Bench, BenchStep, Done, DoneMark, Link, WorthBuild};
use units::Style;

use crate::ReportError;
use crate::tree::Node;

/// Refuses lists that do not fit together.
pub(crate) fn check(found: &Bench) -> Result<(), ReportError> {
    let expected = found.distances.len();
    if expected == 0 || found.builds.is_empty() {
        return Err(ReportError::NoBuild);
    }
    for (at, build) in found.builds.iter().enumerate() {
        let fits = |list: &str, found: usize, expected: usize| {
            let path = format!("worth.builds[{at}].{list}");
            if found == expected {
                Ok(())
            } else {
                Err(ReportError::Ragged { path, found, expected })
            }
        };
        for done in build.tried.iter().chain(&build.machine) {
            fits("marks", done.marks.len(), expected)?;
        }
        for link in &build.chain {
            fits("chain.gain", link.gain.len(), expected)?;
        }
        fits("machine", build.machine.len(), found.steps.len() + 2)?;
        fits("chain", build.chain.len(), found.steps.len())?;
        let tried = build.tried.len();
        let last = build.front.iter().chain([&build.best, &build.all]).max();
        let chained = build.chain.iter().map(|link| link.done).max();
        let last = last.copied().max(chained).unwrap_or_default();
        fits("tried", tried, tried.max(last + 1).max(found.steps.len() + 1))?;
    }
    Ok(())
}

/// The tree of an answer.
pub(crate) fn tree(found: &Bench) -> Node {
    Node::Map(vec![
        ("distances", Node::Series(found.distances.iter().map(|d| d.si()).collect(), "m")),
        ("steps", Node::list(&found.steps, step)),
        ("builds", Node::list(&found.builds, build)),
    ])
}

fn step(step: &BenchStep) -> Node {
    Node::Map(vec![
        ("name", Node::text(&step.name)),
        ("time", Node::Number(step.time.si(), "s")),
        ("cost", Node::Number(step.cost, "1")),
    ])
}

fn indices(list: &[usize]) -> Node {
    Node::list(list, |at| Node::size(*at, "index"))
}

fn build(build: &WorthBuild) -> Node {
    Node::Map(vec![
        ("name", Node::text(&build.name)),
        ("mass", Node::Number(build.built.mass.mass().si(), "kg")),
        ("notes", Node::list(&build.built.notes, |n| Node::Text(n.text(Style::Metric)))),
        ("flights", Node::size(build.flights, "flights")),
        ("tried", Node::list(&build.tried, done)),
        ("machine", Node::list(&build.machine, done)),
        ("chain", Node::list(&build.chain, link)),
        ("unbeaten", indices(&build.front)),
        ("best_three", Node::size(build.best, "index")),
        ("all", Node::size(build.all, "index")),
    ])
}

fn done(done: &Done) -> Node {
    Node::Map(vec![
        ("steps", indices(&done.steps)),
        ("time", Node::Number(done.time, "s")),
        ("cost", Node::Number(done.cost, "1")),
        ("marks", Node::list(&done.marks, mark)),
    ])
}

fn mark(mark: &DoneMark) -> Node {
    Node::Map(vec![
        ("r50", Node::estimate(&mark.r50, "m")),
        ("gain", Node::estimate(&mark.gain, "m")),
        ("sigma_ratio", Node::maybe(mark.ratio.as_ref(), "1")),
        ("flown_r50", Node::estimate(&mark.flown, "m")),
        ("flown_gain", Node::estimate(&mark.flown_gain, "m")),
    ])
}

fn link(link: &Link) -> Node {
    Node::Map(vec![
        ("step", Node::size(link.step, "index")),
        ("done", Node::size(link.done, "index")),
        ("gain", Node::list(&link.gain, |gain| Node::estimate(gain, "m"))),
    ])
}
