//! Two groups side by side on one scale.

use units::{Role, Style};

use crate::figure::{Figure, Frame, Frames, INK, Mark, Pen, Series, Shape, series};
use crate::verdict::{ShotGroup, VerdictReport};

/// Room of a frame over the farthest shot, or over the mean radius where no
/// shot is known.
const ROOM: f64 = 1.12;

/// Each group about its own centre, with its mean radius.
pub(crate) fn draw(report: &VerdictReport, style: Style) -> Figure {
    let value = |si: f64| Role::Impact.value(si, style);
    let far = |group: &ShotGroup| {
        let shots = group.shots.iter().map(|shot| shot.left.abs().max(shot.up.abs()));
        ROOM * shots.fold(group.mean_radius, f64::max)
    };
    let half = value(report.groups.iter().map(far).fold(0.0, f64::max));
    let frame = |(at, group): (usize, &ShotGroup)| {
        let shots = group.shots.iter().map(|shot| (value(shot.left), value(shot.up))).collect();
        let ring = Mark::ring((0.0, 0.0), value(group.mean_radius), Pen::solid(INK, 1.3));
        let shots = Series::spots(shots, Shape::Dot(3.0, 0.8), series(at)).into();
        let mut frame = Frame::new((half, half), vec![shots, ring]);
        frame.head = format!("{}, {} shots", group.name, group.count);
        frame.under = vec![Role::Impact.text(group.mean_radius, style)];
        frame
    };
    let frames = report.groups.iter().enumerate().map(frame).collect();
    let caption = format!(
        "Each group about its own centre, both on one scale. Ring: the mean radius, {}.",
        Role::Impact.symbol(style)
    );
    Figure::new("verdict", caption, Frames::on_one_scale(Frames::rows(frames, 2), ""))
}
