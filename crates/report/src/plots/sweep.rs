//! One swept value against group size and drop, a line a distance.

use draw::{Axis, Ends, Figure, Lines, Mark, Panel, Pen, Series};
use study::{MarkAnswer, SweepAnswer, SweepPoint};
use units::{Role, Style};

use super::title;
use crate::{show, words};

/// Low end, value and high end of what a picture shows of a mark.
type Read = fn(&MarkAnswer) -> [f64; 3];

/// Group size and drop, two pictures; `at` counts the sweeps, `of` names the
/// build where there are several.
pub(crate) fn draw(sweep: &SweepAnswer, at: usize, of: &str, style: Style) -> [Figure; 2] {
    let name = words::value(&sweep.key);
    let groups = format!(
        "Group size{of} against the {name}. Half of the arrows land so near to the middle. \
         Shaded: the 95 % interval."
    );
    let drop = format!(
        "Drop{of} below the line of departure against the {name}. Shaded: the band of the poorly \
         known values."
    );
    let views: [(&str, &str, String, Read); 2] = [
        ("groups", "half within", groups, |m| {
            let r50 = &m.full.stats.r50;
            [r50.low, r50.value, r50.high]
        }),
        ("drop", "drop", drop, |m| [m.drop_band.0, m.nominal.drop, m.drop_band.1]),
    ];
    views.map(|(file, what, caption, read)| {
        let y = Axis::new(title(what, Role::Impact, style), Ends::FromZero);
        let panel = Panel::new(axis(sweep), y, lines(sweep, read, style)).tall(250.0);
        Figure::new(format!("sweep-{}-{file}", at + 1), caption, Lines::one(panel))
    })
}

/// A line for each distance, the farthest first, as they lie on the plot.
fn lines(sweep: &SweepAnswer, read: Read, style: Style) -> Vec<Mark> {
    let places = places(sweep).0;
    let distances = sweep.points[0].build.marks.iter().enumerate().rev();
    let line = |(at, mark): (usize, &MarkAnswer)| {
        let one = |(x, point): (&f64, &SweepPoint)| {
            let [low, value, high] =
                read(&point.build.marks[at]).map(|si| Role::Impact.value(si, style));
            ((*x, value), (*x, low, high))
        };
        let (line, band) = places.iter().zip(&sweep.points).map(one).unzip();
        let name = format!("at {}", show::plain(Role::Range, mark.distance.si(), style));
        Series::line(line, Pen::series(at)).marked(at).band(band).named(name).into()
    };
    distances.map(line).collect()
}

fn axis(sweep: &SweepAnswer) -> Axis {
    let (places, unit) = places(sweep);
    let comma = if unit.is_empty() { "" } else { ", " };
    let axis = Axis::new(format!("{}{comma}{unit}", words::value(&sweep.key)), Ends::Around);
    if places.len() > 6 {
        return axis;
    }
    axis.at(places.into_iter().map(|place| (place, show::significant(place))).collect())
}

/// The swept values in the unit they were written in, and that unit.
fn places(sweep: &SweepAnswer) -> (Vec<f64>, &'static str) {
    let written = sweep.points.first().map_or("", |point| point.label.as_str());
    let symbol = written.trim_start_matches(|c: char| c.is_ascii_digit() || "+-.".contains(c));
    let unit = sweep.dimension.unit(symbol.trim()).unwrap_or(&sweep.dimension.units()[0]);
    (sweep.points.iter().map(|point| unit.of_si(point.value)).collect(), unit.symbol)
}
