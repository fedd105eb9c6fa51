//! The pictures, as SVG. This is the only place that names the plotting
//! library.

mod axes;
mod causes;
mod drop;
mod face;
mod faces;
mod groups;
mod hits;
mod ink;
pub(crate) mod marks;
pub(crate) mod matters;
mod paper;
mod power;
pub(crate) mod push;
mod sweep;
pub(crate) mod tune;
pub(crate) mod verdict;
pub(crate) mod workbench;
pub(crate) mod worth;

use study::{Answer, BuildAnswer};
use units::{Role, Style};

use crate::figure::{Axis, Ends, Figure};
use crate::{ReportError, show};

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

/// How a key names a build.
fn label(builds: &[BuildAnswer], at: usize) -> String {
    if builds.len() > 1 { builds[at].name.clone() } else { "this build".to_owned() }
}

/// What is shown of a build, after its name where there are several.
fn titled(builds: &[BuildAnswer], at: usize, what: &str) -> String {
    if builds.len() > 1 { format!("{}, {what}", builds[at].name) } else { what.to_owned() }
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

/// Every picture that the answer fills.
pub(crate) fn all(answer: &Answer, style: Style) -> Result<Vec<Plot>, ReportError> {
    let mut plots = Vec::new();
    if answer.sweeps.is_empty() {
        plots.push(faces::draw(&answer.builds, answer.target, style).plot()?);
        plots.push(groups::draw(&answer.builds, style).plot()?);
        plots.push(drop::draw(answer, style)?);
        if let Some(sides) = &answer.sides {
            plots.extend(hits::draw(answer, sides, style)?);
            plots.extend(power::draw(answer, sides, style)?);
        }
        if answer.builds.iter().any(|build| !build.causes.is_empty()) {
            plots.push(causes::draw(answer, style)?);
        }
    }
    for (at, one) in answer.sweeps.iter().enumerate() {
        if !one.points.is_empty() {
            plots.extend(sweep::draw(answer, at, style)?);
        }
    }
    Ok(plots)
}
