//! What the live page shows of an answer.

use study::{Answer, Owner};
use units::Style;

use crate::json::check;
use crate::plots::Plot;
use crate::{ReportError, headline, markup, plots, prose, text, words};

/// A drawing with its words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// What it shows.
    pub caption: String,
    /// The drawing, ready to stand in a page.
    pub svg: String,
}

/// The pictures of an answer at one distance.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Live {
    /// The answer at that distance in one or two sentences.
    pub sentence: String,
    /// The groups of all builds on one face.
    pub face: Picture,
    /// Drop and height over the line of sight.
    pub flight: Picture,
    /// The faults ranked, where there are any.
    pub causes: Option<Picture>,
}

/// Draws the pictures; `at` counts the distances, and `answer` compares builds
/// (a sweep or a tuning answer has no such pictures).
///
/// # Errors
/// As [`crate::json`]; and [`ReportError::Plot`] where a plot cannot be drawn.
pub fn live(answer: &Answer, at: usize, style: Style) -> Result<Live, ReportError> {
    check(answer)?;
    let near = only(answer, at);
    let picture = |plot: Plot| Picture {
        caption: plot.caption,
        // The name space is only needed in a file of its own.
        svg: plot.svg.replacen(" xmlns=\"http://www.w3.org/2000/svg\"", "", 1),
    };
    let caused = near.builds.iter().any(|build| !build.causes.is_empty());
    Ok(Live {
        sentence: headline(&near, style)?,
        face: picture(plots::face(&near.builds, near.target, style).plot()?),
        flight: picture(plots::drop(&answer.builds, style).plot()?),
        causes: if caused {
            Some(picture(plots::causes(&near.builds, style).plot()?))
        } else {
            None
        },
    })
}

/// The answer at one of its distances.
fn only(answer: &Answer, at: usize) -> Answer {
    let mut near = answer.clone();
    for build in &mut near.builds {
        build.marks = build.marks.drain(..).skip(at).take(1).collect();
        for cause in &mut build.causes {
            cause.r50 = cause.r50.drain(..).skip(at).take(1).collect();
        }
    }
    for pair in &mut near.pairs {
        pair.marks = pair.marks.drain(..).skip(at).take(1).collect();
    }
    near.sides = None;
    near
}

/// Every note of every build, each once.
pub fn notes(answer: &Answer, style: Style) -> Vec<String> {
    text::notes(answer, style)
}

/// What to mind before shooting.
pub fn cautions() -> &'static [&'static str] {
    &prose::CAUTIONS
}

/// Whose faults, in plain words.
pub fn owner_name(owner: Owner) -> &'static str {
    words::owner(owner)
}

/// The colours and type of the report, for pages that show its pictures.
pub fn style_sheet() -> &'static str {
    markup::STYLE
}
