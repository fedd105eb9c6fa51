//! One face: the groups of all builds at one distance, over each other.

use draw::{Dash, Entry, Figure, Frame, Frames, INK, Mark, Pen, Shape, dash, series};
use study::{BuildAnswer, TargetChoice};
use units::{Role, Style};

use super::faces::{dots, lines, reach, zone};
use crate::show;

/// Arrows drawn of each build; chosen: the shape shows and the page stays
/// small.
const DRAWN: usize = 200;
/// Height over width of the frame; chosen: sentence and face fit one screen.
const TALL: f64 = 0.72;

/// Half heights of a face in the reader's unit that a picture may have, times any power
/// of ten. Chosen: a step is large enough to be seen, and a face at least half full.
const STEPS: [f64; 7] = [1.0, 1.5, 2.0, 3.0, 4.0, 6.0, 8.0];

/// Half the height of the face that shows every group, in the reader's unit: a step of
/// its own, so that a group which grows a little looks larger and not the same.
pub(crate) fn scale(builds: &[BuildAnswer], target: TargetChoice, style: Style) -> f64 {
    let value = |si: f64| Role::Impact.value(si, style);
    let groups = builds.iter().map(|build| reach(&build.marks[0].full)).fold(1e-3, f64::max);
    let half = value(groups.max((1.06 * zone(target)).min(1.6 * groups)));
    let decade = 10.0_f64.powf(half.log10().floor());
    let step = STEPS.into_iter().find(|step| step * decade >= half).unwrap_or(10.0);
    step * decade
}

/// The groups at the first distance on a face of this half height, in the reader's
/// unit. The interval of R50 is a shaded ring round its own.
pub(crate) fn draw(
    builds: &[BuildAnswer],
    target: TargetChoice,
    half: f64,
    style: Style,
) -> Figure {
    let value = |si: f64| Role::Impact.value(si, style);
    let mut marks = lines(target, style);
    for (at, build) in builds.iter().enumerate() {
        marks.push(dots(&build.marks[0].full, DRAWN, Shape::Dot(1.6, 0.5), at, style));
    }
    for (at, build) in builds.iter().enumerate() {
        let (stats, colour) = (&build.marks[0].full.stats, series(at));
        let centre = (value(stats.centre.left), value(stats.centre.up));
        marks.push(Mark::annulus(centre, (value(stats.r50.low), value(stats.r50.high)), colour));
        // An earlier build stays to be seen under a later one.
        let over = (builds.len() - 1 - at) as f64;
        let pen = Pen::solid(if builds.len() > 1 { colour } else { INK }, 1.6 + 2.0 * over);
        marks.push(Mark::ring(centre, value(stats.r50.value), pen));
        marks.push(Mark::ring(centre, value(stats.r90.value), pen.dash(Dash::Dashed)));
    }
    let frame = Frame::new((half / TALL, half), marks);
    let mut frames = Frames::on_one_scale(Frames::rows(vec![frame], 1), Role::Impact.symbol(style));
    let entry = |at| Entry {
        pen: Some(Pen::series(at).dash(dash(at))),
        shape: Some((Shape::Series(at), series(at))),
        text: show::label(builds, at),
    };
    frames.key = (0..builds.len()).map(entry).collect();
    let range = show::plain(Role::Range, builds[0].marks[0].distance.si(), style);
    Figure::new(
        "face",
        format!(
            "Where the arrows land at {range}, seen from the archer. Solid ring: half land inside, \
             its shade the 95 % interval. Outer ring: nine in ten."
        ),
        frames,
    )
}
