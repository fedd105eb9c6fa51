//! Bench steps: gain against minutes, and ranked gains.

use draw::{
    Axis, Bar, BarRow, Bars, Ends, Entry, Figure, Lines, Mark, Panel, Pen, SOFT, Series, Shape,
    series,
};
use study::{WorthBuild, WorthOfSteps};
use units::{Role, Style};

use crate::plots::title;
use crate::show;

fn range(found: &WorthOfSteps, style: Style) -> String {
    let far = found.distances.last().map_or(0.0, |distance| distance.si());
    show::plain(Role::Range, far, style)
}

/// The name of the first step of what was tried.
fn step<'a>(found: &'a WorthOfSteps, build: &WorthBuild, tried: usize) -> &'a str {
    &found.steps[build.tried[tried].steps[0]].name
}

/// Gain against minutes.
pub(super) fn choices(found: &WorthOfSteps, at: usize, style: Style) -> Figure {
    let build = &found.builds[at];
    let spot = |tried: usize| {
        let done = &build.tried[tried];
        (done.time / 60.0, Role::Impact.value(done.far().gain.value, style))
    };
    let several = (0..build.tried.len()).filter(|tried| build.tried[*tried].steps.len() > 1);
    let front: Vec<(f64, f64)> = build.front.iter().map(|at| spot(*at)).collect();
    let names = build.by_rate();
    let marks: Vec<Mark> = vec![
        Series::spots(several.map(spot).collect(), Shape::Dot(2.0, 0.45), SOFT).into(),
        Series::line([vec![(0.0, 0.0)], front.clone()].concat(), Pen::series(1))
            .with(front, Shape::Series(0))
            .named("choices that no other beats")
            .into(),
        Mark::Numbers(names.iter().map(|tried| spot(*tried)).collect()),
    ];
    let x = Axis::new("minutes a dozen", Ends::FromZero);
    let y = Axis::new(title("gain in R50", Role::Impact, style), Ends::FromZero);
    let mut lines = Lines::one(Panel::new(x, y, marks).tall(270.0));
    let named = |(place, tried): (usize, &usize)| {
        Entry::shape(Shape::Number(place + 1), series(0), step(found, build, *tried))
    };
    lines.key = names.iter().enumerate().map(named).collect();
    let caption = format!(
        "Gain in R50 at {} against minutes a dozen. Numbers: each step alone, beside its place \
         where discs would hide each other. Small dots: other choices tried. Line: choices that \
         no other beats.",
        range(found, style)
    );
    Figure::new(format!("worth-{}", at + 1), caption, lines)
}

/// The gain of each step alone.
pub(super) fn gains(found: &WorthOfSteps, at: usize, style: Style) -> Figure {
    let build = &found.builds[at];
    let row = |tried: usize| {
        let gain = build.tried[tried].far().gain;
        let reach = [gain.low, gain.value, gain.high].map(|si| Role::Impact.value(si, style));
        let bars = vec![Bar::new(reach, series(0))];
        BarRow { name: step(found, build, tried).to_owned(), bars }
    };
    let caption = format!(
        "Gain in R50 at {} from each step alone. Whiskers: 95 % interval; one that crosses zero \
         shows no gain.",
        range(found, style)
    );
    let title = title("gain in R50", Role::Impact, style);
    let rows = build.by_gain().into_iter().map(row).collect();
    Figure::new(format!("gains-{}", at + 1), caption, Bars { title, rows, key: Vec::new() })
}
