//! What the live page shows of a comparison.

use draw::Figure;
use study::Answer;
use units::Style;

use super::common;
use super::compare::{Case, LiveFigure, figures, lead, settings};
use crate::document::embedded;
use crate::{ReportError, plots, safety};

/// A face is held up to so many times the one that would do. Chosen: a group smaller
/// than that is a dot.
const LOOSEST: f64 = 20.0;

/// A drawing with its words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Picture {
    /// What it shows.
    pub caption: String,
    /// The drawing, ready to stand in a page.
    pub svg: String,
}

/// The pictures of a comparison at one distance.
#[derive(Debug, Clone, PartialEq)]
pub struct Live {
    /// What to mind before it is read.
    pub cautions: Vec<crate::CautionText>,
    /// How many of them, the first ones, can hurt the shooter.
    pub hurts: usize,
    /// The answer at that distance in one or two sentences.
    pub sentence: String,
    /// What their own sight settings hide, where builds land apart with one.
    pub settings: Option<String>,
    /// The groups of all builds on one face.
    pub face: Picture,
    /// Half the height of that face, in the reader's unit of impacts.
    pub scale: f64,
    /// Drop and height over the line of sight.
    pub flight: Picture,
    /// What every build does at that distance, in few figures.
    pub figures: Vec<LiveFigure>,
    /// The faults ranked, where there are any.
    pub causes: Option<Picture>,
    /// Whether the scenario says who shoots; without that nothing is said of hits, nor of
    /// what an archer would see.
    pub shot: bool,
    /// Every note of every build, each once.
    pub notes: Vec<String>,
}

/// Draws the pictures; `at` counts the distances, and `held` is the half height of the
/// face before, which stays while every group fits on it. Groups stand where the wind
/// carries them, the sight held on the mark.
///
/// # Errors
/// [`ReportError::NoComparison`] where no builds were compared, and as for a
/// report.
pub fn live(
    answer: &Answer,
    at: usize,
    held: Option<f64>,
    style: Style,
) -> Result<Live, ReportError> {
    let found = answer.compared().ok_or(ReportError::NoComparison)?;
    let mut near = found.clone();
    for build in &mut near.builds {
        build.marks = build.marks.drain(..).skip(at).take(1).collect();
        for cause in &mut build.causes {
            cause.r50 = cause.r50.drain(..).skip(at).take(1).collect();
        }
    }
    for pair in &mut near.pairs {
        pair.marks = pair.marks.drain(..).skip(at).take(1).collect();
    }
    for side in &mut near.sides.builds {
        side.marks = side.marks.drain(..).skip(at).take(1).collect();
    }
    near.sides.pairs.clear();
    let of =
        |found| Case::new(found, answer.unknown.as_ref(), (answer.target, &answer.cautions), style);
    let (whole, near) = (of(found)?, Case { skipped: at, ..of(&near)? });
    let picture = |figure: Figure| {
        let svg = embedded(&figure.svg()?);
        Ok::<_, ReportError>(Picture { caption: figure.caption, svg })
    };
    let mut carried = near.builds.to_vec();
    for (build, side) in carried.iter_mut().zip(&near.sides.builds) {
        let left = side.marks[0].carried;
        let group = &mut build.marks[0].full;
        group.stats.centre.left += left;
        group.sample.iter_mut().for_each(|impact| impact.left += left);
    }
    let fits = plots::face_scale(&carried, near.target, near.style);
    let scale = held.filter(|held| (fits..=LOOSEST * fits).contains(held)).unwrap_or(fits);
    let caused = near.builds.iter().any(|build| !build.causes.is_empty());
    Ok(Live {
        cautions: safety::cautions(&answer.cautions, &[], style),
        hurts: safety::hurts(&answer.cautions),
        sentence: lead(near),
        settings: settings(near),
        face: picture(plots::face(&carried, near.target, scale, near.style))?,
        scale,
        flight: picture(plots::drop(whole.builds, whole.style))?,
        figures: figures(near),
        causes: if caused { Some(picture(plots::causes(near.builds, near.style))?) } else { None },
        shot: near.shot(),
        notes: common::note_texts(whole.named(), style),
    })
}
