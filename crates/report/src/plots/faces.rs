//! Groups on the face: every build and distance on one scale.

use draw::{
    Dash, Entry, Figure, Frame, FrameRow, Frames, GRID, INK, Mark, Pen, SOFT, Series, Shape, series,
};
use study::{BuildAnswer, MarkAnswer, Sampled, TargetChoice};
use units::{Role, Style};

use crate::show;

/// Arrows drawn in one frame; chosen: enough to see the shape, few enough for
/// a small file.
const DRAWN: usize = 120;
/// Room of a frame over R90; chosen: about one arrow in thirty of a round
/// normal group falls outside.
const ROOM: f64 = 1.25;

/// What a frame shows: archer and arrows, or the machine.
type Pick = fn(&MarkAnswer) -> &Sampled;
const KINDS: [(&str, Pick); 2] =
    [("archer and arrows", |mark| &mark.full), ("machine only", |mark| &mark.machine)];

/// Two rows a build. Frames widen with the distance; one scale holds for all.
pub(crate) fn draw(builds: &[BuildAnswer], target: TargetChoice, style: Style) -> Figure {
    let value = |si: f64| Role::Impact.value(si, style);
    let wide = half_widths(builds, target);
    let tall = KINDS.map(|(_, pick)| half_height(builds, &wide, pick));
    let (mut rows, mut hidden, mut all) = (Vec::new(), 0, 0);
    for (at, build) in builds.iter().enumerate() {
        for ((what, pick), tall) in KINDS.iter().zip(tall) {
            let mut frames = Vec::new();
            for (mark, wide) in build.marks.iter().zip(&wide) {
                let (sampled, half) = (pick(mark), (*wide, tall.min(*wide)));
                let drawn = sampled.sample.iter().take(DRAWN);
                all += drawn.len();
                hidden += drawn.filter(|i| i.left.abs() > half.0 || i.up.abs() > half.1).count();
                let mut marks = lines(target, style);
                marks.extend(group(sampled, at, style));
                let mut frame = Frame::new((value(half.0), value(half.1)), marks);
                frame.under = vec![Role::Impact.number(sampled.stats.r50.value, style)];
                if rows.is_empty() {
                    frame.head = show::plain_number(Role::Range, mark.distance.si(), style);
                }
                frames.push(frame);
            }
            if let (true, Some(last)) = (rows.is_empty(), frames.last_mut()) {
                last.head = format!("{} {}", last.head, Role::Range.symbol(style));
            }
            rows.push(FrameRow { title: Some((at, show::titled(builds, at, what))), frames });
        }
    }
    let hidden = if hidden == 0 {
        String::new()
    } else {
        format!(" {hidden} of {all} sampled arrows landed outside the frames.")
    };
    let mut frames = Frames::on_one_scale(rows, Role::Impact.symbol(style));
    frames.key = vec![
        Entry::line(Pen::solid(INK, 1.3), "half land inside"),
        Entry::line(Pen::solid(INK, 1.1).dash(Dash::Dashed), "nine in ten"),
        Entry::line(faint(target), aim(target, style)),
    ];
    Figure::new(
        "faces",
        format!(
            "Where the arrows land, seen from the archer, all on one scale. The number below \
             a frame is how near to the middle half land, {}.{hidden}",
            Role::Impact.symbol(style)
        ),
        frames,
    )
}

/// Half the width of the frame of each distance, m.
fn half_widths(builds: &[BuildAnswer], target: TargetChoice) -> Vec<f64> {
    let zone = zone(target);
    let half = |at: usize| {
        let groups = builds.iter().map(|build| reach(&build.marks[at].full));
        let group = groups.fold(1e-3, f64::max);
        group.max((1.06 * zone).min(1.5 * group))
    };
    (0..builds[0].marks.len()).map(half).collect()
}

/// Half the height of a row of frames, m: no more than the groups need, but a
/// tenth of the sheet.
fn half_height(builds: &[BuildAnswer], wide: &[f64], pick: Pick) -> f64 {
    let marks = builds.iter().flat_map(|build| &build.marks);
    let need = marks.map(|mark| reach(pick(mark))).fold(0.0, f64::max);
    need.max(0.1 * wide.iter().sum::<f64>())
}

/// How far from the point of aim a frame must reach for a group, m.
pub(super) fn reach(sampled: &Sampled) -> f64 {
    let group = &sampled.stats;
    group.centre.left.abs().max(group.centre.up.abs()) + ROOM * group.r90.value
}

/// Half the width of a zone, m; nothing for a face.
pub(super) fn zone(target: TargetChoice) -> f64 {
    match target {
        TargetChoice::Zone { diameter } => diameter.si() / 2.0,
        TargetChoice::Ellipse { width, height } => width.si().max(height.si()) / 2.0,
        TargetChoice::Face { .. } => 0.0,
    }
}

/// The arrows of a group and its rings.
fn group(sampled: &Sampled, at: usize, style: Style) -> [Mark; 3] {
    let value = |si: f64| Role::Impact.value(si, style);
    let group = &sampled.stats;
    let centre = (value(group.centre.left), value(group.centre.up));
    [
        dots(sampled, DRAWN, Shape::Dot(1.1, 0.55), at, style),
        Mark::ring(centre, value(group.r50.value), Pen::solid(INK, 1.3)),
        Mark::ring(centre, value(group.r90.value), Pen::solid(INK, 1.1).dash(Dash::Dashed)),
    ]
}

/// The first arrows of a group.
pub(super) fn dots(sampled: &Sampled, most: usize, shape: Shape, at: usize, style: Style) -> Mark {
    let value = |si: f64| Role::Impact.value(si, style);
    let spots = sampled.sample.iter().take(most).map(|i| (value(i.left), value(i.up)));
    Series::spots(spots.collect(), shape, series(at)).into()
}

/// The look of the lines on the target: ten rings must stay fainter than one.
fn faint(target: TargetChoice) -> Pen {
    match target {
        TargetChoice::Zone { .. } | TargetChoice::Ellipse { .. } => Pen::solid(SOFT, 0.7),
        TargetChoice::Face { .. } => Pen::solid(GRID, 1.0),
    }
}

/// The lines on the target.
pub(super) fn lines(target: TargetChoice, style: Style) -> Vec<Mark> {
    let halves = match target {
        TargetChoice::Zone { diameter } => vec![[diameter.si() / 2.0; 2]],
        TargetChoice::Ellipse { width, height } => vec![[width.si() / 2.0, height.si() / 2.0]],
        TargetChoice::Face { diameter, .. } => {
            (1..=10).map(|ring| [diameter.si() / 20.0 * f64::from(ring); 2]).collect()
        }
    };
    let oval = |half: [f64; 2]| Mark::Oval {
        centre: (0.0, 0.0),
        half: half.map(|si| Role::Impact.value(si, style)),
        pen: faint(target),
    };
    halves.into_iter().map(oval).collect()
}

/// What the lines on the target are.
fn aim(target: TargetChoice, style: Style) -> String {
    match target {
        TargetChoice::Face { diameter, .. } => {
            format!("rings of the {} face", show::plain(Role::Impact, diameter.si(), style))
        }
        zone => format!("zone, {}", show::across(zone, style).unwrap_or_default()),
    }
}
