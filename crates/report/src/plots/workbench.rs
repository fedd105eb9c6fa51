//! Pictures of the bench: a shaft's axis, a batch, nocks on a clock.

use body::Across;
use draw::{
    Axis, Dash, Ends, Entry, Figure, Frame, Frames, GRID, INK, Lines, Mark, Panel, Pen, SOFT,
    Series, Shape, Side, Text, series,
};
use study::workbench::{CutShaft, Foreseen, IndexVerdict, Indexing, Sorting};
use units::{Role, Style};

use super::title;
use crate::show;

/// Places along an axis. Chosen: finer than any station is read.
const PLACES: u32 = 160;

/// The axis of a shaft as it lies on its supports, and of the piece cut from
/// it, with the cuts; `at` is its number from zero.
pub(crate) fn profile((at, shaft): (usize, &CutShaft), style: Style) -> Figure {
    let (axis, cut) = (&shaft.axis, &shaft.ways[0].cut);
    let (stock, end) = (axis.stock(), axis.stock() - cut.front);
    let whole = places(0.0, stock, |x| axis.at(x));
    // The piece lies on its own span.
    let (middle, half) = (f64::midpoint(cut.rear, end), cut.straight.span / 2.0);
    let (a, b) = (middle - half, middle + half);
    let (ya, yb) = (axis.at(a), axis.at(b));
    let piece = places(cut.rear, end, |x| {
        let share = (x - a) / (b - a);
        axis.at(x) - ya * (1.0 - share) - yb * share
    });
    // The plane in which the shaft lies farthest off, and the one across it.
    let offs = || whole.iter().chain(&piece).map(|(_, off)| *off);
    let farther = |far: Across, off: Across| if off.size() > far.size() { off } else { far };
    let far = whole.iter().map(|(_, off)| *off).fold(Across::ZERO, farther);
    let unit = Across::polar(1.0, far.clock());
    let across = Across { at0: -unit.at90, at90: unit.at0 };
    let top = 1.15 * Role::Gauge.value(offs().map(Across::size).fold(1e-6, f64::max), style);
    let place = |x: f64| Role::Part.value(x, style);
    let point = |(x, off): &(f64, Across), side: Across| {
        (place(*x), Role::Gauge.value(off.at0 * side.at0 + off.at90 * side.at90, style))
    };
    let line = |places: &[(f64, Across)], side, pen| {
        Series::line(places.iter().map(|p| point(p, side)).collect(), pen)
    };
    let dashed = Pen::series(1).dash(Dash::Dashed);
    let mut read: Vec<f64> = shaft.shaft.read.sightings().iter().map(|one| one.station).collect();
    read.dedup();
    let stations = read.into_iter().map(|x| point(&(x, axis.at(x)), unit)).collect();
    let mut before: Vec<Mark> = vec![
        line(&whole, across, dashed).named("across the plane of its largest offset").into(),
        line(&whole, unit, Pen::series(0))
            .with(stations, Shape::Dot(2.4, 1.0))
            .named("in that plane")
            .into(),
    ];
    for (from, to) in [(0.0, cut.rear), (end, stock)] {
        if to > from {
            let label = Role::Part.number(to - from, style);
            before.insert(0, Mark::Span { from: place(from), to: place(to), label });
        }
    }
    let cuts = Pen::solid(INK, 1.4);
    before.extend([cut.rear, end].map(|x| Mark::Rule { x: place(x), pen: cuts }));
    let mut after: Vec<Mark> =
        vec![line(&piece, across, dashed).into(), line(&piece, unit, Pen::series(0)).into()];
    after.extend([a, b].map(|x| Mark::Rule { x: place(x), pen: Pen::asked() }));
    let panel = |what: &str, marks| {
        let x = title("from the nock end", Role::Part, style);
        let y = title(&format!("{what}: off axis"), Role::Gauge, style);
        let (x, y) = (Axis::new(x, Ends::At(0.0, place(stock))), Axis::new(y, Ends::At(-top, top)));
        Panel::new(x, y, marks).tall(150.0)
    };
    let mut lines = Lines::one(panel("before", before));
    lines.panels.push(panel("after", after));
    lines.key = vec![Entry::line(cuts, "cut"), Entry::line(Pen::asked(), "ends of the span")];
    let caption = format!(
        "Shaft {}: how far its likeliest axis lies off the straight line through its ends, before; \
         and off the line through its own span, after. Dots: where it was read. Grey: what comes off.",
        shaft.shaft.name
    );
    Figure::new(format!("shaft-{}", at + 1), caption, lines)
}

fn places(from: f64, to: f64, at: impl Fn(f64) -> Across) -> Vec<(f64, Across)> {
    let place = |k| from + (to - from) * f64::from(k) / f64::from(PLACES);
    (0..=PLACES).map(|k| (place(k), at(place(k)))).collect()
}

/// Arrows are named in the picture up to so many. Chosen: more names would
/// cover each other.
const NAMED: usize = 30;

/// Width over height of the picture of a batch.
const WIDER: f64 = 1.25;

/// A batch at the last distance: where its arrows hit, and how far each lies
/// from the first set's centre.
pub(crate) fn strip(found: &Sorting, style: Style) -> Figure {
    let at = found.distances.len() - 1;
    let value = |si: f64| Role::Impact.value(si, style);
    let place = |arrow: &Foreseen| (value(arrow.places[at].left), value(arrow.places[at].up));
    let centre = found.whole.centre.map(value);
    let away = |arrow: &Foreseen| {
        let (p, c) = (&arrow.places[at], found.sets.first().map_or([0.0; 2], |s| s.set.centre));
        value((p.left - c[0]).hypot(p.up - c[1]).hypot(p.blur))
    };
    let (mut rings, mut names, mut reach) = (Vec::new(), Vec::new(), 0.0_f64);
    for set in &found.sets {
        let ([left, up], spread) = (set.set.centre.map(value), value(set.set.spread));
        let pen = Pen::solid(SOFT, 1.1).dash(Dash::Dashed);
        rings.push(Mark::ring((left, up), spread, pen));
    }
    for arrow in &found.arrows {
        let (left, up) = place(arrow);
        reach = reach.max((left - centre[0]).abs()).max((up - centre[1]).abs());
        rings.push(Mark::ring((left, up), value(arrow.places[at].blur), Pen::solid(GRID, 1.0)));
        // By turns on both sides, so that neighbours keep apart.
        let above = found.arrows.iter().filter(|other| place(other).1 > up).count();
        let side = if above % 2 == 0 { Side::Right } else { Side::Left };
        let words = arrow.measured.name.clone();
        names.push(Mark::Text(Text { at: (left, up), words, side, colour: SOFT }));
    }
    if found.arrows.len() > NAMED {
        names.clear();
    }
    let mut order: Vec<&Foreseen> = found.arrows.iter().collect();
    order.sort_by(|a, b| away(a).total_cmp(&away(b)));
    let seats: Vec<(f64, f64)> =
        order.iter().enumerate().map(|(row, arrow)| (away(arrow), row as f64 + 1.0)).collect();
    let (mut frame, mut strip) = (rings, Vec::new());
    for set in (0..found.sets.len()).map(Some).chain([None]) {
        let (shape, colour, name) = match set {
            Some(set) => (Shape::Series(set), series(set), found.sets[set].name.as_str()),
            None => (Shape::Dot(2.6, 0.8), SOFT, "in no set"),
        };
        let of_set = order.iter().zip(&seats).filter(|(arrow, _)| arrow.set == set);
        let (spots, rows) = of_set.map(|(arrow, seat)| (place(arrow), *seat)).unzip();
        frame.push(Series::spots(spots, shape, colour).named(name).into());
        strip.push(Series::spots(rows, shape, colour).into());
    }
    frame.extend(names);
    let reach = 1.2 * reach.max(value(1e-4));
    let axis = |what: &str, ends| Axis::new(title(what, Role::Impact, style), ends);
    let around = |middle: f64, reach: f64| Ends::At(middle - reach, middle + reach);
    // Left of the target is left on the sheet.
    let left = axis("left", around(centre[0], WIDER * reach)).back();
    let up = axis("up", around(centre[1], reach));
    let frame = Panel { stretch: Some(1.0), ..Panel::new(left, up, frame) };
    let x = axis("away from the first set's centre", Ends::FromZero);
    let y = Axis::new("", Ends::At(0.0, seats.len() as f64 + 1.0)).bare();
    let mut lines = Lines::one(frame);
    lines.panels.push(Panel::new(x, y, strip).tall(110.0));
    let spread = Pen::solid(SOFT, 1.1).dash(Dash::Dashed);
    lines.key = vec![Entry::line(spread, "a set's spread about its centre")];
    let caption = format!(
        "The batch at {}, shot by a machine, seen from the archer. Above: where each arrow \
         hits; a faint ring shows how far a fault without a noted clock position may carry it. \
         Below: how far each lies from the centre of the first set, nearest at the bottom.",
        show::plain(Role::Range, found.distances[at].si(), style)
    );
    Figure::new("batch", caption, lines)
}

/// Most clocks in a picture. Chosen: a gross, twelve dozen.
const MOST: usize = 144;

/// A clock for every arrow that was shot, or else for all that were measured:
/// the positions its nock may take, and the one to use.
pub(crate) fn clocks(found: &Indexing) -> Figure {
    let dials: Vec<(&str, usize, bool)> = if found.arrows.is_empty() {
        let sure = |verdict: &IndexVerdict| *verdict == IndexVerdict::Turn;
        found.fits.iter().map(|fit| (fit.name.as_str(), fit.choice, sure(&fit.verdict))).collect()
    } else {
        found.arrows.iter().map(|arrow| (arrow.name.as_str(), arrow.choice, true)).collect()
    };
    let on = |turn: f64| (-turn.sin(), turn.cos());
    let frame = |(name, choice, sure): &(&str, usize, bool)| {
        let turns: Vec<(f64, f64)> = found.turns.iter().map(|turn| on(turn.si())).collect();
        let middle = (0.0, 0.0);
        let hand = match choice {
            0 => Series::spots(vec![middle], Shape::Dot(2.2, 1.0), SOFT),
            _ => Series::line(
                vec![middle, turns[*choice]],
                Pen::solid(series(0), if *sure { 3.0 } else { 1.2 }),
            )
            .with(vec![turns[*choice]], Shape::Dot(4.0, 1.0)),
        };
        let marks = vec![
            Mark::ring(middle, 1.0, Pen::solid(GRID, 1.4)),
            Series::spots(turns, Shape::Dot(2.2, 1.0), SOFT).into(),
            hand.into(),
        ];
        let under = vec![(*name).to_owned()];
        Frame { edge: false, under, ..Frame::new((1.45, 1.2), marks) }
    };
    let dials = dials.iter().take(MOST).map(frame).collect();
    Figure::new(
        "clocks",
        "A clock for each arrow, seen from behind, zero at the top: dots are the \
         positions its nock may take, the hand the one to turn it to. An arrow without a hand \
         stays as it is; a thin hand is not sure yet.",
        Frames { most: 84.0, ..Frames::on_one_scale(Frames::rows(dials, 5), "") },
    )
}
