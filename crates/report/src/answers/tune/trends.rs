//! Trends as small multiples: a row a variable, all rows on one scale.

use draw::{
    Axis, Dash, Ends, Entry, Figure, INK, Lines, Mark, Panel, Pen, SOFT, Series, Shape, around,
    from_zero, hold_zero,
};
use study::{Trend, TrendShot, Tuned};
use units::{Role, Style};

use super::words::{name, unit};
use crate::plots::title;
use crate::show;

/// What a curve shows of a shot, in the unit of its axis; none where there is
/// nothing.
type Read<'a> = &'a dyn Fn(&TrendShot) -> Option<f64>;

/// The trends of one build.
pub(super) fn draw(tuned: &Tuned, at: usize, style: Style) -> Figure {
    let build = &tuned.builds[at];
    let apart = |mark: usize| {
        move |shot: &TrendShot| shot.apart[mark].map(|[l, u]| Role::Impact.value(l.hypot(u), style))
    };
    let rate = |plane: usize| {
        move |shot: &TrendShot| {
            let rate = [shot.departure.yaw_rate, shot.departure.pitch_rate][plane];
            Some(Role::Rate.value(rate, style))
        }
    };
    let shots = || {
        let points = build.trends.iter().flat_map(|trend| &trend.points);
        points.filter_map(|point| point.shot.as_ref().ok())
    };
    let distances = || tuned.distances.iter().enumerate().rev();
    let most = from_zero(distances().flat_map(|(mark, _)| shots().filter_map(apart(mark))));
    let turning = hold_zero([0, 1].into_iter().flat_map(|plane| shots().filter_map(rate(plane))));
    let changes = build.neutral.as_ref().map_or(&[][..], |found| found.changes.as_slice());
    let mut panels = Vec::new();
    for (row, trend) in build.trends.iter().enumerate() {
        let unit = unit(trend);
        let own = Mark::Rule { x: unit.of_si(trend.own), pen: Pen::asked() };
        let (mut left, mut right) = (vec![own.clone()], vec![own]);
        for (mark, distance) in distances() {
            let named = format!("apart at {}", show::plain(Role::Range, distance.si(), style));
            left.extend(curve(trend, &apart(mark), Pen::series(mark), mark, &named, row));
        }
        let up = Pen::solid(SOFT, 2.0).dash(Dash::Dashed);
        let (named, sideways) = ("nose turning left (right: negative)", Pen::solid(INK, 2.0));
        right.extend(curve(trend, &rate(0), sideways, 3, named, row));
        right.extend(curve(trend, &rate(1), up, 1, "nose turning up (down: negative)", row));
        if let Some(change) = changes.iter().find(|change| change.trend == row) {
            let size = Role::Impact.value(change.left_over, style);
            let spot = (unit.of_si(change.value), size);
            left.push(Series::spots(vec![spot], Shape::Ring(7.0), INK).into());
        }
        let values: Vec<f64> = trend.points.iter().map(|p| unit.of_si(p.value)).collect();
        let span = around(&values);
        let comma = if unit.symbol.is_empty() { "" } else { ", " };
        let heading = format!("{}{comma}{}", name(&trend.key), unit.symbol);
        let panel = |what: &str, role, ends: (f64, f64), marks| {
            // All rows share their scales, so the first one names them.
            let what = if row == 0 { title(what, role, style) } else { String::new() };
            let x = Axis::new("", Ends::At(span.0, span.1));
            Panel::new(x, Axis::new(what, Ends::At(ends.0, ends.1)), marks).tall(104.0)
        };
        panels.push(panel("apart", Role::Impact, most, left).head(heading, ""));
        panels.push(panel("nose turning", Role::Rate, turning, right));
    }
    let ring = Entry::shape(Shape::Ring(7.0), INK, "where they come nearest");
    let key = changes.first().map(|_| ring).into_iter().collect();
    let caption = format!(
        "One value{} changed at a time, all else as it is. Left: how far bare and fletched land \
         apart. Right: how fast the nose turns as the arrow leaves the string. Dotted upright: the \
         value as it is. All rows share their scales.",
        super::super::common::of(tuned.builds.len() > 1, &tuned.builds[at].name)
    );
    Figure::new(format!("tune-trends-{}", at + 1), caption, Lines { panels, columns: 2, key })
}

/// A line through the values that could be shot, broken where one could not;
/// named in the first row alone.
fn curve(trend: &Trend, read: Read, pen: Pen, marker: usize, name: &str, row: usize) -> Vec<Mark> {
    let spot = |point: &study::TrendPoint| {
        let y = point.shot.as_ref().ok().and_then(read)?;
        Some((unit(trend).of_si(point.value), y))
    };
    let spots: Vec<Option<(f64, f64)>> = trend.points.iter().map(spot).collect();
    let runs = spots.split(Option::is_none).filter(|run| !run.is_empty());
    let line = |(at, run): (usize, &[Option<(f64, f64)>])| {
        let line = run.iter().flatten().copied().collect();
        let named = if (row, at) == (0, 0) { name } else { "" };
        Series::line(line, pen).marked(marker).named(named).into()
    };
    runs.enumerate().map(line).collect()
}
