//! The pictures of one push.

use draw::{
    Axis, Dash, Ends, Figure, GRID, INK, Lines, Mark, Panel, Pen, SOFT, Series, Shape, Shares,
    Side, Text, hold_zero, series,
};
use study::{ModeShape, Moment, PushTrace, ShaftPlace, StrokePoint};
use units::{Dimension, Role, Style};

use crate::plots::title;
use crate::show;

/// Every picture of a push.
pub(super) fn all(story: &PushTrace, style: Style) -> [Figure; 5] {
    [
        shapes(story, style),
        paths(story, style),
        forces(story, style),
        stroke(story, style),
        modes(story, style),
    ]
}

/// Time in the unit that a push asks for.
fn millis(seconds: f64) -> f64 {
    Dimension::Time.unit("ms").map_or(seconds, |unit| unit.of_si(seconds))
}

fn stacked(panels: Vec<Panel>) -> Lines {
    Lines { panels, ..Lines::default() }
}

/// Height of an instant's row over the width of the picture. Chosen: ten rows
/// fill a screen.
const ROW: f64 = 0.072;

/// How many times larger what lies across is drawn: a round number, so that
/// shapes hardly cross the next row.
fn times(story: &PushTrace, row: f64) -> f64 {
    let off = story.shapes.iter().flat_map(|shape| &shape.places).flat_map(|place| place.off);
    let most = 0.9 * row / off.map(f64::abs).fold(0.0, f64::max);
    if !most.is_finite() {
        return 1.0;
    }
    let power = 10_f64.powf(most.log10().floor());
    let round = [5.0, 3.0, 2.0].into_iter().find(|r| r * power <= most).unwrap_or(1.0);
    (round * power).max(1.0)
}

/// The shaft at ten instants, in both planes.
fn shapes(story: &PushTrace, style: Style) -> Figure {
    let far = 1.02 * (story.stroke + story.built.layout.tip.si());
    let place = |si: f64| Role::Part.value(si, style);
    let times = times(story, ROW * far);
    // A row, in the unit of the offsets drawn.
    let row = place(ROW * far) / times;
    let top = row * (story.shapes.len() as f64 + 0.5);
    let x_title = title("ahead of the nock at full draw", Role::Part, style);
    let views = [
        ("seen from above", "left is up the sheet"),
        ("seen from the right", "up is up the sheet"),
    ];
    let panels = views.into_iter().enumerate().map(|(plane, (view, sense))| {
        // The rest is drawn unbroken as long as it works in this plane.
        let touches = story.rest[plane].map_or(0, |touch| {
            story.shapes.iter().filter(|shape| shape.time < touch.until).count()
        });
        let (rest, until) = (place(story.rest_place), top - row * touches as f64);
        let dotted = Pen::solid(SOFT, 0.9).dash(Dash::Dotted);
        let words =
            Text { at: (rest, top), words: "rest".to_owned(), side: Side::Above, colour: SOFT };
        let mut marks: Vec<Mark> = vec![
            Mark::Text(words),
            Series::line(vec![(rest, top), (rest, until)], Pen::solid(SOFT, 1.6)).into(),
            Series::line(vec![(rest, until), (rest, 0.0)], dotted).into(),
        ];
        let mut rows = Vec::new();
        for (at, shape) in story.shapes.iter().enumerate() {
            let base = top - row * (at as f64 + 0.6);
            rows.push((base, format!("{:.1}", millis(shape.time))));
            let spot =
                |p: &ShaftPlace| (place(shape.travel + p.station), base + place(p.off[plane]));
            let line: Vec<(f64, f64)> = shape.places.iter().map(spot).collect();
            let rear = line.first().copied().into_iter().collect();
            let pen = Pen::solid(series(plane), 2.2);
            marks.push(Series::line(line, pen).with(rear, Shape::Dot(2.8, 1.0)).into());
        }
        let x = Axis::new(x_title.as_str(), Ends::At(0.0, place(far)));
        let y = Axis::new("after, ms", Ends::At(0.0, top)).at(rows);
        let remark = format!("{sense}, \u{D7}{}", show::significant(times));
        Panel { stretch: Some(times), ..Panel::new(x, y, marks).head(view, remark) }
    });
    let size = if story.sideways {
        format!(
            "Sideways the shaft is drawn {} times as large as along the push.",
            show::significant(times)
        )
    } else {
        "Nothing works on this arrow sideways, so it stays straight.".to_owned()
    };
    let caption = format!(
        "The shaft at {} instants from release (top) to departure (bottom), as it moves to the \
         right. {size} Thin lines: the line of the push. Dot: rear end of the shaft. Upright \
         line: where the rest stands, unbroken as long as it can touch the shaft.",
        story.shapes.len()
    );
    Figure::new("push-shapes", caption, stacked(panels.collect()))
}

/// The way of nock and tip across the push, left above up, on one scale.
fn paths(story: &PushTrace, style: Style) -> Figure {
    let value = |si: f64| Role::Gauge.value(si, style);
    let all = story.moments.iter().flat_map(|m| m.nock.into_iter().chain(m.tip));
    let ends = hold_zero(all.map(value));
    let panel = |(plane, sense): (usize, &str)| {
        let line = |read: fn(&Moment) -> [f64; 2], pen, name: &str| -> Mark {
            let at = |m: &Moment| (Role::Part.value(m.travel, style), value(read(m)[plane]));
            let line = Series::line(story.moments.iter().map(at).collect(), pen);
            if plane == 0 { line.named(name).into() } else { line.into() }
        };
        let marks = vec![
            line(|m| m.nock, Pen::series(0), "nock groove"),
            line(|m| m.tip, Pen::series(1).dash(Dash::Dashed), "tip of the point"),
        ];
        let y = Axis::new(title(sense, Role::Gauge, style), Ends::At(ends.0, ends.1));
        Panel::new(way(story, style), y, marks).tall(170.0)
    };
    Figure::new(
        "push-paths",
        "How far nock groove and tip stray from the line of the push. Both pictures have \
         one scale.",
        stacked(["to the left", "up"].into_iter().enumerate().map(panel).collect()),
    )
}

/// The axis along the stroke.
fn way(story: &PushTrace, style: Style) -> Axis {
    let end = Role::Part.value(story.stroke, style);
    Axis::new(title("way of the nock", Role::Part, style), Ends::At(0.0, end))
}

/// Forces against time: the push on its own scale, the string's sideways
/// pull, the rest.
fn forces(story: &PushTrace, style: Style) -> Figure {
    let end = story.moments.last().map_or(1.0, |m| millis(m.time));
    let line = |read: &dyn Fn(&Moment) -> f64, pen| {
        let at = |m: &Moment| (millis(m.time), Role::Force.value(read(m), style));
        Series::line(story.moments.iter().map(at).collect(), pen)
    };
    let (left, up) = (Pen::series(0), Pen::series(1).dash(Dash::Dashed));
    let push = line(&|m| m.push, Pen::solid(INK, 2.0)).named("along the push");
    let string = [line(&|m| m.string[0], left), line(&|m| m.string[1], up)];
    let [string_left, string_up] = string;
    let rows: [(&str, Ends, Vec<Mark>); 3] = [
        ("push on the nock", Ends::FromZero, vec![push.into()]),
        (
            "string across the push",
            Ends::HoldsZero,
            vec![string_left.named("to the left").into(), string_up.named("up").into()],
        ),
        (
            "rest on the shaft",
            Ends::HoldsZero,
            vec![line(&|m| m.rest[0], left).into(), line(&|m| m.rest[1], up).into()],
        ),
    ];
    let panel = |(what, ends, marks)| {
        let x = Axis::new("time since release, ms", Ends::At(0.0, end));
        Panel::new(x, Axis::new(title(what, Role::Force, style), ends), marks).tall(130.0)
    };
    Figure::new(
        "push-forces",
        "Forces on the arrow from release to departure. Each picture has its own scale: \
         the push is many times larger than what holds the arrow sideways.",
        stacked(rows.into_iter().map(panel).collect()),
    )
}

/// Force-draw curve and push along the stroke, and where the energy goes.
fn stroke(story: &PushTrace, style: Style) -> Figure {
    let line = |read: fn(&StrokePoint) -> f64| -> Vec<(f64, f64)> {
        let at = |p: &StrokePoint| {
            (Role::Part.value(p.travel, style), Role::Force.value(read(p), style))
        };
        story.forces.iter().map(at).collect()
    };
    let push = line(|p| p.push);
    let under = push.iter().map(|p| (p.0, 0.0, p.1)).collect();
    let draw = Series::line(line(|p| p.draw), Pen::solid(INK, 2.0).dash(Dash::Dashed));
    let push = Series::line(push, Pen::solid(series(0), 2.2)).band(under);
    let marks =
        vec![draw.named("draw force of the bow").into(), push.named("push on the arrow").into()];
    let y = Axis::new(title("force", Role::Force, style), Ends::FromZero);
    let lines = Lines::one(Panel::new(way(story, style), y, marks).tall(190.0));
    let budget = &story.budget;
    let shares = [
        (0, budget.arrow, "to the arrow"),
        (2, budget.string + budget.limbs, "to the moving parts"),
        (1, budget.lost, "not returned"),
    ];
    let part = |(at, energy, name): (usize, f64, &str)| {
        let share = show::share(energy / budget.stored);
        (energy, series(at), format!("{name}: {}, {share}", Role::Energy.text(energy, style)))
    };
    let energy = Shares {
        title: format!("stored: {}", Role::Energy.text(budget.stored, style)),
        whole: budget.stored,
        parts: shares.into_iter().filter(|(_, energy, _)| *energy > 0.0).map(part).collect(),
    };
    let mut figure = Figure::new(
        "push-stroke",
        "Force along the stroke, from full draw on the left to brace on the right. The \
         area under the draw force is the stored energy, the area under the push what the arrow \
         gets. The bar shows where the stored energy goes.",
        lines,
    );
    figure.parts.push(energy.into());
    figure
}

/// Modes drawn. Chosen: higher ones are gone within a few metres of flight.
const SHOWN: usize = 3;

/// The shapes in which the free arrow swings, the first below each other.
fn modes(story: &PushTrace, style: Style) -> Figure {
    let shown = &story.modes[..SHOWN.min(story.modes.len())];
    let tip = Role::Part.value(story.built.layout.tip.si(), style);
    let place = |si: f64| Role::Part.value(si, style);
    let panel = |(at, mode): (usize, &ModeShape)| {
        let line = |side: f64| mode.shape.iter().map(|&(x, y)| (place(x), side * y)).collect();
        let nodes = mode.nodes.iter().map(|&x| (place(x), 0.0)).collect();
        let marks = vec![
            Series::line(vec![(0.0, 0.0), (tip, 0.0)], Pen::solid(GRID, 0.8)).into(),
            Series::line(line(-1.0), Pen::solid(SOFT, 1.0)).into(),
            Series::line(line(1.0), Pen::solid(series(0), 2.2)).into(),
            Series::spots(nodes, Shape::Dot(3.8, 1.0), series(1)).into(),
        ];
        let names: Vec<String> = mode.nodes.iter().map(|&x| Role::Part.number(x, style)).collect();
        let remark = format!("nodes at {} {}", names.join(", "), Role::Part.symbol(style));
        let remark = if names.is_empty() { String::new() } else { remark };
        let head = format!("mode {}: {} Hz", at + 1, show::significant(mode.frequency.round()));
        let x = Axis::new("", Ends::At(0.0, tip));
        let x = if at + 1 == shown.len() {
            Axis { title: title("ahead of the nock groove", Role::Part, style), ..x }
        } else {
            x.bare()
        };
        let y = Axis::new("", Ends::At(-1.2, 1.2)).at(Vec::new());
        Panel::new(x, y, marks).tall(76.0).head(head, remark)
    };
    Figure::new(
        "push-modes",
        "The lowest bending modes of the whole arrow, flying free: the two ends of each \
         swing, not to scale. Dots are nodes, the places of the shaft that stand still.",
        stacked(shown.iter().enumerate().map(panel).collect()),
    )
}
