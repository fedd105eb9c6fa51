//! The drop curve with its band, and the height over the line of sight.

use draw::{Axis, Ends, Figure, Lines, Mark, Panel, Pen, Series, Shape, dash, smooth};
use study::{BuildAnswer, MarkAnswer};
use units::{Role, Style};

use super::{distances, title};
use crate::show;

/// Every build's nominal arrow.
pub(crate) fn draw(builds: &[BuildAnswer], style: Style) -> Figure {
    let (mut fall, mut sight): (Vec<Mark>, Vec<Mark>) = (Vec::new(), Vec::new());
    for (at, build) in builds.iter().enumerate() {
        let points = |read: fn(&MarkAnswer) -> f64| -> Vec<(f64, f64)> {
            let x = |mark: &MarkAnswer| Role::Range.value(mark.distance.si(), style);
            build.marks.iter().map(|m| (x(m), Role::Impact.value(read(m), style))).collect()
        };
        // From the bow on, where drop is zero.
        let from_bow = |read| smooth(&[vec![(0.0, 0.0)], points(read)].concat());
        let pen = Pen::series(at).dash(dash(at));
        let drop = Series::line(from_bow(|m| m.nominal.drop), pen)
            .with(points(|m| m.nominal.drop), Shape::Series(at));
        let low = from_bow(|m| m.drop_band.0);
        let band = low.iter().zip(from_bow(|m| m.drop_band.1)).map(|(l, h)| (l.0, l.1, h.1));
        fall.push(drop.band(band.collect()).named(show::label(builds, at)).into());
        let height = points(|m| m.nominal.above_sight);
        sight.push(Series::line(smooth(&height), pen).with(height, Shape::Series(at)).into());
    }
    let base = &builds[0].marks;
    let far = base.last().map_or(1.0, |mark| Role::Range.value(mark.distance.si(), style));
    let x =
        || distances(base.iter().map(|mark| mark.distance.si()), Ends::At(0.0, 1.03 * far), style);
    let below = title("below line of departure", Role::Impact, style);
    let above = title("above line of sight", Role::Impact, style);
    let panels = vec![
        Panel::new(x(), Axis::new(below, Ends::FromZero).back(), fall).tall(220.0),
        Panel::new(x(), Axis::new(above, Ends::HoldsZero), sight).tall(170.0),
    ];
    Figure::new(
        "drop",
        "Above: fall below the line of departure, the line along which the arrow \
         leaves; shaded, the band of the poorly known values. Below: height over the line of \
         sight as zeroed. Marks are computed; the curves are drawn smoothly through them.",
        Lines { panels, ..Lines::default() },
    )
}
