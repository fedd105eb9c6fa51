//! Shares as JSON, in SI.

use study::{Axis, MarkShares, Matters, MattersBuild, Share, SharesOf, Spread};
use units::Style;

use super::say;
use crate::ReportError;
use crate::tree::Node;
use crate::words;

/// Refuses lists that do not fit together.
pub(crate) fn check(found: &Matters) -> Result<(), ReportError> {
    let expected = found.builds.first().map_or(0, |build| build.full.marks.len());
    if expected == 0 {
        return Err(ReportError::NoBuild);
    }
    for (at, build) in found.builds.iter().enumerate() {
        for spread in build.spreads() {
            let fits = |list: &str, found: usize, expected: usize| {
                let path = format!("matters.builds[{at}].{list}");
                if found == expected {
                    Ok(())
                } else {
                    Err(ReportError::Ragged { path, found, expected })
                }
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

/// The tree of an answer.
pub(crate) fn tree(found: &Matters) -> Node {
    Node::Map(vec![
        ("first_order", Node::text("Saltelli et al. 2010, table 2 (b)")),
        ("total", Node::text("Jansen 1999; Saltelli et al. 2010, table 2 (f)")),
        ("within", Node::Number(found.within, "1")),
        ("builds", Node::list(&found.builds, build)),
    ])
}

fn build(build: &MattersBuild) -> Node {
    Node::Map(vec![
        ("name", Node::text(&build.name)),
        ("mass", Node::Number(build.built.mass.mass().si(), "kg")),
        ("notes", Node::list(&build.built.notes, |n| Node::Text(n.text(Style::Metric)))),
        ("archer", spread(&build.full)),
        ("machine", build.machine.as_ref().map_or(Node::Null, spread)),
    ])
}

fn spread(spread: &Spread) -> Node {
    Node::Map(vec![
        ("flights", Node::size(spread.flights, "flights")),
        ("widest_half_width", Node::Number(spread.widest, "1")),
        ("marks", Node::list(&spread.marks, |at| mark(spread, at))),
    ])
}

fn mark(build: &Spread, mark: &MarkShares) -> Node {
    let axes = Axis::ALL.into_iter().zip(&mark.axes).map(|(axis, shares)| {
        Node::Map(vec![
            ("axis", Node::text(say::axis(axis))),
            ("shares", shares.as_ref().map_or(Node::Null, |shares| of(build, shares))),
        ])
    });
    Node::Map(vec![
        ("distance", Node::Number(mark.distance.si(), "m")),
        ("group", Node::group(&mark.group)),
        ("axes", Node::List(axes.collect())),
    ])
}

fn of(build: &Spread, shares: &SharesOf) -> Node {
    let causes = build.causes.iter().zip(&shares.causes).map(|(cause, share)| {
        let mut map = vec![
            ("name", Node::text(&cause.name)),
            ("owner", Node::text(words::owner(cause.owner))),
        ];
        map.extend(both(share));
        Node::Map(map)
    });
    let owners = build.owners.iter().zip(&shares.owners).map(|(owner, share)| {
        let mut map = vec![("owner", Node::text(words::owner(*owner)))];
        map.extend(both(share));
        Node::Map(map)
    });
    Node::Map(vec![
        ("standard_deviation", Node::Number(shares.sigma, "m")),
        ("sum", Node::estimate(&shares.sum, "1")),
        ("together", Node::estimate(&shares.together, "1")),
        ("unexplained", Node::estimate(&shares.unexplained, "1")),
        ("causes", Node::List(causes.collect())),
        ("owners", Node::List(owners.collect())),
    ])
}

fn both(share: &Share) -> [(&'static str, Node); 2] {
    [("alone", Node::estimate(&share.alone, "1")), ("in_all", Node::estimate(&share.total, "1"))]
}
