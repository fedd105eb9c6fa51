//! Groups on the face: every build and distance on one scale.

use study::{Answer, MarkAnswer, Sampled, TargetChoice};
use units::{Role, Style};

use super::Plot;
use super::axes::round_below;
use super::ink::{Dash, GRID, INK, Pen, SOFT, series};
use super::paper::{Cell, Drawn, Paper, Spot, TEXT, WIDTH, fit, sheet};
use crate::{ReportError, show};

/// Arrows drawn in one frame; chosen: enough to see the shape, few enough for
/// a small file.
const DRAWN: usize = 120;
/// Room of a frame over R90; chosen: about one arrow in thirty of a round
/// normal group falls outside.
const ROOM: f64 = 1.25;
const EDGE: f64 = 8.0;
const GAP: f64 = 5.0;
const TITLE: f64 = 26.0;
const UNDER: f64 = 20.0;

/// What a frame shows: archer and arrows, or the machine.
type Pick = fn(&MarkAnswer) -> &Sampled;
const KINDS: [(&str, Pick); 2] =
    [("archer and arrows", |mark| &mark.full), ("machine only", |mark| &mark.machine)];

/// The frames of one row and the scale they share.
struct Layout {
    /// Half the width of each frame, m.
    half: Vec<f64>,
    /// Pixels in a metre.
    scale: f64,
}

/// Draws two rows a build. Frames widen with the distance; one scale holds
/// for all.
pub(super) fn draw(answer: &Answer, style: Style) -> Result<Plot, ReportError> {
    let layout = layout(answer);
    let tall = KINDS.map(|(_, pick)| row_height(answer, &layout, pick));
    let rows = answer.builds.len() as f64;
    let block: f64 = tall.iter().map(|height| TITLE + height + UNDER).sum();
    let top = 24.0;
    let foot = top + rows * block;
    let hidden = hidden(answer, &layout, tall);
    let caption = format!(
        "Where the arrows land, seen from the archer, all on one scale. The number below \
         a frame is its R50, {}.{hidden}",
        Role::Impact.symbol(style)
    );
    let svg = sheet("faces.svg", &caption, foot + 84.0, |paper| {
        let mut left = EDGE;
        for (mark, half) in answer.builds[0].marks.iter().zip(&layout.half) {
            let wide = 2.0 * half * layout.scale;
            let last = left + wide > WIDTH - EDGE - 1.0;
            let text = if last {
                show::plain(Role::Range, mark.distance.si(), style)
            } else {
                show::plain_number(Role::Range, mark.distance.si(), style)
            };
            paper.centre(&text, (left + wide / 2.0, 14.0), TEXT, INK)?;
            left += wide + GAP;
        }
        let mut y = top;
        for (at, build) in answer.builds.iter().enumerate() {
            for ((what, pick), tall) in KINDS.iter().zip(tall) {
                let title = show::titled(answer, &build.name, what);
                paper.marker(at, (EDGE + 6.0, y + 14.0), series(at))?;
                let title = fit(&title, TEXT, WIDTH - 2.0 * EDGE - 20.0);
                paper.left(&title, (EDGE + 18.0, y + 14.0), TEXT, INK)?;
                let mut left = EDGE;
                for (mark, half) in build.marks.iter().zip(&layout.half) {
                    let right = left + 2.0 * half * layout.scale;
                    let middle = y + TITLE + tall / 2.0;
                    let half = tall.min(right - left) / 2.0;
                    let cell = Cell { left, top: middle - half, right, bottom: middle + half };
                    frame(paper, &cell, pick(mark), answer.target, layout.scale, at)?;
                    let r50 = Role::Impact.number(pick(mark).stats.r50.value, style);
                    let under = (f64::midpoint(left, right), y + TITLE + tall + 11.0);
                    paper.centre(&r50, under, 12.0, SOFT)?;
                    left = right + GAP;
                }
                y += TITLE + tall + UNDER;
            }
        }
        key(paper, answer.target, foot, layout.scale, style)
    })?;
    Ok(Plot { name: "faces.svg".to_owned(), caption, svg })
}

fn layout(answer: &Answer) -> Layout {
    let zone = match answer.target {
        TargetChoice::Zone { diameter } => diameter.si() / 2.0,
        TargetChoice::Ellipse { width, height } => width.si().max(height.si()) / 2.0,
        TargetChoice::Face { .. } => 0.0,
    };
    let half: Vec<f64> = (0..answer.builds[0].marks.len())
        .map(|at| {
            let groups = answer.builds.iter().map(|build| reach(&build.marks[at].full));
            let group = groups.fold(1e-3, f64::max);
            group.max((1.06 * zone).min(1.5 * group))
        })
        .collect();
    let gaps = GAP * (half.len() - 1) as f64;
    let scale = (WIDTH - 2.0 * EDGE - gaps) / half.iter().map(|h| 2.0 * h).sum::<f64>();
    Layout { half, scale }
}

/// How far from the point of aim a frame must reach for a group, m.
pub(super) fn reach(sampled: &Sampled) -> f64 {
    let group = &sampled.stats;
    group.centre.left.abs().max(group.centre.up.abs()) + ROOM * group.r90.value
}

/// Height of a row of frames: no more than the groups need.
fn row_height(answer: &Answer, layout: &Layout, pick: Pick) -> f64 {
    let marks = answer.builds.iter().flat_map(|build| &build.marks);
    let need = marks.map(|mark| 2.0 * reach(pick(mark)) * layout.scale).fold(0.0, f64::max);
    let most = layout.half.iter().map(|half| 2.0 * half * layout.scale).fold(0.0, f64::max);
    need.clamp(44.0_f64.min(most), most)
}

pub(super) fn place(cell: &Cell, left: f64, up: f64, scale: f64) -> Spot {
    let x = f64::midpoint(cell.left, cell.right) - left * scale;
    (x, f64::midpoint(cell.top, cell.bottom) - up * scale)
}

fn frame(
    paper: &Paper,
    cell: &Cell,
    sampled: &Sampled,
    target: TargetChoice,
    scale: f64,
    at: usize,
) -> Drawn {
    let corners = [
        (cell.left, cell.top),
        (cell.right, cell.top),
        (cell.right, cell.bottom),
        (cell.left, cell.bottom),
        (cell.left, cell.top),
    ];
    paper.line(&corners, Pen::solid(GRID, 1.0))?;
    let aim = place(cell, 0.0, 0.0, scale);
    for radius in rings(target) {
        paper.oval(aim, radius.map(|half| half * scale), cell, faint(target))?;
    }
    for impact in sampled.sample.iter().take(DRAWN) {
        let spot = place(cell, impact.left, impact.up, scale);
        if cell.holds(spot) {
            paper.dot(spot, 1.1, series(at), 0.55)?;
        }
    }
    let group = &sampled.stats;
    let centre = place(cell, group.centre.left, group.centre.up, scale);
    paper.ring(centre, group.r50.value * scale, cell, Pen::solid(INK, 1.3))?;
    let outer = Pen::solid(INK, 1.1).dash(Dash::Dashed);
    paper.ring(centre, group.r90.value * scale, cell, outer)
}

/// The look of the lines on the target: ten rings must stay fainter than one.
pub(super) fn faint(target: TargetChoice) -> Pen {
    match target {
        TargetChoice::Zone { .. } | TargetChoice::Ellipse { .. } => Pen::solid(SOFT, 0.7),
        TargetChoice::Face { .. } => Pen::solid(GRID, 1.0),
    }
}

/// Half the width and half the height of the lines on the target, m.
pub(super) fn rings(target: TargetChoice) -> Vec<[f64; 2]> {
    match target {
        TargetChoice::Zone { diameter } => vec![[diameter.si() / 2.0; 2]],
        TargetChoice::Ellipse { width, height } => vec![[width.si() / 2.0, height.si() / 2.0]],
        TargetChoice::Face { diameter, .. } => {
            (1..=10).map(|ring| [diameter.si() / 20.0 * f64::from(ring); 2]).collect()
        }
    }
}

/// A sentence on arrows that fell outside their frames; empty if none did.
fn hidden(answer: &Answer, layout: &Layout, tall: [f64; 2]) -> String {
    let (mut out, mut all) = (0, 0);
    for build in &answer.builds {
        for (mark, half) in build.marks.iter().zip(&layout.half) {
            for ((_, pick), tall) in KINDS.iter().zip(tall) {
                for impact in pick(mark).sample.iter().take(DRAWN) {
                    all += 1;
                    let high = half.min(tall / 2.0 / layout.scale);
                    out += usize::from(impact.left.abs() > *half || impact.up.abs() > high);
                }
            }
        }
    }
    if out == 0 {
        String::new()
    } else {
        format!(" {out} of {all} sampled arrows landed outside the frames.")
    }
}

/// Scale bar and the meaning of the rings.
fn key(paper: &Paper, target: TargetChoice, top: f64, scale: f64, style: Style) -> Drawn {
    let role = Role::Impact;
    let unit = role.unit(style).0;
    // A round length that fills about a quarter of the sheet.
    let round = round_below(unit.of_si(100.0 / scale));
    let long = unit.to_si(round) * scale;
    let y = top + 16.0;
    let bar = Pen::solid(INK, 1.4);
    paper.line(&[(EDGE, y), (EDGE + long, y)], bar)?;
    for x in [EDGE, EDGE + long] {
        paper.line(&[(x, y - 5.0), (x, y + 5.0)], bar)?;
    }
    let text = format!("{} {}", show::significant(round), unit.symbol);
    paper.left(&text, (EDGE + long + 8.0, y), TEXT, INK)?;
    let aim = match target {
        TargetChoice::Zone { diameter } => {
            format!("zone, {} across", show::plain(role, diameter.si(), style))
        }
        TargetChoice::Ellipse { width, height } => format!(
            "zone, {} by {}",
            show::plain_number(role, width.si(), style),
            show::plain(role, height.si(), style)
        ),
        TargetChoice::Face { diameter, .. } => {
            format!("rings of the {} face", show::plain(role, diameter.si(), style))
        }
    };
    let entries = [
        (Pen::solid(INK, 1.3), "R50: half land inside".to_owned(), EDGE, y + 26.0),
        (Pen::solid(INK, 1.1).dash(Dash::Dashed), "R90: nine in ten".to_owned(), 234.0, y + 26.0),
        (faint(target), aim, EDGE, y + 50.0),
    ];
    for (pen, text, x, y) in entries {
        paper.line(&[(x, y), (x + 26.0, y)], pen)?;
        paper.left(&text, (x + 34.0, y), TEXT, INK)?;
    }
    Ok(())
}
