//! The pictures of every answer, filled as plain data.

mod causes;
mod drop;
mod face;
mod faces;
mod groups;
mod hits;
pub(crate) mod marks;
pub(crate) mod matters;
mod power;
pub(crate) mod push;
mod sweep;
mod trends;
pub(crate) mod tune;
pub(crate) mod verdict;
pub(crate) mod workbench;
pub(crate) mod worth;

use study::Answer;
use units::{Role, Style};

use crate::figure::{Axis, Ends, Figure};
use crate::{ReportError, show, sides};

pub(crate) use causes::draw as causes;
pub(crate) use drop::draw as drop;
pub(crate) use face::draw as face;

/// A finished picture.
pub(crate) struct Plot {
    /// File name.
    pub(crate) name: String,
    /// What it shows, for those who cannot see it and for the caption.
    pub(crate) caption: String,
    /// The drawing.
    pub(crate) svg: String,
}

impl Figure {
    /// The finished picture.
    pub(crate) fn plot(self) -> Result<Plot, ReportError> {
        let svg = self.svg()?;
        Ok(Plot { name: format!("{}.svg", self.name), caption: self.caption, svg })
    }
}

/// The axis of distances, with a label at each.
fn distances(of: impl IntoIterator<Item = f64>, ends: Ends, style: Style) -> Axis {
    let place = |si| Role::Range.value(si, style);
    let labels = of.into_iter().map(|si| (place(si), show::significant(place(si)))).collect();
    Axis::new(format!("distance, {}", Role::Range.symbol(style)), ends).at(labels)
}

/// The title of an axis: what it shows, and the unit of its role.
fn title(what: &str, role: Role, style: Style) -> String {
    format!("{what}, {}", role.symbol(style))
}

/// Draws every picture.
pub(crate) fn drawn(figures: Vec<Figure>) -> Result<Vec<Plot>, ReportError> {
    figures.into_iter().map(Figure::plot).collect()
}

/// Every picture that the answer fills.
pub(crate) fn all(answer: &Answer, style: Style) -> Vec<Figure> {
    let builds = answer.builds.as_slice();
    let mut figures = Vec::new();
    if answer.sweeps.is_empty() {
        figures.push(faces::draw(builds, answer.target, style));
        figures.push(groups::draw(builds, style));
        figures.push(drop::draw(builds, style));
        if let Some(sides) = &answer.sides {
            figures.extend(hits::draw(builds, sides, sides::hits(answer), style));
            figures.extend(power::draw(builds, sides, style));
        }
        if builds.iter().any(|build| !build.causes.is_empty()) {
            figures.push(causes::draw(builds, style));
        }
    }
    for (at, sweep) in answer.sweeps.iter().enumerate() {
        if !sweep.points.is_empty() {
            figures.extend(sweep::draw(sweep, at, &show::of(answer, &sweep.build), style));
        }
    }
    figures
}
