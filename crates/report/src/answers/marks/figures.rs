//! Sight marks over distance, and arcs over the line of sight.

use draw::{Axis, Ends, Figure, INK, Lines, Mark, Panel, Pen, Series, Shape, dash, smooth};
use study::{Banded, SightMarks};
use units::{Role, Style};

use crate::plots::{distances, title};
use crate::show;

/// Both pictures.
pub(super) fn all(marks: &SightMarks, style: Style) -> [Figure; 2] {
    [travel(marks, style), arcs(marks, style)]
}

/// An axis from the bow to a little beyond the last of these places.
fn along(places: &[f64], style: Style) -> Axis {
    let far = places.last().map_or(1.0, |far| Role::Range.value(*far, style));
    distances(places.iter().copied(), Ends::At(0.0, 1.03 * far), style)
}

fn travel(marks: &SightMarks, style: Style) -> Figure {
    let curve = |read: fn(&Banded) -> f64| -> Vec<(f64, f64)> {
        let place = |si: f64| Role::Range.value(si, style);
        marks.rows.iter().map(|row| (place(row.distance), 1e3 * read(&row.travel))).collect()
    };
    let (low, high) = (smooth(&curve(|t| t.low)), smooth(&curve(|t| t.high)));
    let spots = curve(|t| t.value);
    let series = Series::line(smooth(&spots), Pen::series(0)).with(spots, Shape::Series(0));
    let band = low.iter().zip(&high).map(|(l, h)| (l.0, l.1, h.1)).collect();
    let places: Vec<f64> = marks.rows.iter().map(|row| row.distance).collect();
    let y = Axis::new("mark below that of the zero, mm", Ends::HoldsZero).back();
    Figure::new(
        "marks",
        "The pin below its place at the zero, on the sight itself; shaded, the band of \
         the poorly known values once the sight is set at the zero.",
        Lines::one(Panel::new(along(&places, style), y, vec![series.band(band).into()])),
    )
}

fn arcs(marks: &SightMarks, style: Style) -> Figure {
    let point =
        |at: f64, above: f64| (Role::Range.value(at, style), Role::Impact.value(above, style));
    let mut drawn: Vec<Mark> = Vec::new();
    for (at, arc) in marks.arcs.iter().enumerate() {
        let line = arc.points.iter().map(|&(at, above)| point(at, above)).collect();
        let name = format!("shot at {}", show::plain(Role::Range, arc.distance, style));
        drawn.push(Series::line(line, Pen::series(at).dash(dash(at))).named(name).into());
    }
    let twigs: Vec<(f64, f64)> =
        marks.twigs.iter().map(|t| point(t.twig.distance.si(), t.twig.height.si())).collect();
    drawn.push(Series::spots(twigs, Shape::Series(3), INK).named("twig or edge").into());
    let targets: Vec<f64> = marks.arcs.iter().map(|arc| arc.distance).collect();
    let y = Axis::new(title("above line of sight", Role::Impact, style), Ends::HoldsZero);
    Figure::new(
        "arcs",
        "The arc of each shot over its own line of sight, which is the line at zero; \
         each begins 2 m from the bow and ends at its target. Heights are drawn far larger than \
         distances.",
        Lines::one(Panel::new(along(&targets, style), y, drawn)),
    )
}
