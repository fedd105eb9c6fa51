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

use study::Answer;
use units::Style;

use crate::ReportError;

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

/// Every picture that the answer fills.
pub(crate) fn all(answer: &Answer, style: Style) -> Result<Vec<Plot>, ReportError> {
    let mut plots = Vec::new();
    if answer.sweeps.is_empty() {
        plots.push(faces::draw(answer, style)?);
        plots.push(groups::draw(answer, style)?);
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
