//! The pictures of a tuning answer.

use std::f64::consts::{FRAC_PI_2, PI};

use draw::{
    Entry, Figure, Frame, Frames, GRID, INK, Mark, Pen, SOFT, Series, Shape, Side, Text, series,
};
use study::{Offset, Tear, Tuned, TunedBuild};
use units::{Role, Style};

use super::words;
use crate::show;

/// A place at the target, in the unit of impacts.
fn spot([left, up]: [f64; 2], style: Style) -> (f64, f64) {
    (Role::Impact.value(left, style), Role::Impact.value(up, style))
}

/// Where the middle of an offset from a place lies.
fn end(from: [f64; 2], offset: &Offset) -> [f64; 2] {
    [from[0] + offset.left.value, from[1] + offset.up.value]
}

/// The band of a place whose offset from `from` is banded.
fn cross(from: [f64; 2], offset: &Offset, style: Style) -> [Mark; 2] {
    let (left, up) = (offset.left, offset.up);
    let at = |l: f64, u: f64| spot([from[0] + l, from[1] + u], style);
    let bars = [
        [at(left.low, up.value), at(left.high, up.value)],
        [at(left.value, up.low), at(left.value, up.high)],
    ];
    bars.map(|bar| Series::line(bar.to_vec(), Pen::solid(SOFT, 1.1)).into())
}

/// A frame at the target that holds these offsets with their bands, and at
/// least so much about the middle, m; a fine cross stands at the middle.
fn frame(offsets: &[([f64; 2], &Offset)], least: f64, style: Style) -> Frame {
    let (mut low, mut high) = ([-least; 2], [least; 2]);
    for (from, offset) in offsets {
        for (plane, part) in [offset.left, offset.up].into_iter().enumerate() {
            low[plane] = low[plane].min(from[plane] + part.low);
            high[plane] = high[plane].max(from[plane] + part.high);
        }
    }
    let half = spot([0, 1].map(|plane| 0.6 * (high[plane] - low[plane])), style);
    let middle = spot([0, 1].map(|plane| f64::midpoint(low[plane], high[plane])), style);
    let pen = Pen::solid(GRID, 0.8);
    let marks = vec![Mark::Rule { x: 0.0, pen }, Mark::Level { y: 0.0, pen }];
    Frame { middle, ..Frame::new(half, marks) }
}

/// Frames of which each fills its place.
fn each_its_own(frames: Vec<Frame>, key: Vec<Entry>, style: Style) -> Frames {
    let unit = Role::Impact.symbol(style).to_owned();
    Frames { rows: Frames::rows(frames, 2), one_scale: false, most: 210.0, unit, key }
}

/// Where a build's fletched arrow lands, from the first one's.
fn home(tuned: &Tuned, build: usize, at: usize) -> Option<[f64; 2]> {
    if build == 0 {
        return Some([0.0; 2]);
    }
    Some(end([0.0; 2], tuned.builds[build].against[at].as_ref()?))
}

/// Where fletched and bare arrows land, a frame a distance.
pub(super) fn impacts(tuned: &Tuned, style: Style) -> Figure {
    let several = tuned.builds.len() > 1;
    let named = |name: &str, what: &str| {
        if several { format!("{name}, {what}") } else { what.to_owned() }
    };
    let one = |at: usize| {
        let (mut offsets, mut marks, mut under) = (Vec::new(), Vec::new(), Vec::new());
        for (index, build) in tuned.builds.iter().enumerate() {
            let against = build.against.get(at).and_then(Option::as_ref);
            offsets.extend(against.map(|offset| ([0.0; 2], offset)));
            let Some(home) = home(tuned, index, at) else { continue };
            let bare = build.bare[at].apart.as_ref();
            offsets.extend(bare.map(|offset| (home, offset)));
            let point = |place, shape| -> Mark {
                Series::spots(vec![spot(place, style)], shape, series(index)).into()
            };
            marks.extend(against.into_iter().flat_map(|offset| cross([0.0; 2], offset, style)));
            marks.push(point(home, Shape::Series(index)));
            marks.extend(bare.into_iter().flat_map(|offset| cross(home, offset, style)));
            match bare {
                Some(offset) => marks.push(point(end(home, offset), Shape::Bare)),
                None => under.push(named(&build.name, "bare: turned over")),
            }
        }
        // Chosen: a frame of nothing is not a speck.
        let mut frame = frame(&offsets, 5e-3, style);
        frame.head = format!("at {}", show::plain(Role::Range, tuned.distances[at].si(), style));
        frame.marks.extend(marks);
        frame.under = under;
        frame
    };
    let mut key = Vec::new();
    for (at, build) in tuned.builds.iter().enumerate() {
        for (shape, what) in [(Shape::Series(at), "fletched"), (Shape::Bare, "bare")] {
            key.push(Entry::shape(shape, series(at), named(&build.name, what)));
        }
    }
    key.push(Entry::line(Pen::solid(SOFT, 1.1), "its band"));
    let from = if several {
        format!(", measured from the fletched \"{}\"", tuned.builds[0].name)
    } else {
        String::new()
    };
    let caption = format!(
        "Where the point meets the target with one and the same aim, seen from the archer{from}. \
         Each frame has its own scale. Crosses: the band over the poorly known values{}.",
        if several { " (of a bare shaft, against its own fletched arrow)" } else { "" }
    );
    let frames = (0..tuned.distances.len()).map(one).collect();
    Figure::new("tune-impacts", caption, each_its_own(frames, key, style))
}

/// The paper as it is torn: hole, tear and vanes, to one scale.
pub(super) fn paper(tuned: &Tuned, at: usize, style: Style) -> Figure {
    let build = &tuned.builds[at];
    // How far from the middle of a tear its sheet must reach, m.
    let reach = |tear: &Tear| {
        let half = tear.nock.left.value.abs().max(tear.nock.up.value.abs()) / 2.0;
        1.15 * (half + build.vane_radius)
    };
    let half = Role::Impact.value(build.paper.iter().map(reach).fold(0.0, f64::max), style);
    let sheet = |tear: &Tear| {
        let nock = [tear.nock.left.value, tear.nock.up.value];
        let mut frame = Frame::new((half, half), torn(build, tear, style));
        frame.middle = spot(nock.map(|part| part / 2.0), style);
        frame.head = format!("at {}", show::plain(Role::Range, tear.distance.si(), style));
        frame.under = words::direction(nock, style).map_or_else(
            || vec!["nock in the hole".to_owned()],
            |words| words.split(" and ").map(|part| format!("nock {part}")).collect(),
        );
        frame
    };
    let rows = Frames::rows(build.paper.iter().map(sheet).collect(), 3);
    let mut frames =
        Frames { most: 200.0, ..Frames::on_one_scale(rows, Role::Impact.symbol(style)) };
    frames.key = vec![
        Entry::shape(Shape::Dot(3.0, 1.0), series(1), "tip"),
        Entry::shape(Shape::Ring(5.0), series(0), "nock"),
    ];
    let caption = format!(
        "The paper{}, seen from the bow, all to one scale. The arrow's tip makes the hole; the \
         tear runs to where the nock passes, with a slit for each vane.",
        super::super::common::of(tuned.builds.len() > 1, &tuned.builds[at].name)
    );
    Figure::new(format!("tune-paper-{}", at + 1), caption, frames)
}

fn torn(build: &TunedBuild, tear: &Tear, style: Style) -> Vec<Mark> {
    let nock = [tear.nock.left.value, tear.nock.up.value];
    let radius = build.shaft_radius;
    // The outline of a shaft drawn along the tear.
    let along = nock[1].atan2(nock[0]);
    let half_turn = |centre: [f64; 2], start: f64| {
        (0..=24).map(move |step| {
            let (sin, cos) = (start + PI * f64::from(step) / 24.0).sin_cos();
            spot([centre[0] + radius * cos, centre[1] + radius * sin], style)
        })
    };
    let mut edge: Vec<(f64, f64)> = half_turn(nock, along - FRAC_PI_2).collect();
    edge.extend(half_turn([0.0; 2], along + FRAC_PI_2));
    edge.extend(edge.first().copied());
    let slit = |clock: &f64| {
        let (sin, cos) = clock.sin_cos();
        let at = |reach: f64| spot([nock[0] - reach * sin, nock[1] + reach * cos], style);
        Series::line(vec![at(radius), at(build.vane_radius)], Pen::solid(INK, 1.6)).into()
    };
    let mut marks = vec![Mark::Area { edge: edge.clone(), colour: INK, alpha: 0.16 }];
    marks.extend(tear.vanes.iter().map(slit));
    marks.push(Series::line(edge, Pen::solid(INK, 1.2)).into());
    marks.push(Mark::ring(spot(nock, style), Role::Impact.value(radius, style), Pen::series(0)));
    marks.push(Series::spots(vec![(0.0, 0.0)], Shape::Dot(2.6, 1.0), series(1)).into());
    marks
}

/// The farthest distance that every step of turning the nock reaches.
pub(super) fn farthest(build: &TunedBuild) -> Option<usize> {
    let steps = &build.turns.steps;
    let count = steps.first()?.moved.len();
    (0..count).rev().find(|&at| steps.iter().all(|turn| turn.moved[at].is_some()))
}

/// Turning the nock: a dial of its places and where each one's arrow lands.
pub(super) fn nock(tuned: &Tuned, at: usize, far: usize, style: Style) -> Figure {
    let build = &tuned.builds[at];
    let range = show::plain(Role::Range, tuned.distances[far].si(), style);
    let groove = Series::line(vec![(0.0, -0.24), (0.0, 0.24)], Pen::solid(INK, 4.0));
    let mut dial = vec![Mark::ring((0.0, 0.0), 1.0, Pen::solid(SOFT, 1.2)), groove.into()];
    let (mut offsets, mut bands, mut spots, mut key) =
        (Vec::new(), Vec::new(), Vec::new(), Vec::new());
    for (step, turn) in build.turns.steps.iter().enumerate() {
        let degrees = words::degrees(turn.angle);
        let (sin, cos) = turn.angle.sin_cos();
        let (shape, colour) = (Shape::Series(step), series(step));
        let words = format!("{degrees} deg");
        dial.push(Series::spots(vec![(-sin, cos)], shape, colour).into());
        let at = (-1.45 * sin, 1.45 * cos);
        dial.push(Mark::Text(Text { at, words, side: Side::Middle, colour: INK }));
        let Some(offset) = &turn.moved[far] else { continue };
        let place = end([0.0; 2], offset);
        offsets.push(([0.0; 2], offset));
        bands.extend(cross([0.0; 2], offset, style));
        spots.push(Series::spots(vec![spot(place, style)], shape, colour).into());
        let lands = words::direction(place, style).unwrap_or_else(|| "the same place".to_owned());
        let words = if step == 0 {
            "as it is".to_owned()
        } else {
            format!("turned {degrees} deg: {lands}")
        };
        key.push(Entry::shape(shape, colour, words));
    }
    let head = "nock, from behind".to_owned();
    let dial = Frame { edge: false, head, ..Frame::new((1.78, 1.78), dial) };
    // Chosen: less shows nowhere.
    let mut impacts = frame(&offsets, 1e-3, style);
    impacts.head = format!("impact at {range}");
    impacts.marks.extend(bands.into_iter().chain(spots));
    let caption = format!(
        "The nock{} turned clockwise in the shaft, seen from behind, and where the arrow lands at \
         {range} with each turn. Crosses: the band over the poorly known values.",
        super::super::common::of(tuned.builds.len() > 1, &tuned.builds[at].name)
    );
    let frames = each_its_own(vec![dial, impacts], key, style);
    Figure::new(format!("tune-nock-{}", at + 1), caption, frames)
}
